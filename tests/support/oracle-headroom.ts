/** Rule 15 a second time: how much more may be charged without asking again. */
import type { OraclePrice } from './oracle.js';
import type { AuthorisationDoc } from './oracle-documents.js';
import { Fraction, ZERO, least, most, percentOf } from './oracle-fraction.js';

/** A rule that lacks one of its two figures goes by the other, unless `pick` names the one that is missing. */
export function oracleHeadroom(rule: AuthorisationDoc | null, authorised: Fraction, step: Fraction): Fraction {
  if (rule === null) return ZERO;
  const byPercent = rule.percent === null ? null : percentOf(rule.percent, authorised);
  const byAmount = rule.amount === null ? null : Fraction.of(rule.amount);
  const both = [byPercent, byAmount].filter((each) => each !== null);
  const picked = {
    percent: byPercent ?? ZERO,
    amount: byAmount ?? ZERO,
    lesser: both.length === 0 ? ZERO : both.reduce(least),
    greater: both.length === 0 ? ZERO : both.reduce(most),
  }[rule.pick];
  const free = most(ZERO, rule.cap === null ? picked : least(picked, Fraction.of(rule.cap)));
  return new Fraction(free.over(step).floor()).times(step);
}

/** What the price comes to in the rule's base. */
export function oracleBasePrice({ totals }: OraclePrice, rule: AuthorisationDoc | null, pricesIncludeTax: boolean): Fraction {
  if (rule?.base !== 'before-tax') return totals.total;
  const net = totals.subtotal.minus(totals.discount);
  return pricesIncludeTax ? net.minus(totals.tax) : net;
}
