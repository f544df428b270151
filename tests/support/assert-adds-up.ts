/** What must hold inside any priced estimate, whatever the documents: the figures on the paper add up. */
import { expect } from 'vitest';
import { Fraction, sum } from './oracle-fraction.js';
import type { PricedFigures } from './oracle-compare.js';

const KINDS = ['labour', 'part', 'core', 'sublet', 'fee', 'supplies'] as const;
const added = (figures: readonly string[]): string => sum(figures.map((figure) => Fraction.of(figure))).toString();
const plain = (figure: string): string => Fraction.of(figure).toString();

function assertHours(priced: PricedFigures): void {
  for (const line of priced.lines.filter((each) => each.priced)) {
    expect(added([line.chargedHours, line.sharedHours]), `book hours of ${line.id}`).toBe(plain(line.bookHours));
    expect(Fraction.of(line.chargedHours).sign, `charged hours of ${line.id}`).toBeGreaterThanOrEqual(0);
  }
  expect(added(priced.lines.map(({ sharedHours }) => sharedHours)), 'overlap.hours').toBe(
    plain(priced.overlap.hours),
  );
  for (const step of priced.overlap.steps) {
    expect(step.lines, `lines of step ${step.step}`).toContain(step.carriedBy);
    const carrier = priced.lines.find(({ id }) => id === step.carriedBy);
    expect(carrier?.carries, `what ${step.carriedBy} carries`).toContain(step.step);
  }
  const saved = [
    ...priced.overlap.steps.map(({ savedHours }) => savedHours),
    ...priced.overlap.pairs.map(({ hours }) => hours),
  ];
  const included = priced.lines.filter(({ includedIn }) => includedIn !== null).map(({ bookHours }) => bookHours);
  expect(added([...saved, ...included]), 'hours saved by steps, pairs and inclusions').toBe(
    plain(priced.overlap.hours),
  );
}

function assertMoney(priced: PricedFigures): void {
  const { charges, totals } = priced;
  for (const line of priced.lines) {
    const own = charges.filter((charge) => charge.line === line.id).map(({ amount }) => amount);
    expect(added(own), `amount of ${line.id}`).toBe(plain(line.amount));
  }
  for (const kind of KINDS) {
    const ofKind = charges.filter((charge) => charge.kind === kind).map(({ amount }) => amount);
    expect(added(ofKind), `total of ${kind}`).toBe(plain(totals[kind]));
  }
  expect(added(KINDS.map((kind) => totals[kind])), 'subtotal').toBe(plain(totals.subtotal));
  expect(added(charges.map(({ discount }) => discount)), 'discount').toBe(plain(totals.discount));
  expect(added(totals.taxes.map(({ amount }) => amount)), 'tax').toBe(plain(totals.tax));
}

/** The text of a figure: money with the digits of the money step, hours plainly; no exponent, no "-0". */
function assertPrinted(priced: PricedFigures): void {
  const digits = priced.totals.total.split('.')[1]?.length ?? 0;
  const money = new RegExp(`^(?!-[0.]*$)-?\\d+${digits ? `\\.\\d{${digits}}` : ''}$`);
  const hours = /^\d+(\.\d*[1-9])?$/;
  const { taxes, ...totals } = priced.totals;
  for (const name of [...KINDS, 'subtotal', 'discount', 'tax', 'total', 'cash'] as const) {
    expect(totals[name], `print of totals.${name}`).toMatch(money);
  }
  for (const { id, base, amount } of taxes) {
    expect(base, `print of the base of ${id}`).toMatch(money);
    expect(amount, `print of the amount of ${id}`).toMatch(money);
  }
  for (const { amount, discount } of priced.charges) {
    expect(amount, 'print of a charge').toMatch(money);
    expect(discount, 'print of a discount').toMatch(money);
  }
  expect(priced.overlap.money, 'print of overlap.money').toMatch(money);
  for (const line of priced.lines) {
    expect(line.amount, `print of the amount of ${line.id}`).toMatch(money);
    expect(line.labour, `print of the labour of ${line.id}`).toMatch(money);
    for (const name of ['bookHours', 'sharedHours', 'chargedHours'] as const) {
      expect(line[name], `print of ${name} of ${line.id}`).toMatch(hours);
    }
  }
}

/** Fails when a figure of the estimate is not the sum of the figures that it stands for. */
export function assertAddsUp(priced: PricedFigures, options: { pricesIncludeTax?: boolean } = {}): void {
  assertHours(priced);
  assertMoney(priced);
  assertPrinted(priced);
  const { subtotal, discount, tax, total } = priced.totals;
  const before = Fraction.of(subtotal).minus(Fraction.of(discount));
  const after = options.pricesIncludeTax ? before : before.plus(Fraction.of(tax));
  expect(after.toString(), 'total').toBe(plain(total));
}
