/** The parts run: the demonstration van by hand, who counts, what is noted of a part, and why one trip may not be enough. */
import { describe, expect, it } from 'vitest';
import { partsRun, type PartsPlan, type PartToGet, planPartsRun, priceEstimate } from '../../../src/index.js';
import type { PartNote } from '../../../src/documents/parts-run.js';
import { stateWords, withoutPartNote, withPartNote } from '../../../src/work/part-notes.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aPart,
  aRateCard,
  aStep,
  operationLine,
  partLine,
  readDocuments,
} from '../../support/builders.js';
import type { EstimateDoc, LineDoc } from '../../support/oracle-documents.js';
import { van } from './van.js';

const approved = { decision: 'approved' as const };
const parts = ({ suppliers }: PartsPlan): PartToGet[] => suppliers.flatMap((supplier) => supplier.parts);
const find = (plan: PartsPlan, number: string): PartToGet => parts(plan).find((part) => part.number === number)!;

describe('the van', () => {
  const plan = planPartsRun(van());

  // Three lines need the coolant out; its 6 litres and its seal are bought once. The undertray comes off for five lines:
  // 4 clips. The radiator hose takes 2 clips of 40 mm, and 2 of the same number were typed as a spare.
  it('buys once what shared steps need, and puts together what has one number', () => {
    expect(['HV-0101-01', 'HV-0103-02', 'HV-0211-04', 'HV-2043-40'].map((number) => find(plan, number).qty)).toEqual(['6', '1', '4', '4']);
    expect(find(plan, 'HV-2043-40').needs).toEqual([
      { title: 'Replace a radiator hose (lower)', qty: '2', lines: [] },
      { title: 'Hose clip, 40 mm, stainless, spare for the bypass hose', qty: '2', lines: [] },
    ]);
  });

  it('what a step renews is needed by all that need the step, not only by the line that is charged for it', () => {
    expect(find(plan, 'HV-0103-02').needs).toEqual([
      {
        title: 'Drain, refill and bleed the coolant',
        qty: '1',
        lines: [
          'Replace a radiator hose (lower)',
          'Replace a heater hose (feed, return)',
          'Replace the water pump',
          'Replace the thermostat',
        ],
      },
    ]);
  });

  it('what a line and its steps both need is told apart', () => {
    // 2 seals of the job itself, 1 of the step.
    const two = aCatalogue({
      parts: [aPart('seal', '1', { number: 'S' })],
      steps: [aStep('s', '1', { parts: [{ part: 'seal', qty: '1' }] })],
      operations: [anOperation('a', '2', { steps: ['s'], parts: [{ part: 'seal', qty: '2' }] })],
    });
    const both = planPartsRun(
      readDocuments({ estimate: anEstimate([operationLine('x', 'a', approved)]), catalogue: two, rates: aRateCard() }),
    );
    expect(parts(both)[0]).toMatchObject({
      qty: '3',
      needs: [
        { title: 'Operation a', qty: '2' },
        { title: 'Step s', qty: '1', lines: ['Operation a'] },
      ],
    });
  });

  it('is grouped by supplier, each part once', () => {
    expect(plan.suppliers.map(({ supplier, parts: list }) => [supplier, list.length])).toEqual([
      ['Fluids merchant Sallow (made up)', 4],
      ['Halvern parts counter (made up)', 13],
      ['Brake and chassis counter Morrow (made up)', 3],
    ]);
    const numbers = parts(plan).map(({ number }) => number);
    expect(new Set(numbers).size).toBe(numbers.length);
  });

  it('is still to find at first, and nothing speaks against the trip', () => {
    expect(parts(plan).every(({ state, more, over }) => state === 'to-find' && more === '0' && over === '0')).toBe(true);
    expect(plan.warnings).toEqual([]);
  });

  it('only approved lines count: of what they share, each brings it alone', () => {
    // Approved are the first test, which has the undertray off, and the thermostat, which has the coolant out.
    const some = planPartsRun(van(['l7']));
    expect(parts(some).map(({ number, qty }) => `${qty} ${number}`)).toEqual([
      '1 HV-0102-01',
      '6 HV-0101-01',
      '1 HV-0103-02',
      '4 HV-0211-04',
      '1 HV-2030-02',
      '1 HV-2031-02',
    ]);
    expect(some.warnings.map(({ code }) => code)).toEqual(['undecided']);
    expect(some.warnings[0]!.message).toMatch(/^12 lines are not decided yet: Replace a radiator hose \(lower\); .*; 8 more\.$/);
  });

  it('the public list of priced parts stays as it was', () => {
    const documents = van();
    expect(partsRun(priceEstimate(documents)).map(({ number }) => number)).toContain('HV-2043-40');
    expect(Object.keys(partsRun(priceEstimate(documents))[0]!)).toEqual(['part', 'title', 'number', 'condition', 'qty', 'cores', 'lines']);
  });
});

describe('warnings', () => {
  it('when the last test round was not clean', () => {
    const documents = van();
    const rounds = documents.estimate.rounds.slice(0, 2);
    const plan = planPartsRun({ ...documents, estimate: { ...documents.estimate, rounds } });
    expect(plan.warnings).toMatchObject([
      { code: 'more-may-be-found', message: 'More may be found: round 2, the last one, was not clean. It found 4.' },
    ]);
  });

  it('when a line that is approved cannot be worked out', () => {
    const documents = readDocuments({
      estimate: anEstimate([operationLine('x', 'gone', approved)]),
      catalogue: aCatalogue(),
      rates: aRateCard(),
    });
    expect(planPartsRun(documents).warnings).toMatchObject([
      { code: 'unclear-line', message: '“gone” cannot be worked out as it stands.' },
    ]);
  });

  it('are the reasons where documents cannot be used', () => {
    expect(planPartsRun({ estimate: null, catalogue: null, rates: null } as never)).toMatchObject({
      suppliers: [],
      warnings: expect.arrayContaining([expect.objectContaining({ severity: 'error' })]),
    });
  });
});

const catalogue = {
  ...aCatalogue({
    parts: [
      aPart('seal', '2.00', { number: 'S-1' }),
      aPart('pump', '100.00', { number: 'P-1', core: '25.00', condition: 'rebuilt' }),
      aPart('paste', '1.00', { number: '' }),
    ],
    steps: [aStep('drain', '0.6', { parts: [{ part: 'seal', qty: '1' }] })],
    operations: [
      anOperation('pump-job', '3', { steps: ['drain'], parts: [{ part: 'pump', qty: '1' }] }),
      anOperation('hose-job', '1', { steps: ['drain'], parts: [{ part: 'paste', qty: '0.5' }] }),
    ],
  }),
};
catalogue.parts = catalogue.parts.map((part) => ({ ...part, ...(part.id === 'pump' ? { supplier: 'Exchange' } : {}) }));

function plan(lines: LineDoc[], notes?: readonly PartNote[]): PartsPlan {
  const estimate = { ...anEstimate(lines), ...(notes === undefined ? {} : { partsRun: notes }) } as EstimateDoc;
  return planPartsRun(readDocuments({ estimate, catalogue, rates: aRateCard() }));
}
const both = [operationLine('h', 'hose-job', approved), operationLine('p', 'pump-job', approved)];

describe('where and what', () => {
  it('a part without a supplier comes last; an old one goes back for its core', () => {
    expect(
      plan(both).suppliers.map(({ supplier, parts: list }) => [
        supplier,
        list.map(({ title, qty, cores }) => `${qty} ${title}, ${cores} back`),
      ]),
    ).toEqual([
      ['Exchange', ['1 Part pump, 1 back']],
      ['', ['0.5 Part paste, 0 back', '1 Part seal, 0 back']],
    ]);
  });

  it('a typed part says its own supplier', () => {
    const typed = { ...partLine('a', '1', '5', { ...approved, number: 'N-1' }), supplier: 'Corner shop' };
    expect(plan([typed]).suppliers.map(({ supplier }) => supplier)).toEqual(['Corner shop']);
  });

  it('another condition is another part; what is given back is no purchase', () => {
    const lines = [
      partLine('a', '1', '5', { ...approved, number: 'N-1' }),
      partLine('b', '1', '3', { ...approved, number: 'N-1', condition: 'used' }),
      partLine('c', '-2', '5', { ...approved, number: 'N-2' }),
    ];
    expect(parts(plan(lines)).map(({ number, condition, qty, giveBack }) => [number, condition, qty, giveBack])).toEqual([
      ['N-1', 'new', '1', '0'],
      ['N-1', 'used', '1', '0'],
      ['N-2', 'new', '0', '2'],
    ]);
  });

  it('what is bought and given back in the same quantity is neither', () => {
    expect(
      parts(plan([partLine('a', '2', '5', { ...approved, number: 'N-1' }), partLine('b', '-2', '5', { ...approved, number: 'N-1' })])),
    ).toEqual([]);
  });
});

describe('notes', () => {
  const seal = find(plan(both), 'S-1');
  const ordered = withPartNote([], seal, { state: 'ordered' });

  it('a state is said of as many as are needed then', () => {
    expect(ordered).toEqual([{ part: 'seal', number: 'S-1', title: 'Part seal', condition: 'new', state: 'ordered', qty: '1' }]);
    expect(find(plan(both, ordered), 'S-1')).toMatchObject({ state: 'ordered', more: '0', over: '0' });
  });

  it('when more are needed later it says how many', () => {
    const more = [...both, partLine('a', '2', '5', { ...approved, number: 'S-1' })];
    const part = find(plan(more, ordered), 'S-1');
    expect(part).toMatchObject({ qty: '3', state: 'ordered', more: '2' });
    expect(stateWords(part)).toBe('ordered, 2 more to find');
    expect(withPartNote(ordered, part, { state: 'here' })[0]).toMatchObject({ state: 'here', qty: '3' });
    expect(withPartNote(ordered, part, { note: 'by noon' })[0]).toMatchObject({ state: 'ordered', qty: '1', note: 'by noon' });
  });

  it('when fewer are needed it says how many are too many', () => {
    const three = withPartNote([], { ...seal, qty: '3' }, { state: 'here' });
    const part = find(plan(both, three), 'S-1');
    expect([part.over, stateWords(part)]).toEqual(['2', 'here, 2 too many']);
  });

  it('what is ordered and not needed any more is not forgotten', () => {
    const none = plan([operationLine('h', 'hose-job', { decision: 'declined' })], ordered);
    expect(parts(none)).toEqual([]);
    expect(none.notNeeded).toEqual(ordered);
    expect(withoutPartNote(ordered, ordered[0]!)).toEqual([]);
    // What was only looked for, or lies in the shop anyway, binds nobody.
    expect(plan([], withPartNote([], seal, { state: 'in-stock' })).notNeeded).toEqual([]);
  });

  it('a note that says nothing any more goes', () => {
    expect(withPartNote(ordered, seal, { state: 'to-find' })).toEqual([]);
    expect(withPartNote([], seal, { note: '' })).toEqual([]);
  });

  it('another supplier for this job moves the part there, an empty one moves it back', () => {
    const pump = find(plan(both), 'P-1');
    const moved = withPartNote([], pump, { supplier: 'Corner shop' });
    expect(plan(both, moved).suppliers.map(({ supplier }) => supplier)).toEqual(['Corner shop', '']);
    expect(withPartNote(moved, pump, { supplier: undefined })).toEqual([]);
  });

  it('a part without a number is known by the catalogue’s id', () => {
    const paste = parts(plan(both)).find(({ part }) => part === 'paste')!;
    const noted = plan(both, withPartNote([], paste, { state: 'here' }));
    expect(parts(noted).map(({ title, state }) => [title, state])).toContainEqual(['Part paste', 'here']);
  });
});
