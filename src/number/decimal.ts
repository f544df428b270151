import { Decimal as Shared } from 'decimal.js';

/**
 * The engine's own decimal arithmetic: a configured copy, so that neither a host page that sets the shared
 * constructor nor this project can change the other's results.
 *
 * 120 digits hold every product of the document formats exactly (the longest figure has 22 digits); only the
 * tax taken out of a price divides without end, and that is rounded to a money step at once.
 */
export const Decimal = Shared.clone({
  defaults: true,
  precision: 120,
  rounding: Shared.ROUND_HALF_UP,
  toExpNeg: -9e15,
  toExpPos: 9e15,
});
export type Decimal = Shared;

/** A figure as the documents hold it: `"148.00"`, `"-3"`. Never a JavaScript number. */
export type DecimalString = string;

/** The form of every figure in a document: up to 12 digits before the point and 10 after. */
export const DECIMAL_PATTERN = /^-?\d{1,12}(\.\d{1,10})?$/;

export const ZERO = new Decimal(0);
export const ONE = new Decimal(1);
export const HUNDRED = new Decimal(100);

/** A decimal from a figure that a document check has let through. */
export function decimal(text: DecimalString): Decimal {
  return new Decimal(text);
}

/** Plain notation without trailing zeros: `1.20` prints `"1.2"`, never an exponent, never `"-0"`. */
export function printPlain(value: Decimal): DecimalString {
  return value.toFixed();
}

/** Adds a list exactly. */
export function sum(values: Iterable<Decimal>): Decimal {
  let total = ZERO;
  for (const value of values) total = total.plus(value);
  return total;
}

/** `percent` hundredths of `value`, unrounded. */
export function percentOf(value: Decimal, percent: Decimal): Decimal {
  return value.times(percent).div(HUNDRED);
}

export function max(a: Decimal, b: Decimal): Decimal {
  return a.gte(b) ? a : b;
}

export function min(a: Decimal, b: Decimal): Decimal {
  return a.lte(b) ? a : b;
}
