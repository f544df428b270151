import type { Discount } from '../documents/estimate.js';
import { type Decimal, decimal, min, percentOf, sum, ZERO } from '../number/decimal.js';
import { allocate } from '../number/allocate.js';
import { type MoneyRule, roundMoney } from '../number/money.js';
import type { Charge } from './charge.js';

/**
 * Rule 10: what is taken off each charge, in the order of the charges. Each discount works on what the ones before it
 * have left, takes no more than that, and is spread so that the parts add up to it exactly.
 */
export function discountParts(charges: readonly Charge[], discounts: readonly Discount[], money: MoneyRule): Decimal[] {
  const taken = charges.map(() => ZERO);
  for (const discount of discounts) {
    const named = charges.flatMap((charge, i) => (names(discount, charge) ? [i] : []));
    const left = named.map((i) => charges[i]!.amount.minus(taken[i]!));
    const base = sum(left);
    if (base.lte(ZERO)) continue;
    const amount = min(base, roundMoney(fullAmount(discount, base), money));
    allocate(amount, left, money.step).forEach((share, k) => {
      const i = named[k]!;
      taken[i] = taken[i]!.plus(share);
    });
  }
  return taken;
}

function names(discount: Discount, charge: Charge): boolean {
  if (!discount.on.includes(charge.kind)) return false;
  return discount.lines.length === 0 || (charge.line !== null && discount.lines.includes(charge.line));
}

function fullAmount(discount: Discount, base: Decimal): Decimal {
  return discount.percent === null ? decimal(discount.amount!) : percentOf(base, decimal(discount.percent));
}
