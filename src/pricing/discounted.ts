import type { Discount } from '../documents/estimate.js';
import type { Decimal } from '../number/decimal.js';
import { type MoneyRule, printMoney } from '../number/money.js';
import type { Charge } from './charge.js';
import { isOn, takeDiscounts } from './discounts.js';
import type { PricedCharge } from './priced-estimate.js';
import { Tally } from './tally.js';
import type { TaxRule } from './taxes.js';

/** What an estimate's discounts take off its charges. */
export interface TakenOff {
  /** What is taken off each charge. */
  readonly parts: readonly Decimal[];
  /** What each discount takes. */
  readonly amounts: readonly Decimal[];
  /** What a tally of the undiscounted charges changes by. */
  readonly taken: Tally;
}

/** An estimate's discounts on its charges, and all that follows from them alone. */
export interface Discounted extends TakenOff {
  readonly discounts: readonly Discount[];
  readonly taxes: TaxRule;
  readonly charges: readonly Charge[];
  /** The charges with their discounts. */
  readonly printed: readonly PricedCharge[];
}

/**
 * Rule 10 over all charges. Where an edit leaves every discounted charge at its price, the discounts are spread as
 * they were; otherwise they are spread anew, since a cent may move from any charge to any other.
 *
 * @param charges all charges of the estimate, in their order
 * @param printed the same, without discounts
 * @param before the last discounts, of this estimate or of any other
 */
export function discountCharges(
  charges: readonly Charge[],
  printed: readonly PricedCharge[],
  discounts: readonly Discount[],
  taxes: TaxRule,
  before: Discounted | null,
): Discounted {
  const print = (charge: PricedCharge, part: Decimal): PricedCharge => printDiscounted(charge, part, taxes.money);
  if (before !== null && before.discounts === discounts && before.taxes === taxes && areSpreadAlike(before.charges, charges, discounts)) {
    const again = printed.map((charge, i) => (charges[i] === before.charges[i] ? before.printed[i]! : print(charge, before.parts[i]!)));
    return { ...before, charges, printed: again };
  }
  const off = takeOff(charges, discounts, taxes);
  return { discounts, taxes, charges, ...off, printed: printed.map((charge, i) => print(charge, off.parts[i]!)) };
}

/** Rule 10 over all charges, spread anew. */
export function takeOff(charges: readonly Charge[], discounts: readonly Discount[], taxes: TaxRule): TakenOff {
  const { parts, amounts } = takeDiscounts(charges, discounts, taxes.money);
  return { parts, amounts, taken: tallyOf(charges, parts, taxes) };
}

/** Whether every charge is the same, or has given way to one that the discounts and their taxes cannot tell from it. */
function areSpreadAlike(before: readonly Charge[], charges: readonly Charge[], discounts: readonly Discount[]): boolean {
  return (
    before.length === charges.length &&
    charges.every((now, i) => {
      const old = before[i]!;
      if (old === now || !discounts.some((discount) => isOn(discount, old) || isOn(discount, now))) return true;
      return old.line === now.line && old.kind === now.kind && old.amount.eq(now.amount) && old.taxes.join() === now.taxes.join();
    })
  );
}

function tallyOf(charges: readonly Charge[], parts: readonly Decimal[], taxes: TaxRule): Tally {
  const taken = new Tally();
  charges.forEach((charge, i) => {
    const part = parts[i]!;
    if (part.isZero()) return;
    taken.addCharge(charge, charge.amount, taxes, -1);
    taken.addCharge(charge, charge.amount.minus(part), taxes);
  });
  return taken;
}

function printDiscounted(charge: PricedCharge, part: Decimal, money: MoneyRule): PricedCharge {
  return part.isZero() ? charge : { ...charge, discount: printMoney(part, money) };
}
