/**
 * Sets with a known union and known bounds, through the engine two ways: as steps (the union comes out exactly) and as
 * operations known by their hours alone with declared overlaps (the bound of Hunter and Worsley comes out).
 */
import { describe, expect, it } from 'vitest';
import { priceDocuments, readDocuments } from '../support/builders.js';
import type { Documents } from '../support/oracle-documents.js';
import { deferralCosts } from '../../src/index.js';
import { assertAddsUp } from '../support/assert-adds-up.js';
import { type Weights, asDeclared, asSteps } from '../support/oracle-sets.js';

/** Charged hours of the whole estimate, out of its labour at 100.00 an hour. */
function hours(documents: Documents): number {
  const priced = priceDocuments(documents);
  assertAddsUp(priced);
  return Number(priced.totals.labour) / 100;
}

/**
 * DERIVED: S1 and S2 are the sums of the sets and of the overlaps of two; the bound is Hunter (1976) and Worsley (1982),
 * formula READ (Bukszar; Genz). A published numeric example was not found.
 */
const TABLE: [name: string, sets: string[], weights: Weights, s1: number, s2: number, union: number, bound: number][] = [
  ['one step shared by three', ['a', 'a', 'a'], { a: 1 }, 3, 3, 1, 1],
  ['triangle', ['ab', 'bc', 'ac'], { a: 1, b: 1, c: 1 }, 6, 3, 3, 4],
  ['nested, as an airport', ['a', 'ab', 'abc', 'abcd'], { a: 8, b: 3, c: 2, d: 5 }, 50, 59, 18, 18],
  ['access tree', ['abd', 'abe', 'ac', 'acf'], { a: 5, b: 3, c: 2, d: 4, e: 6, f: 1 }, 41, 35, 21, 21],
  ['path', ['ab', 'bc', 'cd', 'de'], { a: 1, b: 1, c: 1, d: 1, e: 1 }, 8, 3, 5, 5],
];

describe.each(TABLE)('%s', (_, sets, weights, s1, s2, union, bound) => {
  it(`adds up to ${s1} one by one, with ${s2} in common two by two`, () => {
    const documents = asDeclared(sets, weights);
    const alone = sets.map((__, i) => Number(priceDocuments(documents, { only: new Set([`l${i}`]) }).totals.labour) / 100);
    expect(alone.reduce((a, b) => a + b)).toBe(s1);
    expect(documents.catalogue.overlaps.reduce((total, overlap) => total + Number(overlap.hours), 0)).toBe(s2);
  });

  it(`is ${union} as steps: the union, exactly`, () => expect(hours(asSteps(sets, weights))).toBe(union));

  it(`is ${bound} as declared overlaps: the bound, never below the union`, () => {
    expect(hours(asDeclared(sets, weights))).toBe(bound);
    expect(bound).toBeGreaterThanOrEqual(union);
  });
});

it('deducting every pair would leave three operations that share one hour with none', () => {
  const sets = ['a', 'a', 'a'];
  expect(hours(asDeclared(sets, { a: 1 }))).toBe(1);
  expect(priceDocuments(asDeclared(sets, { a: 1 })).overlap).toMatchObject({ hours: '2' });
});

/**
 * The airport game (Littlechild and Owen 1973): users of a runway need its first part in common. Costs and shares READ in
 * copies; only the total is the engine's business, since a step is carried by one line and not split.
 */
describe('airport games', () => {
  it.each([
    ['8, 11, 13, 18', [8, 11, 13, 18], [2, 3, 4, 9]],
    ['runways of 1500, 2200, 3000', [1500, 2200, 3000], [500, 850, 1650]],
    ['runways of 1500, 2200, 3500', [1500, 2200, 3500], [500, 850, 2150]],
    ['40, 50, 60, 70, 80, 90', [40, 50, 60, 70, 80, 90], [40, 52, 67, 87, 117, 177].map((sixths) => sixths / 6)],
  ])('%s: the total is the longest, and the published shares add up to it', (_, costs, shares) => {
    const letters = [...'abcdef'].slice(0, costs.length);
    const weights = Object.fromEntries(letters.map((letter, i) => [letter, costs[i]! - (costs[i - 1] ?? 0)]));
    const sets = letters.map((__, i) => letters.slice(0, i + 1).join(''));
    expect(hours(asSteps(sets, weights))).toBe(costs.at(-1));
    expect(hours(asDeclared(sets, weights))).toBe(costs.at(-1));
    expect(shares.reduce((a, b) => a + b)).toBeCloseTo(costs.at(-1)!, 9);
  });

  it('leaving one out saves its own increment, doing it later costs its whole length', () => {
    const costs = deferralCosts(readDocuments(asSteps(['a', 'ab', 'abc', 'abcd'], { a: 8, b: 3, c: 2, d: 5 })));
    expect(costs).toMatchObject({
      l0: { now: '0.00', later: '800.00', extra: '800.00' },
      l2: { now: '0.00', later: '1300.00', extra: '1300.00' },
      l3: { now: '500.00', later: '1800.00', extra: '1300.00' },
    });
  });
});
