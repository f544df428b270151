import type { Discount } from '../documents/estimate.js';
import { allocate } from '../number/allocate.js';
import { type Decimal, decimal, percentOf } from '../number/decimal.js';
import { inSteps, type MoneyRule, ofSteps, roundMoney } from '../number/money.js';
import type { Charge } from './charge.js';

/** What discounts take, in money steps: off each charge, and each discount in all. */
export interface Off {
  /** In the order of the charges. */
  readonly parts: readonly bigint[];
  /** In the order of the discounts. */
  readonly amounts: readonly bigint[];
}

/**
 * Rule 10. Each discount works on what the ones before it
 * have left, takes no more than that, and is spread so that the parts add up to it exactly.
 *
 * @param steps the amounts of the charges, in money steps; null where no discount names the charge
 */
export function takeDiscounts(
  charges: readonly Charge[],
  steps: readonly (bigint | null)[],
  discounts: readonly Discount[],
  money: MoneyRule,
): Off {
  const parts = charges.map(() => 0n);
  const amounts = discounts.map((discount) => {
    const names = namedBy(discount);
    const named: number[] = [];
    const left: bigint[] = [];
    steps.forEach((amount, i) => {
      if (amount === null || !names(charges[i]!)) return;
      named.push(i);
      left.push(amount - parts[i]!);
    });
    const base = left.reduce((sum, each) => sum + each, 0n);
    if (base <= 0n) return 0n;
    const full = inSteps(roundMoney(fullAmount(discount, ofSteps(base, money)), money), money);
    const amount = full < base ? full : base;
    allocate(amount, left).forEach((share, k) => {
      parts[named[k]!]! += share;
    });
    return amount;
  });
  return { parts, amounts };
}

/** Whether a discount names a charge, by its kind and, where it names lines, by its line. */
export function namedBy({ on, lines }: Discount): (charge: Charge) => boolean {
  const ofLines = new Set<string | null>(lines);
  return ({ kind, line }) => on.includes(kind) && (ofLines.size === 0 || ofLines.has(line));
}

function fullAmount(discount: Discount, base: Decimal): Decimal {
  return discount.percent === null ? decimal(discount.amount!) : percentOf(base, decimal(discount.percent));
}
