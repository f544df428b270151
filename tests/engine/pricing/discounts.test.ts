/** Rule 10: discounts in order, on what is left, spread so that the parts add up. */
import { describe, expect, it } from 'vitest';
import type { PricedEstimate } from '../../../src/index.js';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import { aCatalogue, anEstimate, aRateCard, aTax, feeLine, labourLine, partLine, priceDocuments } from '../../support/builders.js';
import type { DiscountDoc, Kind, LineDoc, RatesDoc } from '../../support/oracle-documents.js';

let made = 0;
const percent = (figure: string, on: Kind[], lines: string[] = []): DiscountDoc => ({
  id: `d${(made += 1)}`,
  title: 'Discount',
  percent: figure,
  amount: null,
  on,
  lines,
});
const amount = (figure: string, on: Kind[], lines: string[] = []): DiscountDoc => ({
  id: `d${(made += 1)}`,
  title: 'Discount',
  percent: null,
  amount: figure,
  on,
  lines,
});

function priced(lines: LineDoc[], discounts: DiscountDoc[], rates: Partial<RatesDoc> = {}): PricedEstimate {
  const result = priceDocuments({ estimate: anEstimate(lines, { discounts }), catalogue: aCatalogue(), rates: aRateCard(rates) });
  assertAddsUp(result);
  return result;
}
const taken = ({ charges }: PricedEstimate): string[] => charges.map(({ discount }) => discount);

// 200.00 of labour, parts of 30.00 and 20.00.
const LINES = [labourLine('l', '2'), partLine('p', '1', '30.00'), partLine('q', '1', '20.00')];

describe('one discount', () => {
  it('is a percentage of the kinds that it names', () => {
    const result = priced(LINES, [percent('10', ['labour'])]);
    expect(taken(result)).toEqual(['20.00', '0.00', '0.00']);
    expect(result.totals).toMatchObject({ subtotal: '250.00', discount: '20.00', total: '230.00' });
  });

  it('or an amount, spread over them in proportion', () => {
    // 10.00 over 30 : 20
    expect(taken(priced(LINES, [amount('10.00', ['part'])]))).toEqual(['0.00', '6.00', '4.00']);
  });

  it("is rounded to the money step, by the card's way of rounding", () => {
    // 12.5 % of 20.20 = 2.525
    const lines = [partLine('p', '1', '20.20')];
    const off = (rounding: RatesDoc['rounding']): string => priced(lines, [percent('12.5', ['part'])], { rounding }).totals.discount;
    expect([off('half-up'), off('half-even'), off('half-down')]).toEqual(['2.53', '2.52', '2.52']);
    expect(priced(lines, [amount('1.005', ['part'])]).totals.discount).toBe('1.01');
  });

  it('takes no more than there is', () => {
    expect(taken(priced(LINES, [amount('999.00', ['part'])]))).toEqual(['0.00', '30.00', '20.00']);
    expect(priced(LINES, [percent('150', ['labour', 'part'])]).totals).toMatchObject({ discount: '250.00', total: '0.00' });
  });

  it('of charges that there are not is nothing', () => {
    expect(priced(LINES, [amount('10.00', ['sublet']), percent('10', ['supplies', 'core'])]).totals.discount).toBe('0.00');
  });

  it('can be on lines only', () => {
    expect(taken(priced(LINES, [percent('10', ['labour', 'part'], ['q', 'l'])]))).toEqual(['20.00', '0.00', '2.00']);
    expect(taken(priced(LINES, [percent('10', ['part'], ['l'])]))).toEqual(['0.00', '0.00', '0.00']);
  });

  it('on lines does not touch what is charged for the estimate as a whole', () => {
    const supplies = { title: 'Supplies', percent: '10', of: ['labour' as const], minimum: null, maximum: null };
    expect(taken(priced([labourLine('l', '1')], [percent('50', ['labour', 'supplies'], ['l'])], { supplies }))).toEqual(['50.00', '0.00']);
    expect(taken(priced([labourLine('l', '1')], [percent('50', ['labour', 'supplies'])], { supplies }))).toEqual(['50.00', '5.00']);
  });

  it('leaves declined lines alone', () => {
    expect(
      priced([labourLine('l', '2', { decision: 'declined' }), partLine('p', '1', '30.00')], [amount('50.00', ['labour', 'part'])]).totals
        .discount,
    ).toBe('30.00');
  });
});

describe('several', () => {
  it('in order, each on what is left: 10 % and then 20.00', () => {
    const result = priced([labourLine('l', '2')], [percent('10', ['labour']), amount('20.00', ['labour'])]);
    // 20.00, then 20.00 of the 180.00 left
    expect(result.totals.discounts.map((each) => each.amount)).toEqual(['20.00', '20.00']);
    expect(result.totals.discount).toBe('40.00');
  });

  it('another order, another sum: 20.00 and then 10 %', () => {
    const result = priced([labourLine('l', '2')], [amount('20.00', ['labour']), percent('10', ['labour'])]);
    // 20.00, then 10 % of 180.00
    expect(result.totals.discounts.map((each) => each.amount)).toEqual(['20.00', '18.00']);
  });

  it('never together more than there is', () => {
    const result = priced([labourLine('l', '1')], [amount('80.00', ['labour']), amount('80.00', ['labour']), amount('80.00', ['labour'])]);
    expect(result.totals.discounts.map((each) => each.amount)).toEqual(['80.00', '20.00', '0.00']);
    expect(result.totals.total).toBe('0.00');
  });

  it('the second spreads over what the first has left', () => {
    // First 30.00 off p alone (all of it); then 10.00 over 0 : 20.
    expect(taken(priced(LINES, [amount('30.00', ['part'], ['p']), amount('10.00', ['part'])]))).toEqual(['0.00', '30.00', '10.00']);
  });
});

describe('the spread, by the largest remainder', () => {
  const three = ['a', 'b', 'c'].map((id) => partLine(id, '1', '10.00'));

  it('gives what is left over to the first on a tie', () => {
    expect(taken(priced(three, [amount('0.10', ['part'])]))).toEqual(['0.04', '0.03', '0.03']);
    expect(taken(priced(three, [amount('0.11', ['part'])]))).toEqual(['0.04', '0.04', '0.03']);
  });

  it('and to the largest remainder else', () => {
    // 1.00 over 10 : 20 : 40 → 14.28…, 28.57…, 57.14… cents
    const lines = [partLine('a', '1', '10.00'), partLine('b', '1', '20.00'), partLine('c', '1', '40.00')];
    expect(taken(priced(lines, [amount('1.00', ['part'])]))).toEqual(['0.14', '0.29', '0.57']);
  });

  it('in steps of 0.05', () => {
    // 1.00 over three equal: 6⅔ steps each
    expect(taken(priced(three, [amount('1.00', ['part'])], { moneyStep: '0.05' }))).toEqual(['0.35', '0.35', '0.30']);
  });

  it('in whole units', () => {
    expect(taken(priced(three, [amount('10', ['part'])], { currency: 'JPY' }))).toEqual(['4', '3', '3']);
  });
});

describe('with credits among the charges', () => {
  it('the credit takes its share with it', () => {
    // 60 − 10 = 50; 10 % = 5.00 over 60 : −10 → 6.00 and −1.00
    const result = priced([feeLine('a', '60.00'), feeLine('b', '-10.00')], [percent('10', ['fee'])]);
    expect(taken(result)).toEqual(['6.00', '-1.00']);
    expect(result.totals).toMatchObject({ subtotal: '50.00', discount: '5.00', total: '45.00' });
  });

  it('nothing is taken where they come to nothing or less', () => {
    expect(priced([feeLine('a', '10.00'), feeLine('b', '-10.00')], [amount('5.00', ['fee'])]).totals.discount).toBe('0.00');
    expect(priced([feeLine('b', '-10.00')], [percent('50', ['fee'])]).totals.discount).toBe('0.00');
  });
});

it('taxes are on what is left', () => {
  const taxes = [aTax('t', '10', { on: ['labour'] })];
  expect(priced([labourLine('l', '2')], [percent('25', ['labour'])], { taxes }).totals).toMatchObject({ tax: '15.00', total: '165.00' });
});
