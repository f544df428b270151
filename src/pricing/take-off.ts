import type { Discount } from '../documents/estimate.js';
import { ofSteps, printMoney } from '../number/money.js';
import type { Charge } from './charge.js';
import { type Off, takeDiscounts } from './discounts.js';
import type { PricedCharge } from './priced-estimate.js';
import { Tally } from './tally.js';
import type { TaxRule } from './taxes.js';

/** What an estimate's discounts take off its charges. */
export interface TakenOff extends Off {
  /** What a tally of the undiscounted charges changes by. */
  readonly taken: Tally;
}

/** Rule 10 over all charges, once. */
export function takeOff(charges: readonly Charge[], discounts: readonly Discount[], taxes: TaxRule): TakenOff {
  const off = takeDiscounts(charges, discounts, taxes.money);
  const taken = new Tally();
  charges.forEach((charge, i) => addPart(taken, charge, off.parts[i]!, taxes));
  return { ...off, taken };
}

/** Adds what a tally changes by when so much is taken off a charge, or takes that out again. @param part in money steps */
export function addPart(taken: Tally, charge: Charge, part: bigint, taxes: TaxRule, sign: 1 | -1 = 1): void {
  if (part === 0n) return;
  taken.addCharge(charge, charge.amount, taxes, sign === 1 ? -1 : 1);
  taken.addCharge(charge, charge.amount.minus(ofSteps(part, taxes.money)), taxes, sign);
}

/** A charge as it is printed, with what is taken off it. */
export function printDiscounted(charge: PricedCharge, part: bigint, { money }: TaxRule): PricedCharge {
  return part === 0n ? charge : { ...charge, discount: printMoney(ofSteps(part, money), money) };
}
