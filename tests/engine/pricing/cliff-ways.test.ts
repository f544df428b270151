import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MarkUp } from '../../../src/documents/rates.js';
import { decimal } from '../../../src/number/decimal.js';
import { moneyRule } from '../../../src/number/money.js';
import { cliffs } from '../../../src/pricing/check-card.js';
import { cliffWays, compareMarkUps, pictureEnd, priceCorners } from '../../../src/pricing/cliff-ways.js';
import { markedUp } from '../../../src/pricing/markup.js';
import { indexTiers } from '../../../src/pricing/rate-index.js';
import { parseRates } from '../../../src/index.js';
import { aRateCard } from '../../support/builders.js';

const money = moneyRule('USD', null, 'half-up');
const whole = (...tiers: readonly (readonly [string | null, string])[]): MarkUp => ({
  basis: 'markup',
  mode: 'whole',
  tiers: tiers.map(([upTo, percent]) => ({ upTo, percent })),
});
const falling = whole(['10.00', '100'], ['100.00', '60'], [null, '35']);
const sells = (parts: MarkUp, cost: string): string => markedUp(decimal(cost), parts.mode, indexTiers(parts), money).toFixed(2);
const held = (parts: MarkUp) => cliffWays(parts, money).find(({ id }) => id === 'held')!;

describe('progressive tiers', () => {
  it('are the same limits and percentages on each slice', () => {
    const [way] = cliffWays(falling, money);
    expect(way).toEqual({ id: 'progressive', parts: { ...falling, mode: 'progressive' }, held: [] });
    // 10 at 100 % and 2.50 at 60 %.
    expect(sells(way!.parts, '12.50')).toBe('24.00');
  });
});

describe('held mark-up', () => {
  it('holds the mark-up of the limit until the next percentage brings as much', () => {
    // 10.00 brings 10.00; 60 % brings that at 16.66…; 100.00 brings 60.00; which is 60.004 by these slices; 35 % brings that at 171.44.
    expect(held(falling).held).toEqual([
      { from: '10.00', to: '16.66', markUp: '10.00' },
      { from: '100.00', to: '171.44', markUp: '60.00' },
    ]);
    expect(held(falling).parts.tiers).toEqual([
      { upTo: '10.00', percent: '100' },
      { upTo: '16.66', percent: '0' },
      { upTo: '100.00', percent: '60' },
      { upTo: '171.44', percent: '0' },
      { upTo: null, percent: '35' },
    ]);
    expect(['5', '10', '10.01', '13', '50', '100', '120', '300'].map((cost) => sells(held(falling).parts, cost))).toEqual([
      '10.00',
      '20.00',
      '20.01',
      '23.00',
      '80.00',
      '160.00',
      '180.00',
      '405.00',
    ]);
  });

  it('skips a tier that never comes to as much', () => {
    // 10.00 brings 10.00; at 11.00 60 % brings 6.60; 35 % brings 10.00 at 28.57….
    const way = held(whole(['10', '100'], ['11', '60'], [null, '35']));
    expect(way.parts.tiers).toEqual([
      { upTo: '10', percent: '100' },
      { upTo: '28.57', percent: '0' },
      { upTo: null, percent: '35' },
    ]);
    expect(way.held).toEqual([{ from: '10.00', to: '28.57', markUp: '10.00' }]);
  });

  it('holds for good above a tier without mark-up', () => {
    const way = held(whole(['10', '100'], [null, '0']));
    expect(way.parts.tiers).toEqual([
      { upTo: '10', percent: '100' },
      { upTo: null, percent: '0' },
    ]);
    expect(way.held).toEqual([{ from: '10.00', to: null, markUp: '10.00' }]);
    expect(sells(way.parts, '1000')).toBe('1010.00');
  });

  it('for any falling tiers never lets a price fall, and leaves all others as they are but for less than a money step', () => {
    const tiers = fc
      .tuple(
        fc.uniqueArray(fc.integer({ min: 1, max: 50_000 }), { minLength: 1, maxLength: 4 }),
        fc.array(fc.integer({ min: 0, max: 200 }), { minLength: 5, maxLength: 5 }),
      )
      .map(([limits, percents]) => {
        const sorted = percents.toSorted((a, b) => b - a);
        const upTo = limits.toSorted((a, b) => a - b).map((cents) => (cents / 100).toFixed(2));
        return whole(...upTo.map((limit, i) => [limit, String(sorted[i])] as const), [null, String(sorted[upTo.length])]);
      });
    fc.assert(
      fc.property(tiers, fc.array(fc.integer({ min: 1, max: 150_000 }), { minLength: 2, maxLength: 30 }), (parts, cents) => {
        const way = cliffWays(parts, money).find(({ id }) => id === 'held');
        fc.pre(way !== undefined);
        const read = parseRates(aRateCard({ parts: way.parts as never }));
        expect(read.ok).toBe(true);
        if (read.ok) expect(cliffs(read.value)).toEqual([]);
        const costs = cents.toSorted((a, b) => a - b).map((cent) => (cent / 100).toFixed(2));
        const isHeld = (cost: string): boolean =>
          way.held.some(({ from, to }) => decimal(cost).gt(decimal(from)) && (to === null || decimal(cost).lte(decimal(to))));
        let last = decimal('0');
        for (const cost of costs) {
          const price = decimal(sells(way.parts, cost));
          expect(price.gte(last)).toBe(true);
          last = price;
          const more = price.minus(decimal(sells(parts, cost)));
          expect(more.gte(0)).toBe(true);
          if (!isHeld(cost)) expect(more.lte(decimal('0.02'))).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('is not offered where a percentage rises, which progressive tiers cannot say', () => {
    expect(cliffWays(whole(['10', '50'], ['20', '30'], [null, '40']), money).map(({ id }) => id)).toEqual(['progressive']);
  });
});

it('there is no way out where nothing falls', () => {
  expect(cliffWays(whole(['10', '50'], [null, '50']), money)).toEqual([]);
  expect(cliffWays({ ...falling, mode: 'progressive' }, money)).toEqual([]);
});

it('prices are compared at each limit, just above it, and beyond', () => {
  const table = compareMarkUps([falling, ...cliffWays(falling, money).map(({ parts }) => parts)], money);
  expect(table.map(({ cost }) => cost)).toEqual(['5.00', '10.00', '10.01', '16.66', '100.00', '100.01', '171.44', '200.00', '500.00']);
  // Whole: 10.01 × 1.6; progressive: 20 + 0.01 × 1.6; held: 20 + 0.01.
  expect(table[2]!.prices).toEqual(['16.02', '20.02', '20.01']);
});

describe('the corners of the price as a line', () => {
  it('of whole tiers are two at each limit', () => {
    expect(priceCorners(whole(['10', '100'], [null, '60']), '20')).toEqual([
      { cost: '0', price: '0' },
      { cost: '0', price: '0' },
      { cost: '10', price: '20' },
      { cost: '10', price: '16' },
      { cost: '20', price: '32' },
    ]);
  });

  it('of progressive tiers are one, and end where they are told to', () => {
    const parts: MarkUp = { ...whole(['10', '100'], ['50', '60'], [null, '0']), mode: 'progressive' };
    expect(priceCorners(parts, '20')).toEqual([
      { cost: '0', price: '0' },
      { cost: '10', price: '20' },
      { cost: '20', price: '36' },
    ]);
  });
});

describe('how far a picture of the tiers reaches', () => {
  const reach = (...limits: (string | null)[]): string =>
    pictureEnd({ basis: 'markup', mode: 'whole', tiers: limits.map((upTo) => ({ upTo, percent: '50' })) });
  it('twice the last limit', () => {
    expect(reach('10.00', '62.50', null)).toBe('125');
    expect(reach('10.00', '62.50')).toBe('125');
  });
  it('without a limit to 100', () => expect(reach(null)).toBe('100'));
});
