/**
 * Twelve published example invoices through the engine: each line a part line (or a fee line for an allowance or a
 * charge), each VAT category and rate a tax of the card. Source of every number: example-invoices.ts (READ).
 * Rules behind them: EN 16931 BR-CO-10, -13, -14, -15, -17 (VAT for each category and rate, rounded to two decimals).
 */
import { describe, expect, it } from 'vitest';
import { aTax, feeLine, partLine, priceLines } from '../support/builders.js';
import type { LineDoc, RatesDoc } from '../support/oracle-documents.js';
import { Fraction, sum } from '../support/oracle-fraction.js';
import { assertAddsUp } from '../support/assert-adds-up.js';
import { EXAMPLE_INVOICES, type Adjustment, type ExampleInvoice } from './example-invoices.js';

const taxId = (category: string): string => category.replace('/', '-');

function adjustmentLine(id: string, { kind, amount }: Adjustment, category: string): LineDoc {
  const signed = kind === 'allowance' ? Fraction.of(amount).negated() : Fraction.of(amount);
  return feeLine(id, signed.toString(), { taxes: [taxId(category)] });
}

/** The lines of the invoice; those that make up its line number i have ids that begin with `i.`. */
function linesOf(invoice: ExampleInvoice): LineDoc[] {
  const lines = invoice.lines.flatMap((line, i) => {
    const price = Fraction.of(line.price).over(Fraction.of(line.per)).toString();
    const adjustments = line.adjustments.map((adjustment, j) => adjustmentLine(`${i}.${j}`, adjustment, line.category));
    return [partLine(`${i}.part`, line.quantity, price, { taxes: [taxId(line.category)] }), ...adjustments];
  });
  const whole = invoice.adjustments.map((adjustment, i) => adjustmentLine(`whole.${i}`, adjustment, adjustment.category));
  return [...lines, ...whole];
}

/** A tax for each VAT category and rate; the lines name theirs. */
function taxesOf({ taxes }: ExampleInvoice): RatesDoc['taxes'] {
  return taxes.map(({ category }) => aTax(taxId(category), category.split('/')[1]!, { on: [] }));
}

function priceInvoice(invoice: ExampleInvoice, card: Partial<RatesDoc> = {}) {
  const taxes = taxesOf(invoice);
  const cashStep = invoice.payableRounding === undefined ? null : '1';
  return priceLines(linesOf(invoice), { currency: invoice.currency, taxes, cashStep, ...card });
}

const figure = (text: string): string => Fraction.of(text).toString();

describe.each(EXAMPLE_INVOICES)('$file', (invoice) => {
  const priced = priceInvoice(invoice);

  it('has the net amount of every line', () => {
    const nets = invoice.lines.map((_, i) =>
      sum(priced.lines.filter(({ id }) => id.startsWith(`${i}.`)).map(({ amount }) => Fraction.of(amount))).toString(),
    );
    expect(nets).toEqual(invoice.lines.map(({ net }) => figure(net)));
    const ofLines = priced.lines.filter(({ id }) => !id.startsWith('whole.')).map(({ amount }) => Fraction.of(amount));
    expect(sum(ofLines).toString()).toBe(figure(invoice.lineExtension));
  });

  it('has the taxable amount and the tax of every category and rate', () => {
    expect(priced.totals.taxes.map(({ id, base, amount }) => [id, figure(base), figure(amount)])).toEqual(
      invoice.taxes.map(({ category, taxable, tax }) => [taxId(category), figure(taxable), figure(tax)]),
    );
    expect(figure(priced.totals.tax)).toBe(figure(invoice.tax));
  });

  it('has the totals without and with tax', () => {
    expect(figure(priced.totals.subtotal)).toBe(figure(invoice.taxExclusive));
    expect(figure(priced.totals.total)).toBe(figure(invoice.taxInclusive));
    assertAddsUp(priced);
  });
});

it.each(EXAMPLE_INVOICES.filter(({ payableRounding }) => payableRounding !== undefined))(
  '$file is rounded by $payableRounding to whole units of money',
  (invoice) => {
    const rounded = Fraction.of(invoice.taxInclusive).plus(Fraction.of(invoice.payableRounding!));
    expect(figure(priceInvoice(invoice).totals.cash)).toBe(rounded.toString());
  },
);

/** DERIVED from the same invoices: what other designs of rounding the tax would have given. The first is what they state. */
describe('the invoices that tell designs of rounding apart', () => {
  const named = (part: string): ExampleInvoice => EXAMPLE_INVOICES.find(({ file }) => file.includes(part))!;

  /** The net lines as they are stated, so that only the rounding of the tax differs. */
  const taxOf = (file: string, card: Partial<RatesDoc>): string => {
    const { lines, currency } = named(file);
    const nets = lines.map(({ net, category }, i) => feeLine(`l${i}`, net, { taxes: [taxId(category)] }));
    return priceLines(nets, { currency, taxes: taxesOf(named(file)), ...card }).totals.tax;
  };

  it.each([
    ['ubl-tc434-example8', '190.87', '190.88', '190.87'],
    ['Telefoni', '207.76', '207.77', '207.76'],
    ['Tjanster_Kopiering', '1253.11', '1253.11', '1253.10'],
    ['BIS3_Invoice_positive', '156435.89', '156435.89', '156435.88'],
  ])('%s: %s in total, %s line by line, %s half to even', (file, total, line, halfEven) => {
    expect(taxOf(file, { taxRounding: 'total' })).toBe(total);
    expect(taxOf(file, { taxRounding: 'line' })).toBe(line);
    expect(taxOf(file, { taxRounding: 'total', rounding: 'half-even' })).toBe(halfEven);
  });
});
