/** Rule 11: taxes, several, on one another, in the price, and for those who are exempt. */
import { describe, expect, it } from 'vitest';
import type { PricedEstimate } from '../../../src/index.js';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import { aCatalogue, anEstimate, aRateCard, aTax, feeLine, labourLine, partLine, priceDocuments } from '../../support/builders.js';
import type { EstimateDoc, LineDoc, RatesDoc } from '../../support/oracle-documents.js';

function priced(lines: LineDoc[], rates: Partial<RatesDoc>, estimate: Partial<EstimateDoc> = {}): PricedEstimate {
  const result = priceDocuments({ estimate: anEstimate(lines, estimate), catalogue: aCatalogue(), rates: aRateCard(rates) });
  assertAddsUp(result, { pricesIncludeTax: rates.pricesIncludeTax ?? false });
  return result;
}
/** `tax: base → amount` */
const taxes = ({ totals }: PricedEstimate): string[] => totals.taxes.map(({ id, base, amount }) => `${id}: ${base} → ${amount}`);
const exempt = (...ids: string[]): Partial<EstimateDoc> => ({ customer: { name: '', phone: '', email: '', taxExempt: ids } });

// 200.00 of labour and a part of 50.00.
const LINES = [labourLine('l', '2'), partLine('p', '1', '50.00')];

describe('what a tax is on', () => {
  it('the kinds that it names', () => {
    expect(
      taxes(priced(LINES, { taxes: [aTax('s', '10', { on: ['part'] }), aTax('v', '20'), aTax('n', '5', { on: ['sublet'] })] })),
    ).toEqual(['s: 50.00 → 5.00', 'v: 250.00 → 50.00', 'n: 0.00 → 0.00']);
  });

  it('or the taxes that a line names instead', () => {
    const card = { taxes: [aTax('s', '10', { on: ['part'] }), aTax('t', '1', { on: [] })] };
    expect(taxes(priced([partLine('p', '1', '50.00', { taxes: ['t'] })], card))).toEqual(['s: 0.00 → 0.00', 't: 50.00 → 0.50']);
    expect(taxes(priced([partLine('p', '1', '50.00', { taxes: [] })], card))).toEqual(['s: 0.00 → 0.00', 't: 0.00 → 0.00']);
  });

  it('each kind of charge by its own tax', () => {
    // 100.00 of each kind, at 1 to 6 per cent.
    const kinds = ['labour', 'part', 'core', 'sublet', 'fee', 'supplies'] as const;
    const lines: LineDoc[] = [
      labourLine('l', '1'),
      partLine('p', '1', '100.00', { core: '100.00' }),
      { id: 's', kind: 'sublet', title: 'Sublet', cost: '0', price: '100.00' },
      feeLine('f', '100.00'),
    ];
    const supplies = { title: 'Supplies', percent: '100', of: ['labour' as const], minimum: null, maximum: null };
    expect(taxes(priced(lines, { supplies, taxes: kinds.map((kind, i) => aTax(kind, String(i + 1), { on: [kind] })) }))).toEqual(
      kinds.map((kind, i) => `${kind}: 100.00 → ${i + 1}.00`),
    );
  });

  it('core charges by their own kind', () => {
    const card = { taxes: [aTax('s', '10', { on: ['part'] }), aTax('c', '20', { on: ['core'] })] };
    expect(taxes(priced([partLine('p', '2', '50.00', { core: '5.00' })], card))).toEqual(['s: 100.00 → 10.00', 'c: 10.00 → 2.00']);
  });

  it('each charge tells its taxes, in the order of the card', () => {
    const card = { taxes: [aTax('b', '1'), aTax('a', '1', { on: ['part', 'labour'] })] };
    expect(priced([feeLine('f', '1.00'), partLine('p', '1', '1.00')], card).charges.map((charge) => charge.taxes)).toEqual([
      ['b'],
      ['b', 'a'],
    ]);
  });
});

describe('rounding once for each tax, or once for each charge', () => {
  // Three parts of 0.10 at 15 %: together 0.045 → 0.05; each 0.015 → 0.02, added 0.06.
  const lines = ['a', 'b', 'c'].map((id) => partLine(id, '1', '0.10'));
  const amount = (taxRounding: RatesDoc['taxRounding'], rounding: RatesDoc['rounding']): string =>
    priced(lines, { taxes: [aTax('t', '15')], taxRounding, rounding }).totals.tax;

  it('half-up', () => expect([amount('total', 'half-up'), amount('line', 'half-up')]).toEqual(['0.05', '0.06']));
  it('half-even', () => expect([amount('total', 'half-even'), amount('line', 'half-even')]).toEqual(['0.04', '0.06']));
  it('half-down', () => expect([amount('total', 'half-down'), amount('line', 'half-down')]).toEqual(['0.04', '0.03']));

  it('a credit is the mirror image', () => {
    const credits = ['a', 'b', 'c'].map((id) => partLine(id, '-1', '0.10'));
    const mirror = (taxRounding: RatesDoc['taxRounding'], rounding: RatesDoc['rounding']): string =>
      priced(credits, { taxes: [aTax('t', '15')], taxRounding, rounding }).totals.tax;
    expect([mirror('total', 'half-up'), mirror('line', 'half-up'), mirror('line', 'half-even'), mirror('line', 'half-down')]).toEqual([
      '-0.05',
      '-0.06',
      '-0.06',
      '-0.03',
    ]);
  });
});

describe('a tax after another', () => {
  it('is on the charges and the other tax', () => {
    // 250 × 5 % = 12.50; (250 + 12.50) × 10 % = 26.25
    expect(taxes(priced(LINES, { taxes: [aTax('a', '5'), aTax('b', '10', { after: ['a'] })] }))).toEqual([
      'a: 250.00 → 12.50',
      'b: 262.50 → 26.25',
    ]);
  });

  it('wherever it stands on the card', () => {
    expect(taxes(priced(LINES, { taxes: [aTax('b', '10', { after: ['a'] }), aTax('a', '5')] }))).toEqual([
      'b: 262.50 → 26.25',
      'a: 250.00 → 12.50',
    ]);
  });

  it('on the other as it was rounded', () => {
    // 0.50 × 5 % = 0.025 → 0.03; (0.50 + 0.03) × 50 % = 0.265 → 0.27; unrounded 0.2625 → 0.26.
    expect(taxes(priced([partLine('p', '1', '0.50')], { taxes: [aTax('a', '5'), aTax('b', '50', { after: ['a'] })] }))).toEqual([
      'a: 0.50 → 0.03',
      'b: 0.53 → 0.27',
    ]);
  });

  it('may be on taxes alone', () => {
    expect(taxes(priced(LINES, { taxes: [aTax('a', '5'), aTax('b', '10', { on: [], after: ['a'] })] }))).toEqual([
      'a: 250.00 → 12.50',
      'b: 12.50 → 1.25',
    ]);
  });

  it('in a chain of three, with one on two', () => {
    // a 25; b (250 + 25) × 10 % = 27.50; c (250 + 25 + 27.50) × 10 % = 30.25
    expect(
      taxes(priced(LINES, { taxes: [aTax('c', '10', { after: ['a', 'b'] }), aTax('b', '10', { after: ['a'] }), aTax('a', '10')] })),
    ).toEqual(['c: 302.50 → 30.25', 'b: 275.00 → 27.50', 'a: 250.00 → 25.00']);
  });

  it('in a chain of three, each on the one before, wherever they stand on the card', () => {
    // a 25; b (250 + 25) × 10 % = 27.50; c (250 + 27.50) × 10 % = 27.75
    expect(
      taxes(priced(LINES, { taxes: [aTax('c', '10', { after: ['b'] }), aTax('b', '10', { after: ['a'] }), aTax('a', '10')] })),
    ).toEqual(['c: 277.50 → 27.75', 'b: 275.00 → 27.50', 'a: 250.00 → 25.00']);
  });

  it('line by line: on the tax of each charge', () => {
    // Each 0.50: a 0.03, b (0.50 + 0.03) × 50 % = 0.27; twice.
    const lines = [partLine('p', '1', '0.50'), partLine('q', '1', '0.50')];
    expect(taxes(priced(lines, { taxRounding: 'line', taxes: [aTax('a', '5'), aTax('b', '50', { after: ['a'] })] }))).toEqual([
      'a: 1.00 → 0.06',
      'b: 1.06 → 0.54',
    ]);
  });

  it('line by line, where only the other is on a charge', () => {
    // p has a and, over it, b; l has b alone.
    const card: Partial<RatesDoc> = {
      taxRounding: 'line',
      taxes: [aTax('a', '10', { on: ['part'] }), aTax('b', '20', { on: ['labour'], after: ['a'] })],
    };
    // p: a 5.00, b 20 % of 5.00 = 1.00; l: b 20 % of 200 = 40.00
    expect(taxes(priced(LINES, card))).toEqual(['a: 50.00 → 5.00', 'b: 205.00 → 41.00']);
  });
});

describe('an exempt customer', () => {
  const card = { taxes: [aTax('a', '5'), aTax('b', '10', { after: ['a'] })] };

  it('pays none of it, and the tax says so with its base', () => {
    const result = priced(LINES, card, exempt('b'));
    expect(result.totals.taxes).toEqual([
      { id: 'a', title: 'Tax a', percent: '5', base: '250.00', amount: '12.50', exempt: false },
      { id: 'b', title: 'Tax b', percent: '10', base: '262.50', amount: '0.00', exempt: true },
    ]);
    expect(result.totals.total).toBe('262.50');
  });

  it('a tax on the one that falls away is less', () => {
    expect(taxes(priced(LINES, card, exempt('a')))).toEqual(['a: 250.00 → 0.00', 'b: 250.00 → 25.00']);
    expect(taxes(priced(LINES, { ...card, taxRounding: 'line' }, exempt('a')))).toEqual(['a: 250.00 → 0.00', 'b: 250.00 → 25.00']);
  });

  it('pays no tax at all when exempt from all', () =>
    expect(priced(LINES, card, exempt('a', 'b')).totals).toMatchObject({ tax: '0.00', total: '250.00' }));

  it('of a tax that the card lacks gets a warning', () => {
    const result = priced(LINES, card, exempt('a', 'gone'));
    expect(result.problems).toEqual([expect.objectContaining({ severity: 'warning', code: 'unknown-tax', path: 'customer.taxExempt[1]' })]);
    expect(result.complete).toBe(true);
  });
});

describe('prices that include tax', () => {
  const included = (
    list: RatesDoc['taxes'],
    lines: LineDoc[],
    more: Partial<RatesDoc> = {},
    estimate: Partial<EstimateDoc> = {},
  ): PricedEstimate => priced(lines, { pricesIncludeTax: true, taxes: list, ...more }, estimate);

  it('one tax is taken out, the total unchanged', () => {
    // 120.00 at 20 %: 120 × 20/120 = 20.00
    const result = included([aTax('v', '20')], [partLine('p', '1', '120.00')]);
    expect(taxes(result)).toEqual(['v: 100.00 → 20.00']);
    expect(result.totals).toMatchObject({ subtotal: '120.00', tax: '20.00', total: '120.00' });
    expect(result.pricesIncludeTax).toBe(true);
  });

  it('is rounded once for the tax, or for each charge', () => {
    // Two parts of 1.00 at 7 %: 2 × 7/107 = 0.1308… → 0.13; each 0.0654… → 0.07, added 0.14.
    const lines = [partLine('p', '1', '1.00'), partLine('q', '1', '1.00')];
    expect(taxes(included([aTax('v', '7')], lines))).toEqual(['v: 1.87 → 0.13']);
    expect(taxes(included([aTax('v', '7')], lines, { taxRounding: 'line' }))).toEqual(['v: 1.87 → 0.14']);
  });

  it('is taken out of each charge, not put on it', () => {
    // 120 × 20/120 + 60 × 20/120 = 30.00, where 20 % on them would be 36.00. The fee: 100.00, a 5.00, b 20 % of 105.00 = 21.00.
    expect(
      taxes(included([aTax('v', '20')], [partLine('p', '1', '120.00'), partLine('q', '1', '60.00')], { taxRounding: 'line' })),
    ).toEqual(['v: 150.00 → 30.00']);
    const list = [aTax('a', '5', { on: ['fee'] }), aTax('b', '20', { after: ['a'] })];
    expect(taxes(included(list, [partLine('p', '1', '120.00'), feeLine('f', '126.00')], { taxRounding: 'line' }))).toEqual([
      'a: 100.00 → 5.00',
      'b: 205.00 → 41.00',
    ]);
  });

  it('two taxes side by side', () => {
    // 115.00 at 5 % and 10 %: net 100.00
    expect(taxes(included([aTax('a', '5'), aTax('b', '10')], [partLine('p', '1', '115.00')]))).toEqual([
      'a: 100.00 → 5.00',
      'b: 100.00 → 10.00',
    ]);
  });

  it('a tax on a tax', () => {
    // 115.50 = 100 + 5 + 10 % of 105
    expect(taxes(included([aTax('a', '5'), aTax('b', '10', { after: ['a'] })], [partLine('p', '1', '115.50')]))).toEqual([
      'a: 100.00 → 5.00',
      'b: 105.00 → 10.50',
    ]);
  });

  it('charges with different taxes on them, added exactly before the rounding', () => {
    const list = [aTax('a', '7', { on: ['part', 'fee'] }), aTax('b', '20', { on: ['fee'] })];
    // p: 107 → a 7.00. f: 127 → net 100, a 7.00, b 20.00.
    expect(taxes(included(list, [partLine('p', '1', '107.00'), feeLine('f', '127.00')]))).toEqual([
      'a: 200.00 → 14.00',
      'b: 100.00 → 20.00',
    ]);
  });

  it('after discount', () => {
    const discounts = [{ id: 'd', title: 'x', percent: '50', amount: null, on: ['part' as const], lines: [] }];
    const result = included([aTax('v', '20')], [partLine('p', '1', '120.00')], {}, { discounts });
    expect(result.totals).toMatchObject({ discount: '60.00', tax: '10.00', total: '60.00' });
  });

  it('an exempt tax is not in the price: nothing is taken out', () => {
    const result = included([aTax('v', '20')], [partLine('p', '1', '120.00')], {}, exempt('v'));
    expect(taxes(result)).toEqual(['v: 120.00 → 0.00']);
    expect(result.totals.total).toBe('120.00');
  });

  it('a charge without tax keeps all of its price', () => {
    expect(taxes(included([aTax('v', '20', { on: ['part'] })], [partLine('p', '1', '120.00'), feeLine('f', '50.00')]))).toEqual([
      'v: 100.00 → 20.00',
    ]);
  });

  it('a base that lies exactly on a half is rounded as such, though its parts divide without end', () => {
    // 3 × 30.01 / 1.2 = 75.025 → 75.03; each is 25.008333…
    const list = [aTax('t', '20'), aTax('y', '0'), aTax('z', '0')];
    const lines = [['t'], ['t', 'y'], ['t', 'z']].map((own, i) => partLine(`p${i}`, '1', '30.01', { taxes: own }));
    expect(taxes(included(list, lines))[0]).toBe('t: 75.03 → 15.01');
  });
});

it('a percentage with many digits is exact', () => {
  // 8.8625 % of 1000.00 = 88.625
  expect(priced([partLine('p', '1', '1000.00')], { taxes: [aTax('t', '8.8625')] }).totals.tax).toBe('88.63');
});

it('no taxes, no tax', () => {
  expect(priced(LINES, {}).totals).toMatchObject({ taxes: [], tax: '0.00', total: '250.00' });
});
