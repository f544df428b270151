/** What comes after the first consent: further ones, revisions, differences and their reasons, replies, the written history. */
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { appendHistory, checkHistory } from '../../../src/consent/history.js';
import { type Consent, type ConsentDetails, consentProblems, linesNow, readConsents, recordConsent } from '../../../src/consent/record.js';
import { replyRefusal, sharedEntry, withDecisions } from '../../../src/consent/reply.js';
import { difference, isFixed, revise } from '../../../src/consent/revision.js';
import type { Estimate } from '../../../src/documents/estimate.js';
import { parseEstimate, priceEstimate, type PricedEstimate, type Reply } from '../../../src/index.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, aStep, operationLine, partLine } from '../../support/builders.js';
import type { LineDoc } from '../../support/oracle-documents.js';

// The worked check of the rules: a plenum of 1.2 h shared by a gasket job of 2.0 h and an O-ring job of 2.6 h.
const catalogue = aCatalogue({
  steps: [aStep('plenum', '1.2'), aStep('rail', '0.5')],
  operations: [
    anOperation('gasket', '2', { steps: ['plenum'] }),
    anOperation('rings', '2.6', { steps: ['plenum', 'rail'] }),
    anOperation('wash', '0.1'),
  ],
});
const NOTE: LineDoc = { id: 'n', kind: 'note', text: 'Ask again in May.' };
const AT = '2026-03-02T15:00:00Z';

function card(rate: string, currency = 'USD') {
  return aRateCard({ currency, labourClasses: [{ id: 'general', title: 'General', rate }] });
}

function read(lines: LineDoc[]): Estimate {
  const parsed = parseEstimate(anEstimate(lines));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
}

function price(estimate: Estimate, rates = card('150.00')): PricedEstimate {
  return priceEstimate({ estimate, catalogue, rates } as never);
}

function details(more: Partial<ConsentDetails> = {}): ConsentDetails {
  return { at: AT, by: 'A. Customer', takenBy: 'B. Advisor', how: 'phone', contact: '+1 303 555 0142', ...more };
}

function authorise(estimate: Estimate, rates = card('150.00')): { estimate: Estimate; consent: Consent } {
  const recorded = recordConsent(estimate, price(estimate, rates), null, details());
  if (!recorded.ok) throw new Error(JSON.stringify(recorded.problems));
  return recorded;
}

const gasketAndRings = (): Estimate => read([operationLine('g', 'gasket'), operationLine('r', 'rings')]);
const withLines = (estimate: Estimate, more: LineDoc[]): Estimate => ({ ...estimate, lines: [...estimate.lines, ...read(more).lines] });
const decide = (estimate: Estimate, id: string, decision: 'approved' | 'declined'): Estimate => ({
  ...estimate,
  lines: estimate.lines.map((line) => (line.id === id ? { ...line, decision } : line)),
});

describe('each further consent', () => {
  it('names only the work and the cost that it adds to the one before', () => {
    const first = authorise(gasketAndRings());
    // 0.1 h more: 15.00.
    const second = authorise(withLines(revise(first.estimate, AT), [operationLine('w', 'wash')]));
    expect(second.consent).toMatchObject({ id: 'c2', revision: 2, added: ['Operation wash'], addedCost: '15.00', total: '525.00' });
    const third = authorise(withLines(revise(second.estimate, AT), [partLine('p', '1', '9.00')]));
    expect(third.consent).toMatchObject({ id: 'c3', revision: 3, addedCost: '9.00', total: '534.00' });
    expect(third.consent.added).toHaveLength(1);
    expect(readConsents(third.estimate).consents.map(({ id }) => id)).toEqual(['c1', 'c2', 'c3']);
  });

  it('names work that was declined at first and is wanted now', () => {
    const first = authorise(decide(gasketAndRings(), 'r', 'declined'));
    const second = authorise(decide(revise(first.estimate, AT), 'r', 'approved'));
    // Declining left the gasket at 300.00; together they are 510.00.
    expect(second.consent).toMatchObject({ added: ['Operation rings'], addedCost: '210.00', total: '510.00' });
  });

  it('may take something off', () => {
    const first = authorise(gasketAndRings());
    const second = authorise(decide(revise(first.estimate, AT), 'r', 'declined'));
    expect(second.consent).toMatchObject({ added: [], addedCost: '-210.00', total: '300.00' });
  });
});

describe('a consent', () => {
  it('has no sentence and no note where nobody wrote one, and keeps those that were written', () => {
    expect(authorise(gasketAndRings()).consent).toMatchObject({ sentence: '', note: '' });
    const recorded = recordConsent(gasketAndRings(), price(gasketAndRings()), null, details({ sentence: 'Yes, do it.', note: 'By noon.' }));
    expect(recorded.ok && recorded.consent).toMatchObject({ sentence: 'Yes, do it.', note: 'By noon.' });
  });

  it('is about priced lines: a note is none of them, and stays as it is', () => {
    const before = read([operationLine('g', 'gasket'), NOTE]);
    const { estimate, consent } = authorise(before);
    expect(consent.lines.map(({ id }) => id)).toEqual(['g']);
    expect(estimate.lines[1]).toBe(before.lines[1]);
  });

  it('in a currency without minor unit has whole figures', () => {
    const yen = card('15000', 'JPY');
    const first = authorise(gasketAndRings(), yen);
    expect(first.consent).toMatchObject({ addedCost: '51000', total: '51000', currency: 'JPY' });
    expect(authorise(withLines(revise(first.estimate, AT), [operationLine('w', 'wash')]), yen).consent.addedCost).toBe('1500');
  });

  it('is refused where a page leaves out what must be said, or the price lacks something, each under its own code', () => {
    expect(consentProblems(details({ by: undefined as never }))).toMatchObject([{ code: 'missing', path: 'by' }]);
    const lost = read([operationLine('g', 'nowhere')]);
    const refused = recordConsent(lost, price(lost), null, details());
    expect(refused).toMatchObject({ ok: false, problems: [{ code: 'incomplete', path: '' }] });
  });

  it('is refused for a line that has more digits than a record can hold, though a credit brings the total down again', () => {
    const estimate = read([partLine('p', '999999999999', '2'), partLine('q', '-999999999999', '2')]);
    expect(price(estimate).totals.total).toBe('0.00');
    expect(recordConsent(estimate, price(estimate), null, details())).toMatchObject({
      ok: false,
      problems: [{ code: 'too-large', path: '' }],
    });
  });

  it('that cannot be read is told under its code', () => {
    expect(readConsents({ ...gasketAndRings(), consents: [{}] }).problems).toMatchObject([{ code: 'consent', path: 'consents[0]' }]);
  });
});

describe('a revision', () => {
  it('writes into the history what stands authorised', () => {
    const first = authorise(gasketAndRings()).estimate;
    const second = authorise(withLines(revise(first, AT), [operationLine('w', 'wash')])).estimate;
    const totals = [gasketAndRings(), first, second].map((estimate) => revise(estimate, AT).history.at(-1));
    expect(totals).toMatchObject([
      { total: '0', by: '', revision: 2 },
      { total: '510.00', revision: 2 },
      { total: '525.00', revision: 3 },
    ]);
  });

  it('may be changed in place until it is shown or authorised itself', () => {
    const shared = appendHistory(gasketAndRings(), sharedEntry(price(gasketAndRings()), 'h'.repeat(43), AT));
    expect([isFixed(shared), isFixed(revise(shared, AT))]).toEqual([true, false]);
  });
});

describe('what has moved, and why', () => {
  const since = linesNow(price(authorise(gasketAndRings()).estimate));
  const approved = authorise(gasketAndRings()).estimate;

  it('only the labour rate', () => {
    // 0.8 h and 2.6 h at 160.00.
    expect(difference(since, price(approved, card('160.00'))).moved.map(({ id, to, why }) => [id, to, why])).toEqual([
      ['g', '128.00', ['labour rate']],
      ['r', '416.00', ['labour rate']],
    ]);
  });

  it('a part', () => {
    const before = read([partLine('p', '1', '9.00')]);
    const after = read([partLine('p', '2', '9.00')]);
    expect(difference(linesNow(price(before)), price(after)).moved).toMatchObject([{ from: '9.00', to: '18.00', why: ['parts and fees'] }]);
  });

  it('a decision alone, at the same price', () => {
    const { moved } = difference(linesNow(price(gasketAndRings())), price(approved));
    expect(moved.map(({ id, from, to, why }) => [id, from, to, why])).toEqual([
      ['g', '120.00', '120.00', ['decision']],
      ['r', '390.00', '390.00', ['decision']],
    ]);
  });

  it('a decision that ends the sharing is told as the decision', () => {
    const { moved } = difference(since, price(decide(approved, 'g', 'declined')));
    expect(moved.map(({ id, why }) => [id, why])).toEqual([['g', ['decision']]]);
  });

  it('nothing, where nothing has', () => {
    expect(difference(since, price(approved))).toEqual({ added: [], removed: [], moved: [] });
  });
});

describe('a reply', () => {
  const reply = (more: Partial<Reply> = {}): Reply => ({
    estimate: gasketAndRings().id,
    revision: 1,
    hash: 'h'.repeat(43),
    at: AT,
    name: 'A. Customer',
    contact: { kind: 'phone', value: '1' },
    decisions: { g: 'declined' },
    total: '390.00',
    currency: 'USD',
    locale: 'en-US',
    consent: 'Yes.',
    ...more,
  });

  it('changes the lines that it decides on, and no other, and none that was decided so already', () => {
    const before = decide(gasketAndRings(), 'g', 'declined');
    expect(withDecisions(before, reply()).lines.map((line, i) => line === before.lines[i])).toEqual([true, true]);
    const after = withDecisions(gasketAndRings(), reply());
    expect(after.lines.map(({ decision }) => decision)).toEqual(['declined', 'proposed']);
  });

  it('is compared with the copy that it answers, of several that were sent', () => {
    const first = appendHistory(gasketAndRings(), sharedEntry(price(gasketAndRings()), 'a'.repeat(43), AT));
    const more = withLines(revise(first, AT), [operationLine('w', 'wash')]);
    const second = appendHistory(more, sharedEntry(price(more), 'b'.repeat(43), AT));
    const now = withLines(revise(second, AT), [partLine('p', '1', '9.00')]);
    const added = (hash: string): unknown =>
      replyRefusal(now, reply({ hash }), price(now), price(now))!.difference!.added.map(({ id }) => id);
    expect([added('a'.repeat(43)), added('b'.repeat(43))]).toEqual([['w', 'p'], ['p']]);
  });

  it('to a copy that nobody has a note of is compared with the estimate as it stands', () => {
    const estimate = revise(gasketAndRings(), AT);
    const refusal = replyRefusal(estimate, reply(), price(estimate), price(withDecisions(estimate, reply())));
    expect(refusal).toMatchObject({ problems: [{ code: 'stale', path: '' }], difference: { added: [], removed: [], moved: [] } });
  });
});

describe('the written history', () => {
  /** FIPS 180-4, by Node; keys in alphabetical order, the hash before in front. Kept histories must go on holding. */
  const hashed = (before: string, entry: [string, unknown][]): string =>
    createHash('sha256')
      .update(JSON.stringify([before, entry]))
      .digest('hex');

  it('chains SHA-256 over each entry and the hash before it', () => {
    const { history } = revise(authorise(gasketAndRings()).estimate, AT);
    const first = hashed('', [
      ['at', AT],
      ['by', 'A. Customer'],
      ['revision', 1],
      ['total', '510.00'],
      ['what', 'authorised'],
    ]);
    const second = hashed(first, [
      ['at', AT],
      ['by', ''],
      ['revision', 2],
      ['total', '510.00'],
      ['what', 'revised'],
    ]);
    expect(history.map((entry) => entry['hash'])).toEqual([first, second]);
  });

  it('holds in whatever order a store keeps the keys of an entry', () => {
    const estimate = revise(authorise(gasketAndRings()).estimate, AT);
    const turned = estimate.history.map((entry) => Object.fromEntries(Object.entries(entry).reverse()));
    expect(checkHistory({ ...estimate, history: turned })).toEqual([]);
  });

  it('says which entry is broken', () => {
    const estimate = revise(authorise(gasketAndRings()).estimate, AT);
    const broken = { ...estimate, history: estimate.history.with(1, { ...estimate.history[1]!, by: 'Somebody' }) };
    expect(checkHistory(broken)).toMatchObject([{ path: 'history[1]' }]);
  });

  it('of a sealed copy names its hash and nobody', () => {
    expect(sharedEntry(price(gasketAndRings()), 'abc', AT)).toMatchObject({ at: AT, what: 'shared', by: '', copy: 'abc', total: '510.00' });
  });
});
