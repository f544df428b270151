/** Sharing after a change gives what a first sharing gives, in the same order, and keeps the shares that come to the same. */
import { describe, expect, it } from 'vitest';
import type { OperationLine } from '../../../src/documents/lines.js';
import { decimal } from '../../../src/number/decimal.js';
import { indexCatalogue } from '../../../src/overlap/catalogue-index.js';
import { sameShare } from '../../../src/overlap/same.js';
import { type Sharing, shareWork } from '../../../src/overlap/share-work.js';
import { type Work, workOf } from '../../../src/overlap/work.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, aStep, operationLine, readDocuments } from '../../support/builders.js';

/** Thirty operations: steps in common, three that include others, and chains, rings and islands of declared overlaps. */
const OPERATIONS = Array.from({ length: 30 }, (_, i) => `o${i}`);
const INCLUDES: Record<number, string[]> = { 3: ['o4', 'o5'], 11: ['o12'], 20: ['o3'] };
const PAIRS = [
  [0, 1],
  [1, 2],
  [2, 0],
  [4, 6],
  [6, 7],
  [7, 8],
  [9, 10],
  [10, 12],
  [13, 14],
  [15, 16],
  [16, 17],
  [17, 18],
  [18, 15],
  [21, 5],
  [22, 23],
];
const CATALOGUE = aCatalogue({
  steps: [aStep('lift', '0.2'), aStep('s0', '0.3', { needs: ['lift'] }), ...Array.from({ length: 6 }, (_, i) => aStep(`s${i + 1}`, '0.4'))],
  operations: OPERATIONS.map((id, i) =>
    anOperation(id, i === 20 ? '12' : i in INCLUDES ? '9' : `${3 + (i % 4)}`, {
      steps: [`s${i % 7}`, ...(i % 3 === 0 ? ['lift'] : [])],
      includes: INCLUDES[i] ?? [],
    }),
  ),
  overlaps: PAIRS.map(([a, b], i) => ({ between: [`o${a}`, `o${b}`] as [string, string], hours: `0.${5 + (i % 4)}` })),
});
const { catalogue, estimate } = readDocuments({
  estimate: anEstimate([operationLine('l', 'o0')]),
  catalogue: CATALOGUE,
  rates: aRateCard(),
});
const index = indexCatalogue(catalogue);
const RATES = [decimal('100'), decimal('120')];

/** How many changes are made; fewer when mutants are put before this test, hundreds of times over. */
const EDITS = Number(process.env['EDITS'] ?? 400);

/** Numbers that look random and are the same in each run (Park and Miller's minimal standard generator, 1988). */
function seeded(seed: number): (below: number) => number {
  let state = seed;
  return (below) => (state = (state * 48_271) % 2_147_483_647) % below;
}

function aWork(line: string, roll: (below: number) => number): Work {
  const operation = index.operations.get(OPERATIONS[roll(OPERATIONS.length)]!)!;
  const bookHours = roll(2) === 0 ? null : `${3 + roll(4)}.${roll(3)}`;
  return workOf({ ...(estimate.lines[0] as OperationLine), id: line, bookHours }, operation, RATES[roll(4) === 0 ? 1 : 0]!, index);
}

/** Everything that hangs on a sharing, as text, in its order. */
function told({ works, ranked, steps, deductions, shares }: Sharing): unknown {
  return {
    ranked: ranked.map(({ line }) => line),
    steps: steps.map(({ step, carriedBy, neededBy, units }) => [step.key, carriedBy, neededBy, units]),
    deductions: deductions.map(({ root, parent, child, hours }) => [root.line, parent.line, child.line, hours.toFixed()]),
    count: shares.size,
    shares: works.map(({ line }) => {
      const { work, chargedHours, sharedHours, includedIn, carries, uses } = shares.get(line)!;
      return [
        work.line,
        chargedHours.toFixed(),
        sharedHours.toFixed(),
        includedIn?.line,
        carries.map(({ key }) => key),
        uses.map(({ step, carriedBy }) => [step.key, carriedBy]),
      ];
    }),
  };
}

it(`after each of ${EDITS} changes`, () => {
  const roll = seeded(77);
  let works = Array.from({ length: 40 }, (_, i) => aWork(`l${i}`, roll));
  let sharing = shareWork(works, index);
  let [kept, included, deducted] = [0, 0, 0];
  for (let n = 0; n < EDITS; n += 1) {
    const at = roll(works.length);
    const turn = roll(5);
    if (turn === 0) works = works.toSpliced(at, 0, aWork(`n${n}`, roll));
    else if (turn === 1 && works.length > 30) works = works.toSpliced(at, 1);
    else if (turn === 2) works = works.toSpliced(at, 1).toSpliced(roll(works.length), 0, works[at]!);
    else works = works.with(at, aWork(works[at]!.line, roll));

    const before = sharing;
    sharing = shareWork(works, index, before);
    const first = shareWork(works, index);
    expect(told(sharing), `change ${n}`).toEqual(told(first));
    for (const [line, share] of first.shares) {
      const known = before.shares.get(line);
      if (known === undefined || !sameShare(known, share)) continue;
      expect(sharing.shares.get(line), `change ${n}, ${line}`).toBe(known);
      kept += 1;
    }
    included += [...sharing.shares.values()].filter(({ includedIn }) => includedIn !== null).length;
    deducted += sharing.deductions.length;
  }
  expect(kept).toBeGreaterThan(12 * EDITS);
  expect(included).toBeGreaterThan(EDITS / 2);
  expect(deducted).toBeGreaterThan(5 * EDITS);
});

it('no change gives the very same sharing', () => {
  const works = [aWork('a', seeded(5)), aWork('b', seeded(6))];
  const sharing = shareWork(works, index);
  expect(shareWork([...works], index, sharing)).toBe(sharing);
});

it('of nothing is nothing, and nothing is left when all works go', () => {
  const sharing = shareWork([aWork('a', seeded(5))], index);
  expect(told(shareWork([], index, sharing))).toEqual({ ranked: [], steps: [], deductions: [], count: 0, shares: [] });
});

describe('one change', () => {
  const line = (id: string, operation: string): Work =>
    workOf({ ...(estimate.lines[0] as OperationLine), id, bookHours: null }, index.operations.get(operation)!, RATES[0]!, index);
  const after = (before: Work[], now: Work[]): Sharing => shareWork(now, index, shareWork(before, index));
  // o3 includes o4 and o5; o3 needs s3 and the lift, o5 needs s5: no step in common.
  const [outer, inner, apart] = [line('outer', 'o3'), line('inner', 'o5'), line('apart', 'o8')];

  it('brings the first inclusion', () => {
    const sharing = after([inner, apart], [inner, apart, outer]);
    expect(told(sharing)).toEqual(told(shareWork([inner, apart, outer], index)));
    expect(sharing.shares.get('inner')!.includedIn).toBe(outer);
  });

  it('takes the last inclusion away', () => {
    const sharing = after([inner, apart, outer], [inner, apart]);
    expect(told(sharing)).toEqual(told(shareWork([inner, apart], index)));
    expect(sharing.shares.get('inner')).toMatchObject({ includedIn: null, chargedHours: inner.bookHours });
  });

  it('changes what a line deducts that is only declared to overlap', () => {
    // o15 (6 h) and o16 (3 h) share no step (s1, s2).
    const [long, short] = [line('long', 'o15'), line('short', 'o16')];
    const alone = shareWork([short], index);
    const both = shareWork([short, long], index, alone);
    expect(both.shares.get('short')!.sharedHours.gt(0)).toBe(true);
    expect(told(both)).toEqual(told(shareWork([short, long], index)));
    const again = shareWork([short], index, both);
    expect(again.shares.get('short')!.sharedHours.isZero()).toBe(true);
  });
});
