/** Rule 10 over all charges, spread anew each time: what the engine's module of this name remembers for the next edit is not kept. */
import type { Discount } from '../../../src/documents/estimate.js';
import { ofSteps, printMoney } from '../../../src/number/money.js';
import type { Charge } from '../../../src/pricing/charge.js';
import type { TakenOff } from '../../../src/pricing/discounted.js';
import { takeDiscounts } from '../../../src/pricing/discounts.js';
import type { PricedCharge } from '../../../src/pricing/priced-estimate.js';
import { Tally } from '../../../src/pricing/tally.js';
import type { TaxRule } from '../../../src/pricing/taxes.js';

export function discountCharges(
  charges: readonly Charge[],
  printed: readonly PricedCharge[],
  discounts: readonly Discount[],
  taxes: TaxRule,
): TakenOff & { readonly printed: readonly PricedCharge[] } {
  const { money } = taxes;
  const { parts, amounts } = takeDiscounts(charges, discounts, money);
  const taken = new Tally();
  const discounted = charges.map((charge, i) => {
    const part = ofSteps(parts[i]!, money);
    if (part.isZero()) return printed[i]!;
    taken.addCharge(charge, charge.amount, taxes, -1);
    taken.addCharge(charge, charge.amount.minus(part), taxes);
    return { ...printed[i]!, discount: printMoney(part, money) };
  });
  return { amounts, taken, printed: discounted };
}
