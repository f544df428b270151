/** Rule 7: charged hours × labour rate, rounded once. */
import { describe, expect, it } from 'vitest';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aRateCard,
  aStep,
  labourLine,
  operationLine,
  priceDocuments,
  priceLines,
} from '../../support/builders.js';
import type { RatesDoc } from '../../support/oracle-documents.js';

const classes = (rate: string): Partial<RatesDoc> => ({
  labourClasses: [
    { id: 'general', title: '', rate },
    { id: 'electrical', title: '', rate: '162.00' },
  ],
});

describe('a labour line', () => {
  it.each([
    ['0.5', '148.00', '74.00'],
    // 0.35 × 148.50 = 51.975
    ['0.35', '148.50', '51.98'],
    // 0.1 × 99.95 = 9.995
    ['0.1', '99.95', '10.00'],
    ['1.25', '0', '0.00'],
  ])('%s h at %s is %s', (hours, rate, amount) => {
    const priced = priceLines([labourLine('l', hours)], classes(rate));
    assertAddsUp(priced);
    expect(priced.lines[0]).toMatchObject({ bookHours: hours, chargedHours: hours, sharedHours: '0', labour: amount, amount });
    expect(priced.charges).toEqual([expect.objectContaining({ id: 'l.labour', kind: 'labour', qty: hours, amount })]);
  });

  it('of no hours is no charge', () => {
    const priced = priceLines([labourLine('l', '0.0')]);
    assertAddsUp(priced);
    expect(priced.charges).toEqual([]);
    expect(priced.lines[0]).toMatchObject({ priced: true, amount: '0.00' });
  });

  it('is charged at its own labour class', () => {
    const priced = priceLines([labourLine('l', '2', { labourClass: 'electrical' })], classes('100.00'));
    expect(priced.lines[0]).toMatchObject({ rate: '162.00', labour: '324.00' });
  });

  it('shares nothing with anything', () => {
    const priced = priceLines([labourLine('a', '2'), labourLine('b', '2')]);
    expect(priced.overlap).toMatchObject({ hours: '0', money: '0.00' });
    expect(priced.totals.labour).toBe('400.00');
  });
});

describe('an operation line', () => {
  const catalogue = aCatalogue({
    steps: [aStep('s', '0.4')],
    operations: [anOperation('a', '1.0', { steps: ['s'] }), anOperation('b', '1.3', { steps: ['s'] })],
  });
  const priced = (lines: ReturnType<typeof operationLine>[], rates: Partial<RatesDoc>) => {
    const result = priceDocuments({ estimate: anEstimate(lines), catalogue, rates: aRateCard(rates) });
    assertAddsUp(result);
    return result;
  };

  it("is charged at its operation's labour class, unless the line names another", () => {
    expect(priced([operationLine('l', 'a')], classes('100.00')).lines[0]).toMatchObject({ rate: '100.00', labour: '100.00' });
    expect(priced([operationLine('l', 'a', { labourClass: 'electrical' })], classes('100.00')).lines[0]).toMatchObject({
      rate: '162.00',
      labour: '162.00',
    });
  });

  it('saves what lies between book price and charge, each rounded', () => {
    // Rate 99.99: book a 99.99, b 1.3 × 99.99 = 129.987 → 129.99; charged a 0.6 × 99.99 = 59.994 → 59.99, b 129.99.
    const both = priced([operationLine('a', 'a'), operationLine('b', 'b')], classes('99.99'));
    expect(both.lines.map(({ labour }) => labour)).toEqual(['59.99', '129.99']);
    // 99.99 − 59.99
    expect(both.overlap).toMatchObject({ hours: '0.4', money: '40.00' });
  });
});
