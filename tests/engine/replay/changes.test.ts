import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal } from '../../../src/number/decimal.js';
import { moneyRule } from '../../../src/number/money.js';
import { ChangeCounter } from '../../../src/replay/changes.js';
import { MostMoved } from '../../../src/replay/most-moved.js';
import type { Estimate } from '../../../src/index.js';

const dollars = moneyRule('USD', null, 'half-up');

function count(changes: readonly string[], money = dollars) {
  const counter = new ChangeCounter(money);
  for (const change of changes) counter.add(decimal(change));
  return counter.changes();
}

describe('changes by class', () => {
  it('keeps money steps apart where there is room', () => {
    expect(count(['0.01', '0.01', '0.03', '0', '-0.01'])).toEqual({
      width: '0.01',
      classes: [
        { from: '-0.01', to: '0.00', count: 1 },
        { from: '0.00', to: '0.01', count: 0 },
        { from: '0.01', to: '0.02', count: 2 },
        { from: '0.02', to: '0.03', count: 0 },
        { from: '0.03', to: '0.04', count: 1 },
      ],
      unchanged: 1,
      up: 3,
      down: 1,
      smallest: '-0.01',
      largest: '0.03',
    });
  });

  it('widens to a round width when a change falls far out', () => {
    const { width, classes } = count(['1.00', '2.00', '-3.00', '431.50']);
    expect(width).toBe('20');
    expect(classes[0]).toEqual({ from: '-20.00', to: '0.00', count: 1 });
    expect(classes.at(-1)).toEqual({ from: '420.00', to: '440.00', count: 1 });
  });

  it('goes by the money step of the card', () => {
    expect(count(['120', '-80'], moneyRule('JPY', null, 'half-up'))).toMatchObject({ width: '10', smallest: '-80', largest: '120' });
  });

  it('every change is in its class, whatever came before it, in few enough classes', () => {
    const change = fc
      .tuple(fc.integer({ min: -99_999_999, max: 99_999_999 }), fc.constantFrom(1, 100, 10_000))
      .map(([n, by]) => (n / by).toFixed(2));
    fc.assert(
      fc.property(fc.array(change, { maxLength: 60 }), (changes) => {
        const { classes, width, unchanged, up, down } = count(changes);
        expect(classes.length).toBeLessThanOrEqual(25);
        expect(width).toMatch(/^(0\.0*)?[125]0*$/);
        expect(unchanged + up + down).toBe(changes.length);
        for (const { from, to, count: counted } of classes) {
          const inside = changes.map((each) => decimal(each)).filter((each) => !each.isZero() && each.gte(from) && each.lt(to));
          expect(counted).toBe(inside.length);
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('the estimates that move most', () => {
  const estimate = (id: string): Estimate => ({ id, number: '', vehicle: { label: '' } }) as unknown as Estimate;

  it('keeps the largest, whichever way, the earlier first among equals', () => {
    const most = new MostMoved(3, dollars);
    ['5', '-7', '0', '5', '2', '-9', '7'].forEach((change, at) =>
      most.add(at, estimate(`e${at}`), decimal('10'), decimal('10').plus(change)),
    );
    expect(most.list().map(({ id, at, change }) => [id, at, change])).toEqual([
      ['e5', 5, '-9.00'],
      ['e1', 1, '-7.00'],
      ['e6', 6, '7.00'],
    ]);
  });

  it('may be asked to keep none', () => {
    const none = new MostMoved(0, dollars);
    none.add(0, estimate('a'), decimal('1'), decimal('2'));
    expect(none.list()).toEqual([]);
  });
});
