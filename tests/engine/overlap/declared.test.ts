/**
 * Rule 6: operations that are only declared to overlap. The deduction is a maximum-weight spanning forest of the pairs
 * (D. Hunter, "An upper bound for the probability of a union", J. Appl. Prob. 13, 1976; K. J. Worsley, "An improved
 * Bonferroni inequality and applications", Biometrika 69, 1982: sources from memory).
 */
import { describe, expect, it } from 'vitest';
import type { PricedEstimate } from '../../../src/index.js';
import { indexCatalogue } from '../../../src/overlap/catalogue-index.js';
import { declaredDeductions } from '../../../src/overlap/declared.js';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aRateCard,
  aStep,
  operationLine,
  priceDocuments,
  readDocuments,
} from '../../support/builders.js';
import type { CatalogueDoc, OperationDoc, OperationLine, RatesDoc } from '../../support/oracle-documents.js';

type Pair = [a: string, b: string, hours: string];
const declared = (...pairs: Pair[]): CatalogueDoc['overlaps'] => pairs.map(([a, b, hours]) => ({ between: [a, b], hours }));

function priced(catalogue: Partial<CatalogueDoc>, lines: OperationLine[], rates: Partial<RatesDoc> = {}): PricedEstimate {
  const result = priceDocuments({ estimate: anEstimate(lines), catalogue: aCatalogue(catalogue), rates: aRateCard(rates) });
  assertAddsUp(result);
  return result;
}
const charged = ({ lines }: PricedEstimate): Record<string, string> =>
  Object.fromEntries(lines.map((line) => [line.id, line.chargedHours]));
const pairs = ({ overlap }: PricedEstimate): string[] =>
  overlap.pairs.map(({ between: [parent, child], hours }) => `${parent}→${child} ${hours}`);
const line = (id: string, more: Partial<OperationLine> = {}): OperationLine => operationLine(id, id, more);

describe('a pair', () => {
  const operations = [anOperation('a', '2.0'), anOperation('b', '3.0')];

  it('the line that rule 4 would choose is charged whole, the other deducts', () => {
    const both = priced({ operations, overlaps: declared(['a', 'b', '0.4']) }, [line('a'), line('b')]);
    expect(charged(both)).toEqual({ a: '1.6', b: '3' });
    expect(pairs(both)).toEqual(['b→a 0.4']);
    expect(both.overlap).toMatchObject({ hours: '0.4', money: '40.00' });
    expect(both.lines[0]).toMatchObject({ bookHours: '2', sharedHours: '0.4' });
  });

  it('with the dearer labour rate as the root, however short', () => {
    const rates = {
      labourClasses: [
        { id: 'general', title: '', rate: '100' },
        { id: 'dear', title: '', rate: '150' },
      ],
    };
    const both = priced({ operations, overlaps: declared(['a', 'b', '0.4']) }, [line('a', { labourClass: 'dear' }), line('b')], rates);
    expect(pairs(both)).toEqual(['a→b 0.4']);
    // 2.0 × 150 + 2.6 × 100
    expect(both.totals.labour).toBe('560.00');
  });

  it('counts only where both are priced', () => {
    const declinedOne = priced({ operations, overlaps: declared(['a', 'b', '0.4']) }, [line('a'), line('b', { decision: 'deferred' })]);
    expect(charged(declinedOne)).toEqual({ a: '2', b: '0' });
  });

  it('of zero hours is none', () => {
    expect(pairs(priced({ operations, overlaps: declared(['a', 'b', '0']) }, [line('a'), line('b')]))).toEqual([]);
  });
});

describe("at most either line's own hours", () => {
  it('the deduction stops at what the shorter has', () => {
    const operations = [anOperation('a', '0.5'), anOperation('b', '3.0')];
    const both = priced({ operations, overlaps: declared(['a', 'b', '2.0']) }, [line('a'), line('b')]);
    expect(charged(both)).toEqual({ a: '0', b: '3' });
    expect(pairs(both)).toEqual(['b→a 0.5']);
    expect(both.charges.some(({ line: of }) => of === 'a')).toBe(false);
  });

  it('own hours are without the steps', () => {
    // b 3.0 with a step of 2.7 has 0.3 of its own; a has 2.0: at most 0.3.
    const operations = [anOperation('a', '2.0'), anOperation('b', '3.0', { steps: ['s'] })];
    const both = priced({ steps: [aStep('s', '2.7')], operations, overlaps: declared(['a', 'b', '1.0']) }, [line('a'), line('b')]);
    expect(pairs(both)).toEqual(['b→a 0.3']);
    expect(charged(both)).toEqual({ a: '1.7', b: '3' });
  });

  it('and with the extra hours', () => {
    const operations = [anOperation('a', '0.5'), anOperation('b', '3.0')];
    const both = priced({ operations, overlaps: declared(['a', 'b', '2.0']) }, [
      line('a', { extraHours: { hours: '0.4', reason: '' } }),
      line('b'),
    ]);
    // own of a 0.5 + 0.4
    expect(pairs(both)).toEqual(['b→a 0.9']);
  });
});

describe('steps that both need already', () => {
  const steps = [aStep('s', '0.6'), aStep('wheel', '0.3', { per: 'position' })];

  it('are taken off what is declared', () => {
    const operations = [anOperation('a', '2.0', { steps: ['s'] }), anOperation('b', '3.0', { steps: ['s'] })];
    const both = priced({ steps, operations, overlaps: declared(['a', 'b', '1.0']) }, [line('a'), line('b')]);
    // Declared 1.0, of which 0.6 is the step: 0.4 more. a: 2.0 − 0.6 − 0.4.
    expect(charged(both)).toEqual({ a: '1', b: '3' });
    expect(pairs(both)).toEqual(['b→a 0.4']);
    expect(both.overlap.hours).toBe('1');
  });

  it('leave nothing where they are longer', () => {
    const operations = [anOperation('a', '2.0', { steps: ['s'] }), anOperation('b', '3.0', { steps: ['s'] })];
    const both = priced({ steps, operations, overlaps: declared(['a', 'b', '0.5']) }, [line('a'), line('b')]);
    expect(charged(both)).toEqual({ a: '1.4', b: '3' });
    expect(pairs(both)).toEqual([]);
  });

  it('count at the positions that both have', () => {
    const operations = [
      anOperation('a', '1.0', { per: 'position', steps: ['wheel'] }),
      anOperation('b', '1.5', { per: 'position', steps: ['wheel'] }),
    ];
    const catalogue = { steps, operations, overlaps: declared(['a', 'b', '0.5']) };
    const same = priced(catalogue, [line('a', { positions: ['left'] }), line('b', { positions: ['left'] })]);
    // 0.5 − 0.3: a is charged 1.0 − 0.3 − 0.2.
    expect([charged(same), pairs(same)]).toEqual([{ a: '0.5', b: '1.5' }, ['b→a 0.2']]);
    const apart = priced(catalogue, [line('a', { positions: ['left'] }), line('b', { positions: ['right'] })]);
    // No wheel in common: the whole 0.5.
    expect([charged(apart), pairs(apart)]).toEqual([{ a: '0.5', b: '1.5' }, ['b→a 0.5']]);
  });
});

describe('three operations', () => {
  const operations = [anOperation('a', '1.0'), anOperation('b', '1.0'), anOperation('c', '1.0')];
  const lines = [line('a'), line('b'), line('c')];

  it('that share one hour are charged for one hour, not for none', () => {
    const all = priced({ operations, overlaps: declared(['a', 'b', '1.0'], ['b', 'c', '1.0'], ['a', 'c', '1.0']) }, lines);
    // Every pair deducted would leave 3 − 3 = 0; the two edges of a tree leave 1.
    expect(charged(all)).toEqual({ a: '1', b: '0', c: '0' });
    expect(pairs(all)).toEqual(['a→b 1', 'a→c 1']);
  });

  it('keep the two heaviest of their three pairs', () => {
    const longer = [anOperation('a', '5.0'), anOperation('b', '4.0'), anOperation('c', '3.0')];
    const all = priced({ operations: longer, overlaps: declared(['a', 'b', '0.5'], ['b', 'c', '0.9'], ['a', 'c', '0.7']) }, lines);
    // 0.9 (b–c) and 0.7 (a–c); root a (longest): c deducts 0.7 to a, b deducts 0.9 to c.
    expect(pairs(all).sort()).toEqual(['a→c 0.7', 'c→b 0.9']);
    expect(charged(all)).toEqual({ a: '5', b: '3.1', c: '2.3' });
    expect(all.overlap.hours).toBe('1.6');
  });

  it('of equal pairs keep those of the better line by rule 4', () => {
    const longer = [anOperation('a', '3.0'), anOperation('b', '4.0'), anOperation('c', '5.0')];
    const all = priced({ operations: longer, overlaps: declared(['a', 'b', '0.5'], ['b', 'c', '0.5'], ['a', 'c', '0.5']) }, lines);
    // By rule 4: c, b, a. The pairs of c come first: c–b and c–a.
    expect(pairs(all)).toEqual(['c→b 0.5', 'c→a 0.5']);
  });
});

describe('a chain', () => {
  it('each line deducts from the one nearer to the root', () => {
    const operations = [anOperation('a', '2'), anOperation('b', '4'), anOperation('c', '1'), anOperation('d', '3')];
    const overlaps = declared(['a', 'b', '0.3'], ['b', 'c', '0.2'], ['c', 'd', '0.4']);
    const all = priced(
      { operations, overlaps },
      ['a', 'b', 'c', 'd'].map((id) => line(id)),
    );
    // Root b. a − 0.3, c − 0.2, d − 0.4 (its way to b leads over c).
    expect(charged(all)).toEqual({ a: '1.7', b: '4', c: '0.8', d: '2.6' });
    expect(pairs(all).sort()).toEqual(['b→a 0.3', 'b→c 0.2', 'c→d 0.4']);
    expect(all.overlap.hours).toBe('0.9');
  });

  it('two trees have a root each', () => {
    const operations = [anOperation('a', '2'), anOperation('b', '4'), anOperation('c', '1'), anOperation('d', '3')];
    const all = priced(
      { operations, overlaps: declared(['a', 'b', '0.3'], ['c', 'd', '0.4']) },
      ['a', 'b', 'c', 'd'].map((id) => line(id)),
    );
    expect(charged(all)).toEqual({ a: '1.7', b: '4', c: '0.6', d: '3' });
  });

  it('a line of the tree never goes below zero, whichever edge it deducts', () => {
    // c has 0.4 of its own; both edges are cut to that; c deducts one of them only.
    const operations = [anOperation('a', '2'), anOperation('b', '4'), anOperation('c', '0.4')];
    const all = priced(
      { operations, overlaps: declared(['a', 'c', '1'], ['b', 'c', '1']) },
      ['a', 'b', 'c'].map((id) => line(id)),
    );
    // Root b: c deducts 0.4 to b, a deducts 0.4 to c.
    expect(charged(all)).toEqual({ a: '1.6', b: '4', c: '0' });
  });
});

describe("of equal pairs, those of the better line first; of one line's, those with the better other one", () => {
  /** Operations of 9, 8, 7 … hours, so that they are ranked as they are named. */
  const ranked = (ids: string): OperationDoc[] => [...ids].map((id, rank) => anOperation(id, String(9 - rank)));

  it('in a ring of five', () => {
    // By better and then other line: ac, ae, bd, be, cd. The last closes the ring.
    const overlaps = declared(['c', 'd', '0.5'], ['b', 'e', '0.5'], ['b', 'd', '0.5'], ['a', 'e', '0.5'], ['a', 'c', '0.5']);
    const all = priced(
      { operations: ranked('abcde'), overlaps },
      [...'abcde'].map((id) => line(id)),
    );
    expect(pairs(all).sort()).toEqual(['a→c 0.5', 'a→e 0.5', 'b→d 0.5', 'e→b 0.5']);
  });

  it('whatever the order in which they are declared', () => {
    // ac, ad, bc, bd: the last of b's closes the ring.
    const overlaps = declared(['b', 'd', '0.5'], ['a', 'd', '0.5'], ['b', 'c', '0.5'], ['a', 'c', '0.5']);
    const all = priced(
      { operations: ranked('abcd'), overlaps },
      [...'abcd'].map((id) => line(id)),
    );
    expect(pairs(all).sort()).toEqual(['a→c 0.5', 'a→d 0.5', 'c→b 0.5']);
  });

  it('also between several lines of two operations', () => {
    // p 9 h, r 8 h, p 7 h, r 6 h. By rank: p1–r1, p1–r2, r1–p2; p2–r2 closes the ring.
    const lines = [
      line('p', { id: 'p1' }),
      line('r', { id: 'r1' }),
      line('p', { id: 'p2', bookHours: '7' }),
      line('r', { id: 'r2', bookHours: '6' }),
    ];
    const all = priced({ operations: ranked('pr'), overlaps: declared(['p', 'r', '0.5']) }, lines);
    expect(pairs(all).sort()).toEqual(['p1→r1 0.5', 'p1→r2 0.5', 'r1→p2 0.5']);
  });
});

it('no works, no deductions', () => {
  expect(
    declaredDeductions(
      [],
      indexCatalogue(readDocuments({ estimate: anEstimate([]), catalogue: aCatalogue(), rates: aRateCard() }).catalogue),
    ),
  ).toEqual([]);
});

it('two lines of one operation are no pair, but each may pair with another', () => {
  const operations = [anOperation('a', '2'), anOperation('b', '4')];
  const lines = [operationLine('a1', 'a'), operationLine('a2', 'a'), operationLine('b', 'b')];
  const all = priced({ operations, overlaps: declared(['a', 'b', '0.5']) }, lines);
  expect(charged(all)).toEqual({ a1: '1.5', a2: '1.5', b: '4' });
  expect(pairs(all)).toEqual(['b→a1 0.5', 'b→a2 0.5']);
});

it('works with zero hours keep out of it', () => {
  const operations = [anOperation('a', '0'), anOperation('b', '4')];
  const all = priced({ operations, overlaps: declared(['a', 'b', '0.5']) }, [line('a'), line('b')]);
  expect([charged(all), pairs(all)]).toEqual([{ a: '0', b: '4' }, []]);
});
