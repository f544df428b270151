import type { Discount } from '../documents/estimate.js';
import { type Decimal, decimal, min, percentOf, sum, ZERO } from '../number/decimal.js';
import { allocate } from '../number/allocate.js';
import { type MoneyRule, roundMoney } from '../number/money.js';
import type { Charge } from './charge.js';

/** What discounts take: off each charge, and each discount in all. */
export interface Discounted {
  /** In the order of the charges. */
  readonly parts: readonly Decimal[];
  /** In the order of the discounts. */
  readonly amounts: readonly Decimal[];
}

/**
 * Rule 10. Each discount works on what the ones before it
 * have left, takes no more than that, and is spread so that the parts add up to it exactly.
 */
export function takeDiscounts(charges: readonly Charge[], discounts: readonly Discount[], money: MoneyRule): Discounted {
  const parts = charges.map(() => ZERO);
  const amounts = discounts.map((discount) => {
    const named = charges.flatMap((charge, i) => (isOn(discount, charge) ? [i] : []));
    const left = named.map((i) => charges[i]!.amount.minus(parts[i]!));
    const base = sum(left);
    if (base.lte(ZERO)) return ZERO;
    const amount = min(base, roundMoney(fullAmount(discount, base), money));
    allocate(amount, left, money.step).forEach((share, k) => {
      const i = named[k]!;
      parts[i] = parts[i]!.plus(share);
    });
    return amount;
  });
  return { parts, amounts };
}

/** Whether a discount names a charge, by its kind and, where it names lines, by its line. */
export function isOn(discount: Discount, charge: Charge): boolean {
  if (!discount.on.includes(charge.kind)) return false;
  return discount.lines.length === 0 || (charge.line !== null && discount.lines.includes(charge.line));
}

function fullAmount(discount: Discount, base: Decimal): Decimal {
  return discount.percent === null ? decimal(discount.amount!) : percentOf(base, decimal(discount.percent));
}
