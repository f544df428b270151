import type { Charge } from './charge.js';
import { estimateFees } from './fees.js';
import type { RateIndex } from './rate-index.js';
import { suppliesCharge } from './supplies.js';
import type { Tally } from './tally.js';
import type { TaxRule } from './taxes.js';

/** Rule 9: adds what is charged once for the estimate to what its lines come to. */
export function chargeOnce(tally: Tally, rates: RateIndex, taxes: TaxRule): readonly Charge[] {
  const add = (charges: readonly Charge[]): readonly Charge[] => {
    for (const charge of charges) tally.addCharge(charge, charge.amount, taxes);
    return charges;
  };
  const { supplies } = rates.rates;
  const fees = add(estimateFees(tally.feesAsked(), rates));
  return supplies === null ? fees : [...fees, ...add(suppliesCharge(supplies, tally.ofKinds(supplies.of), rates))];
}
