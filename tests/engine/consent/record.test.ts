/** Rule 15: what a consent must hold, revisions and their difference, the chained history, guarded changes. */
import { describe, expect, it } from 'vitest';
import { appendHistory, checkHistory } from '../../../src/consent/history.js';
import { type ConsentDetails, consentProblems, readConsents, recordConsent } from '../../../src/consent/record.js';
import { replyRefusal, sharedEntry, withDecisions } from '../../../src/consent/reply.js';
import { difference, isFixed, revise, standing } from '../../../src/consent/revision.js';
import type { Estimate } from '../../../src/documents/estimate.js';
import type { AuthorisationRule } from '../../../src/documents/rates.js';
import { parseEstimate, priceEstimate, type PricedEstimate, type Reply } from '../../../src/index.js';
import { reduce } from '../../../src/store/reduce.js';
import { guarded } from '../../../src/store/guarded.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, aStep, operationLine, partLine } from '../../support/builders.js';
import type { LineDoc } from '../../support/oracle-documents.js';

// Worked check of the rules: plenum 1.2 h shared, gasket 2.0 h, O-rings 2.6 h that also need a rail of 0.5 h, 150.00 an hour.
const catalogue = aCatalogue({
  steps: [aStep('plenum', '1.2'), aStep('rail', '0.5')],
  operations: [
    anOperation('gasket', '2', { steps: ['plenum'] }),
    anOperation('rings', '2.6', { steps: ['plenum', 'rail'] }),
    anOperation('wash', '0.1'),
  ],
});
const rates = aRateCard({ labourClasses: [{ id: 'general', title: 'General', rate: '150.00' }] });
/** C.R.S. 42-9-105(1): ten per cent or 25.00, whichever is less. */
const colorado: AuthorisationRule = { percent: '10', amount: '25', pick: 'lesser', cap: null, base: 'total', source: 'C.R.S. 42-9-105(1)' };

function estimateOf(lines: LineDoc[] = [operationLine('g', 'gasket'), operationLine('r', 'rings')]): Estimate {
  const read = parseEstimate(anEstimate(lines));
  if (!read.ok) throw new Error('builder');
  return read.value;
}
const price = (estimate: Estimate): PricedEstimate => priceEstimate({ estimate, catalogue, rates } as never);
const details: ConsentDetails = {
  at: '2026-03-02T15:00:00Z',
  by: 'A. Customer',
  takenBy: 'B. Advisor',
  how: 'phone',
  contact: '+1 303 555 0142',
};

function authorised(estimate = estimateOf()): Estimate {
  const recorded = recordConsent(estimate, price(estimate), colorado, details);
  if (!recorded.ok) throw new Error(JSON.stringify(recorded.problems));
  return recorded.estimate;
}

describe('a consent', () => {
  it('is not recorded for a price that has more digits than a record can hold', () => {
    const dear = partLine('p', '999999999999', '2');
    const estimate = estimateOf([dear]);
    expect(price(estimate).totals.total).toBe('1999999999998.00');
    const recorded = recordConsent(estimate, price(estimate), colorado, details);
    expect(recorded.ok ? [] : recorded.problems.map(({ code }) => code)).toEqual(['too-large']);
  });

  it('holds date and time, who gave and took it, how, contact, work and cost added, new total', () => {
    const estimate = authorised();
    const [consent] = readConsents(estimate).consents;
    expect(consent).toMatchObject({
      ...details,
      revision: 1,
      added: ['Operation gasket', 'Operation rings'],
      addedCost: '510.00',
      total: '510.00',
      base: '510.00',
      currency: 'USD',
    });
    expect(consent!.lines.map(({ id, amount, sharedHours, decision }) => [id, amount, sharedHours, decision])).toEqual([
      ['g', '120.00', '1.2', 'approved'],
      ['r', '390.00', '0', 'approved'],
    ]);
    expect(estimate.lines.map((line) => line.decision)).toEqual(['approved', 'approved']);
  });

  it.each(['', ' ', '\ufeff'])('names a line without a title by its id: %j', (title) => {
    const estimate = authorised(estimateOf([{ ...partLine('p1', '1', '2.00'), title }]));
    expect(readConsents(estimate)).toMatchObject({ consents: [{ added: ['p1'] }], problems: [] });
  });

  it('leaves the estimate that it was given as it is, and reads again after a round through JSON', () => {
    const before = estimateOf();
    const copy = structuredClone(before);
    const after = authorised(before);
    expect(before).toEqual(copy);
    const read = parseEstimate(JSON.stringify(after));
    expect(read.ok && readConsents(read.value)).toEqual({ consents: readConsents(after).consents, problems: [] });
  });

  it('does not turn a declined line into an approved one, nor name it among the work added', () => {
    const estimate = authorised(estimateOf([operationLine('g', 'gasket'), operationLine('r', 'rings', { decision: 'declined' })]));
    expect(estimate.lines.map((line) => line.decision)).toEqual(['approved', 'declined']);
    // Declining the O-rings leaves the gasket at its full 300.00.
    expect(readConsents(estimate).consents[0]).toMatchObject({ total: '300.00', added: ['Operation gasket'] });
  });

  it.each([
    ['by', { by: ' ' }],
    ['takenBy', { takenBy: '' }],
    ['at', { at: '' }],
    ['contact', { contact: '' }],
  ] as const)('is refused without %s, with a hint', (path, missing) => {
    const estimate = estimateOf();
    const refused = recordConsent(estimate, price(estimate), colorado, { ...details, ...missing });
    expect(refused.ok).toBe(false);
    expect(!refused.ok && refused.problems.map((problem) => [problem.path, problem.hint !== undefined])).toEqual([[path, true]]);
  });

  it('in person needs no contact', () => {
    expect(consentProblems({ ...details, how: 'in person', contact: '' })).toEqual([]);
  });

  it('is refused while a line cannot be priced', () => {
    const estimate = estimateOf([operationLine('g', 'gasket'), operationLine('x', 'nowhere')]);
    expect(recordConsent(estimate, price(estimate), colorado, details)).toMatchObject({ ok: false, problems: [{ code: 'incomplete' }] });
  });

  it('that somebody else wrote badly is told and left out', () => {
    const estimate = { ...authorised(), consents: [{ hello: 1 }, ...authorised().consents] } as Estimate;
    const read = readConsents(estimate);
    expect(read.consents).toHaveLength(1);
    expect(read.problems).toMatchObject([{ path: 'consents[0]', severity: 'error' }]);
  });
});

describe('a revision', () => {
  const longer = (estimate: Estimate, hours: string): Estimate => ({
    ...estimate,
    lines: estimate.lines.map((line) => (line.id === 'r' ? { ...line, bookHours: hours } : line)),
  });

  it('within the headroom needs no new consent; one cent of an hour above it does', () => {
    // 510.00 + min(51.00, 25.00) = 535.00. 2.7 h: 525.00. 2.8 h: 540.00.
    const revision = revise(authorised(), '2026-03-03T09:00:00Z');
    expect(standing(longer(revision, '2.7'), price(longer(revision, '2.7')), colorado)!.need).toEqual({
      needed: false,
      price: '525.00',
      headroom: '25.00',
      limit: '535.00',
      over: '0.00',
    });
    expect(standing(longer(revision, '2.8'), price(longer(revision, '2.8')), colorado)!.need).toMatchObject({ needed: true, over: '5.00' });
  });

  it('tells lines added, removed and moved, and why', () => {
    const before = authorised();
    const consent = readConsents(before).consents[0]!;
    const lines = [...longer(before, '2.8').lines.filter((line) => line.id !== 'g'), ...estimateOf([operationLine('w', 'wash')]).lines];
    const { added, removed, moved } = difference(consent.lines, price({ ...before, lines }));
    expect(added).toEqual([{ id: 'w', title: 'Operation wash', amount: '15.00' }]);
    expect(removed).toEqual([{ id: 'g', title: 'Operation gasket', amount: '120.00' }]);
    expect(moved).toEqual([{ id: 'r', title: 'Operation rings', from: '390.00', to: '420.00', why: ['book hours'] }]);
  });

  it('tells that a teardown came back to a line when the other was declined', () => {
    const before = authorised();
    const lines = before.lines.map((line) => (line.id === 'r' ? { ...line, decision: 'declined' as const } : line));
    const { moved } = difference(readConsents(before).consents[0]!.lines, price({ ...before, lines }));
    expect(moved).toEqual([
      { id: 'g', title: 'Operation gasket', from: '120.00', to: '300.00', why: ['shared teardown'] },
      { id: 'r', title: 'Operation rings', from: '390.00', to: '0.00', why: ['decision'] },
    ]);
  });

  it('stands on nothing before the first consent', () => {
    expect(standing(estimateOf(), price(estimateOf()), colorado)).toBeNull();
    expect(isFixed(estimateOf())).toBe(false);
  });
});

describe('changes to an estimate that is fixed', () => {
  const command = (estimate: Estimate) => ({ do: 'put', list: 'lines', entry: { ...estimate.lines[0]!, decision: 'declined' } }) as const;

  it('make the next revision first; the consent and the history stay', () => {
    const estimate = authorised();
    const state = { estimate, pending: new Map() };
    const next = guarded([command(estimate)], state, '2026-03-03T09:00:00Z').reduce(reduce, state).estimate;
    expect(next.revision).toBe(2);
    expect(next.consents).toEqual(estimate.consents);
    expect(next.history.map((entry) => [entry['what'], entry['revision']])).toEqual([
      ['authorised', 1],
      ['revised', 2],
    ]);
    expect(checkHistory(next)).toEqual([]);
    expect(isFixed(next)).toBe(false);
  });

  it('also after a copy was sealed for the customer', () => {
    const open = estimateOf();
    const shared = appendHistory(open, sharedEntry(price(open), 'h'.repeat(43), '2026-03-02T15:00:00Z'));
    expect(isFixed(shared)).toBe(true);
    expect(guarded([command(shared)], { estimate: shared, pending: new Map() }, 'now')[0]).toEqual({ do: 'revise', at: 'now' });
  });

  it('but not for what is no part of the price, and not before anybody has seen it', () => {
    const estimate = authorised();
    const state = { estimate, pending: new Map() };
    const words = [{ do: 'set-job', fields: { concern: 'Drips' } }] as const;
    expect(guarded(words, state, 'now')).toBe(words);
    const open = { estimate: estimateOf(), pending: new Map() };
    const change = [command(open.estimate)];
    expect(guarded(change, open, 'now')).toBe(change);
  });
});

describe('the history', () => {
  const two = (): Estimate => revise(authorised(), '2026-03-03T09:00:00Z');

  it('holds when it is as it was written, also after a round through JSON', () => {
    expect(checkHistory(two())).toEqual([]);
    expect(checkHistory(JSON.parse(JSON.stringify(two())) as Estimate)).toEqual([]);
  });

  it.each([
    ['a total changed', (history: any[]) => [{ ...history[0], total: '1.00' }, history[1]]],
    ['the first entry taken out', (history: any[]) => history.slice(1)],
    ['two exchanged', (history: any[]) => [history[1], history[0]]],
    ['something added to an entry', (history: any[]) => [history[0], { ...history[1], note: 'x' }]],
    ['a hash taken away', (history: any[]) => [history[0], { ...history[1], hash: undefined }]],
  ])('tells %s', (_, tamper) => {
    const estimate = { ...two(), history: tamper([...two().history]) };
    expect(checkHistory(estimate)).toMatchObject([{ code: 'broken-history', severity: 'error' }]);
  });
});

describe('a reply', () => {
  const hash = `${'h'.repeat(42)}A`;
  const sealed = (): Estimate => appendHistory(estimateOf(), sharedEntry(price(estimateOf()), hash, '2026-03-02T15:00:00Z'));
  const reply = (more: Partial<Reply> = {}): Reply => ({
    estimate: estimateOf().id,
    revision: 1,
    hash,
    at: '2026-03-02T16:00:00Z',
    name: 'A. Customer',
    contact: { kind: 'phone', value: '1' },
    decisions: { g: 'approved', r: 'declined' },
    total: '300.00',
    currency: 'USD',
    locale: 'en-US',
    consent: 'Yes.',
    ...more,
  });
  const refusal = (estimate: Estimate, given: Reply) =>
    replyRefusal(estimate, given, price(estimate), price(withDecisions(estimate, given)));

  it('to this revision, with the total that it comes to, is taken', () => {
    expect(refusal(sealed(), reply())).toBeNull();
    expect(withDecisions(sealed(), reply()).lines.map((line) => line.decision)).toEqual(['approved', 'declined']);
  });

  it('decides on the lines that it names and no others, whatever they are called', () => {
    const names = ['constructor', '__proto__', 'toString'];
    const estimate = estimateOf(names.map((id) => operationLine(id, 'wash')));
    const decisions = JSON.parse('{"__proto__":"declined"}') as Reply['decisions'];
    expect(withDecisions(estimate, reply({ decisions })).lines.map(({ id, decision }) => [id, decision])).toEqual([
      ['constructor', 'proposed'],
      ['__proto__', 'declined'],
      ['toString', 'proposed'],
    ]);
  });

  it.each([[5], [null], [[null]], [[{ id: 'g' }]], ['lines']])('a history with %j in the place of lines keeps it from nothing', (lines) => {
    const estimate = sealed();
    const history = estimate.history.map((entry) => ({ ...entry, lines }));
    expect(refusal({ ...estimate, history }, reply())).toBeNull();
    expect(refusal({ ...estimate, history }, reply({ revision: 2 }))).toMatchObject({ problems: [{ code: 'stale' }] });
  });

  it.each([
    ['other-estimate', reply({ estimate: 'another' })],
    ['stale', reply({ revision: 2 })],
    ['lost-lines', reply({ decisions: { g: 'approved', gone: 'approved' } })],
    ['price-moved', reply({ total: '299.99' })],
    ['price-moved', reply({ currency: 'EUR' })],
  ])('is refused: %s', (code, given) => {
    expect(refusal(sealed(), given)).toMatchObject({ problems: [{ code, severity: 'error' }] });
  });

  it('that is stale says what has changed since its copy was made', () => {
    const shared = sealed();
    const lines = shared.lines.map((line) => (line.id === 'r' ? { ...line, bookHours: '3' } : line)) as Estimate['lines'];
    const now = revise({ ...shared, lines }, '2026-03-03T09:00:00Z');
    expect(refusal(now, reply())!.difference!.moved).toEqual([
      { id: 'r', title: 'Operation rings', from: '390.00', to: '450.00', why: ['book hours'] },
    ]);
  });
});
