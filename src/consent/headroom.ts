import type { AuthorisationRule } from '../documents/rates.js';
import { type Decimal, decimal, type DecimalString, max, min, percentOf, ZERO } from '../number/decimal.js';
import { fractionDigits } from '../number/money.js';
import { truncate } from '../number/rounding.js';
import type { PricedEstimate } from '../pricing/priced-estimate.js';

/** Sums may have more digits than the figures of a document. */
const PLAIN = /^-?\d+(\.\d+)?$/;

/**
 * Rule 15: how much more may be charged without asking again. The rule's percentage and amount combined by `pick`, at
 * most `cap`, cut off at the money step; where one of the two is missing the other counts. No rule, no headroom.
 *
 * Laws differ and change; a preset is a convenience and not legal advice.
 *
 * @param authorised what was authorised, in the rule's `base` (with or without tax)
 * @param step the money step, `"0.01"`
 * @returns an amount in the step's digits, `"25.00"`
 * @throws TypeError where `authorised` is not a decimal string, or `step` not one above zero
 */
export function headroom(rule: AuthorisationRule | null, authorised: DecimalString, step: DecimalString): DecimalString {
  if (!PLAIN.test(authorised)) throw new TypeError(`authorised is not a decimal string: ${authorised}`);
  if (!PLAIN.test(step) || decimal(step).lte(ZERO)) throw new TypeError(`step is not a decimal string above zero: ${step}`);
  const free = rule === null ? ZERO : max(ZERO, allowance(rule, decimal(authorised)));
  const capped = rule?.cap == null ? free : min(free, decimal(rule.cap));
  return truncate(capped, decimal(step)).toFixed(fractionDigits(step));
}

function allowance(rule: AuthorisationRule, authorised: Decimal): Decimal {
  const byPercent = rule.percent == null ? null : percentOf(authorised, decimal(rule.percent));
  const byAmount = rule.amount == null ? null : decimal(rule.amount);
  if (rule.pick === 'percent') return byPercent ?? ZERO;
  if (rule.pick === 'amount') return byAmount ?? ZERO;
  if (byPercent === null || byAmount === null) return byPercent ?? byAmount ?? ZERO;
  return rule.pick === 'lesser' ? min(byPercent, byAmount) : max(byPercent, byAmount);
}

/** Whether a price may be charged under an authorisation, and the figures behind the answer. */
export interface ConsentNeed {
  readonly needed: boolean;
  /** What the price comes to in the rule's base. */
  readonly price: DecimalString;
  readonly headroom: DecimalString;
  /** The most that may be charged without asking again. */
  readonly limit: DecimalString;
  /** By how much the price is above the limit; zero where it is not. */
  readonly over: DecimalString;
}

/**
 * Rule 15: whether a priced estimate needs a new authorisation, because it is above what was authorised and the
 * headroom together.
 *
 * @param authorised what was authorised, in the rule's `base`
 */
export function needsConsent(priced: PricedEstimate, authorised: DecimalString, rule: AuthorisationRule | null): ConsentNeed {
  const { totals } = priced;
  const digits = fractionDigits(totals.total);
  const price = decimal(basePrice(priced, rule));
  const free = headroom(rule, authorised, priced.moneyStep);
  const limit = decimal(authorised).plus(decimal(free));
  const over = max(ZERO, price.minus(limit));
  return {
    needed: price.gt(limit),
    price: price.toFixed(digits),
    headroom: free,
    limit: limit.toFixed(digits),
    over: over.toFixed(digits),
  };
}

/** The price in the base of a rule: the total, or what it is before tax. */
export function basePrice(priced: PricedEstimate, rule: AuthorisationRule | null): DecimalString {
  const { total } = priced.totals;
  return rule?.base === 'before-tax' ? beforeTax(priced).toFixed(fractionDigits(total)) : total;
}

function beforeTax({ totals, pricesIncludeTax }: PricedEstimate): Decimal {
  const price = decimal(totals.subtotal).minus(decimal(totals.discount));
  return pricesIncludeTax ? price.minus(decimal(totals.tax)) : price;
}
