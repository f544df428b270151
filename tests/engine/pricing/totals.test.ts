/** Rule 12 over a whole estimate: money steps, currencies, cash, and how the totals hang together. */
import { describe, expect, it } from 'vitest';
import type { PricedEstimate } from '../../../src/index.js';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aPart,
  aRateCard,
  aTax,
  feeLine,
  labourLine,
  operationLine,
  partLine,
  priceDocuments,
  priceLines,
} from '../../support/builders.js';
import type { LineDoc, RatesDoc } from '../../support/oracle-documents.js';

function priced(lines: LineDoc[], rates: Partial<RatesDoc> = {}): PricedEstimate {
  const result = priceLines(lines, rates);
  assertAddsUp(result, { pricesIncludeTax: rates.pricesIncludeTax ?? false });
  return result;
}

describe('every total in one estimate', () => {
  const documents = {
    estimate: anEstimate(
      [
        operationLine('o', 'job'),
        labourLine('l', '0.5'),
        partLine('p', '2', '14.50', { core: '3.00' }),
        { id: 's', kind: 'sublet', title: 'Sublet', cost: '80.00', price: null },
        feeLine('f', '12.00'),
        { id: 'n', kind: 'note', text: 'A note.' },
      ],
      { discounts: [{ id: 'd', title: 'First visit', percent: '10', amount: null, on: ['labour'], lines: [] }] },
    ),
    catalogue: aCatalogue({
      parts: [aPart('seal', '10.00')],
      operations: [anOperation('job', '1.5', { parts: [{ part: 'seal', qty: '1' }], fees: ['disposal'] })],
    }),
    rates: aRateCard({
      parts: { basis: 'markup', mode: 'whole', tiers: [{ percent: '100' }] },
      sublet: { percent: '25' },
      supplies: { title: 'Supplies', percent: '5', of: ['labour'], minimum: null, maximum: null },
      fees: [{ id: 'disposal', title: 'Disposal', amount: '6.50', per: 'estimate' }],
      taxes: [aTax('t', '10', { on: ['part', 'core', 'supplies'] })],
      cashStep: '0.10',
    }),
  };

  it('is the sum of what it stands for', () => {
    const result = priceDocuments(documents);
    assertAddsUp(result);
    // labour 150 + 50; parts 20 + 29; cores 6; sublet 80 × 1.25; fees 12 + 6.50; supplies 5 % of 200
    // discount 10 % of 200; tax 10 % of (49 + 6 + 10)
    expect(result.totals).toEqual({
      labour: '200.00',
      part: '49.00',
      core: '6.00',
      sublet: '100.00',
      fee: '18.50',
      supplies: '10.00',
      subtotal: '383.50',
      discount: '20.00',
      discounts: [{ id: 'd', title: 'First visit', amount: '20.00' }],
      taxes: [{ id: 't', title: 'Tax t', percent: '10', base: '65.00', amount: '6.50', exempt: false }],
      tax: '6.50',
      total: '370.00',
      cash: '370.00',
    });
  });

  it('the charges stand line by line, then fees, then supplies', () => {
    expect(priceDocuments(documents).charges.map(({ id }) => id)).toEqual([
      'o.labour',
      'o.part.seal',
      'l.labour',
      'p.part',
      'p.core',
      's.sublet',
      'f.fee',
      'fee.disposal',
      'supplies',
    ]);
  });
});

it('an estimate without lines comes to nothing', () => {
  expect(priced([]).totals).toMatchObject({ subtotal: '0.00', discount: '0.00', tax: '0.00', total: '0.00', cash: '0.00' });
});

describe('currencies by ISO 4217', () => {
  // 1.234567 h at 100 = 123.4567
  it.each([
    ['JPY', '123'],
    ['USD', '123.46'],
    ['EUR', '123.46'],
    ['KWD', '123.457'],
    ['TND', '123.457'],
    ['CLF', '123.4567'],
  ])('%s: %s', (currency, amount) => {
    const result = priced([labourLine('l', '1.234567')], { currency });
    expect(result).toMatchObject({ currency, totals: { total: amount } });
  });

  it('every amount has the same digits', () => {
    const result = priced([labourLine('l', '1'), partLine('p', '1', '2')], { currency: 'KWD', taxes: [aTax('t', '5')] });
    const money = [
      ...Object.values(result.totals).filter((value) => typeof value === 'string'),
      ...result.charges.map(({ amount }) => amount),
      ...result.totals.taxes.map(({ base }) => base),
    ];
    for (const amount of money) expect(amount).toMatch(/^\d+\.\d{3}$/);
  });
});

describe("a money step of the card's own", () => {
  it('whole units', () => {
    // 0.335 × 100 = 33.5 → 34; 3 × 1.40 = 4.20 → 4; tax 10 % of 38 = 3.8 → 4
    const result = priced([labourLine('l', '0.335'), partLine('p', '3', '1.40')], { moneyStep: '1', taxes: [aTax('t', '10')] });
    expect(result.totals).toMatchObject({ labour: '34', part: '4', tax: '4', total: '42' });
    expect(result.moneyStep).toBe('1');
  });

  it('steps of 0.05', () => {
    // 33.52 → 33.50; 3 × 1.41 = 4.23 → 4.25; tax 10 % of 37.75 = 3.775 → 3.80 (75.5 steps)
    const result = priced([labourLine('l', '0.3352'), partLine('p', '3', '1.41')], { moneyStep: '0.05', taxes: [aTax('t', '10')] });
    expect(result.totals).toMatchObject({ labour: '33.50', part: '4.25', tax: '3.80', total: '41.55' });
    expect(result.moneyStep).toBe('0.05');
  });
});

describe('three ways to round a half, and the mirror', () => {
  // 0.5 × 0.05 = 0.025 and 0.5 × 0.15 = 0.075
  it.each<[RatesDoc['rounding'], string[], string[]]>([
    ['half-up', ['0.03', '0.08'], ['-0.03', '-0.08']],
    ['half-even', ['0.02', '0.08'], ['-0.02', '-0.08']],
    ['half-down', ['0.02', '0.07'], ['-0.02', '-0.07']],
  ])('%s', (rounding, amounts, mirror) => {
    const of = (qty: string): string[] =>
      priced([partLine('p', qty, '0.05'), partLine('q', qty, '0.15')], { rounding }).charges.map(({ amount }) => amount);
    expect(of('0.5')).toEqual(amounts);
    expect(of('-0.5')).toEqual(mirror);
  });
});

describe('the cash total', () => {
  const cash = (unitPrice: string, rates: Partial<RatesDoc>): string => priced([partLine('p', '1', unitPrice)], rates).totals.cash;

  it('is the total where the card has no cash step', () => expect(cash('12.34', {})).toBe('12.34'));

  it('is at the nearest cash step, the total itself unchanged', () => {
    expect(cash('12.32', { cashStep: '0.05' })).toBe('12.30');
    expect(cash('12.33', { cashStep: '0.05' })).toBe('12.35');
    expect(priced([partLine('p', '1', '12.33')], { cashStep: '0.05' }).totals.total).toBe('12.33');
  });

  it("a half goes the card's way", () => {
    expect(cash('12.35', { cashStep: '0.10' })).toBe('12.40');
    expect(cash('12.35', { cashStep: '0.10', rounding: 'half-down' })).toBe('12.30');
    expect(cash('12.35', { cashStep: '0.10', rounding: 'half-even' })).toBe('12.40');
  });

  it('of a credit is the mirror image', () => {
    expect(priced([partLine('p', '-1', '12.33')], { cashStep: '0.05' }).totals.cash).toBe('-12.35');
  });
});

it('amounts far beyond the exact whole numbers of floating point stay exact', () => {
  // 999,999,999,999 × 999,999,999,999.99 = (10^12 − 1) × (10^12 − 0.01) = 10^24 − 1.01 × 10^12 + 0.01
  const result = priced([partLine('p', '999999999999', '999999999999.99')]);
  expect(result.totals.total).toBe('999999999998990000000000.01');
});

it('a total below zero is a credit', () => {
  const result = priced([labourLine('l', '0.1'), partLine('p', '-1', '50.00')], { taxes: [aTax('t', '10')] });
  // 10 − 50 = −40, tax −4
  expect(result.totals).toMatchObject({ subtotal: '-40.00', tax: '-4.00', total: '-44.00' });
});
