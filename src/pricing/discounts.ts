import type { Discount } from '../documents/estimate.js';
import { allocate } from '../number/allocate.js';
import { type Decimal, decimal, percentOf, ZERO } from '../number/decimal.js';
import { inSteps, type MoneyRule, ofSteps, roundMoney } from '../number/money.js';
import type { Charge } from './charge.js';
import { remembered } from './remembered.js';

/** What discounts take: off each charge, and each discount in all. */
export interface Off {
  /** In money steps, in the order of the charges. */
  readonly parts: readonly bigint[];
  /** In the order of the discounts. */
  readonly amounts: readonly Decimal[];
}

/** The amount of a charge in steps of its money. */
const stepsBy = remembered((money: MoneyRule) => remembered((charge: Charge) => inSteps(charge.amount, money)));

/**
 * Rule 10. Each discount works on what the ones before it
 * have left, takes no more than that, and is spread so that the parts add up to it exactly.
 */
export function takeDiscounts(charges: readonly Charge[], discounts: readonly Discount[], money: MoneyRule): Off {
  const stepsOf = stepsBy(money);
  const parts = charges.map(() => 0n);
  const amounts = discounts.map((discount) => {
    const names = namedBy(discount);
    const named: number[] = [];
    const left: bigint[] = [];
    charges.forEach((charge, i) => {
      if (!names(charge)) return;
      named.push(i);
      left.push(stepsOf(charge) - parts[i]!);
    });
    const base = left.reduce((sum, each) => sum + each, 0n);
    if (base <= 0n) return ZERO;
    const full = inSteps(roundMoney(fullAmount(discount, ofSteps(base, money)), money), money);
    const amount = full < base ? full : base;
    allocate(amount, left).forEach((share, k) => {
      parts[named[k]!]! += share;
    });
    return ofSteps(amount, money);
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
