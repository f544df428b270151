/** What must hold inside any priced estimate, whatever the documents: the figures on the paper add up. */
import { Fraction, sum } from './oracle-fraction.js';
import type { PricedFigures } from './oracle-compare.js';

const KINDS = ['labour', 'part', 'core', 'sublet', 'fee', 'supplies'] as const;

/** Works outside a test runner too. */
function same(actual: string, wanted: string, what: string): void {
  if (actual !== wanted) throw new Error(`${what}: ${actual}, not ${wanted}`);
}

function holds(is: boolean, what: string): void {
  if (!is) throw new Error(what);
}

function matches(text: string, pattern: RegExp, what: string): void {
  holds(pattern.test(text), `${what}: ${JSON.stringify(text)} is not like ${pattern}`);
}

const added = (figures: readonly string[]): string => sum(figures.map((figure) => Fraction.of(figure))).toString();
const plain = (figure: string): string => Fraction.of(figure).toString();

function assertHours(priced: PricedFigures): void {
  for (const line of priced.lines.filter((each) => each.priced)) {
    same(added([line.chargedHours, line.sharedHours]), plain(line.bookHours), `charged and shared hours of ${line.id}`);
    holds(Fraction.of(line.chargedHours).sign >= 0, `charged hours of ${line.id} are below zero`);
  }
  same(added(priced.lines.map(({ sharedHours }) => sharedHours)), plain(priced.overlap.hours), 'overlap.hours');
  for (const step of priced.overlap.steps) {
    holds(step.lines.includes(step.carriedBy), `step ${step.step} is carried by a line that does not need it`);
    const carrier = priced.lines.find(({ id }) => id === step.carriedBy);
    holds(carrier?.carries.includes(step.step) === true, `${step.carriedBy} does not say that it carries ${step.step}`);
  }
  const saved = [...priced.overlap.steps.map(({ savedHours }) => savedHours), ...priced.overlap.pairs.map(({ hours }) => hours)];
  const included = priced.lines.filter(({ includedIn }) => includedIn !== null).map(({ bookHours }) => bookHours);
  same(added([...saved, ...included]), plain(priced.overlap.hours), 'hours saved by steps, pairs and inclusions');
}

function assertMoney(priced: PricedFigures): void {
  const { charges, totals } = priced;
  for (const line of priced.lines) {
    const own = charges.filter((charge) => charge.line === line.id).map(({ amount }) => amount);
    same(added(own), plain(line.amount), `amount of ${line.id}`);
  }
  for (const kind of KINDS) {
    const ofKind = charges.filter((charge) => charge.kind === kind).map(({ amount }) => amount);
    same(added(ofKind), plain(totals[kind]), `total of ${kind}`);
  }
  same(added(KINDS.map((kind) => totals[kind])), plain(totals.subtotal), 'subtotal');
  same(added(charges.map(({ discount }) => discount)), plain(totals.discount), 'discount');
  same(added(totals.taxes.map(({ amount }) => amount)), plain(totals.tax), 'tax');
}

/** The text of a figure: money with the digits of the money step, hours plainly; no exponent, no "-0". */
function assertPrinted(priced: PricedFigures): void {
  const digits = priced.totals.total.split('.')[1]?.length ?? 0;
  const money = new RegExp(`^(?!-[0.]*$)-?\\d+${digits ? `\\.\\d{${digits}}` : ''}$`);
  const hours = /^\d+(\.\d*[1-9])?$/;
  const { taxes, ...totals } = priced.totals;
  for (const name of [...KINDS, 'subtotal', 'discount', 'tax', 'total', 'cash'] as const) {
    matches(totals[name], money, `print of totals.${name}`);
  }
  for (const { id, base, amount } of taxes) {
    matches(base, money, `print of the base of ${id}`);
    matches(amount, money, `print of the amount of ${id}`);
  }
  for (const { amount, discount } of priced.charges) {
    matches(amount, money, 'print of a charge');
    matches(discount, money, 'print of a discount');
  }
  matches(priced.overlap.money, money, 'print of overlap.money');
  for (const line of priced.lines) {
    matches(line.amount, money, `print of the amount of ${line.id}`);
    matches(line.labour, money, `print of the labour of ${line.id}`);
    for (const name of ['bookHours', 'sharedHours', 'chargedHours'] as const) {
      matches(line[name], hours, `print of ${name} of ${line.id}`);
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
  same(after.toString(), plain(total), 'total');
}
