/** Rule 10 over all charges, spread anew each time: what the engine's module of this name remembers for the next edit is not kept. */
import type { Discount } from '../../../src/documents/estimate.js';
import type { Charge } from '../../../src/pricing/charge.js';
import type { PricedCharge } from '../../../src/pricing/priced-estimate.js';
import { printDiscounted, type TakenOff, takeOff } from '../../../src/pricing/take-off.js';
import type { TaxRule } from '../../../src/pricing/taxes.js';

export function discountCharges(
  charges: readonly Charge[],
  printed: readonly PricedCharge[],
  discounts: readonly Discount[],
  taxes: TaxRule,
): TakenOff & { readonly printed: readonly PricedCharge[] } {
  const off = takeOff(charges, discounts, taxes);
  return { ...off, printed: printed.map((charge, i) => printDiscounted(charge, off.parts[i]!, taxes)) };
}
