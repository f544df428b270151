import type { Discount } from '../documents/estimate.js';
import { difference, spliced } from '../overlap/difference.js';
import type { Charge } from './charge.js';
import { namedBy, takeDiscounts } from './discounts.js';
import type { PricedCharge } from './priced-estimate.js';
import { Tally } from './tally.js';
import { addPart, printDiscounted, type TakenOff } from './take-off.js';
import type { TaxRule } from './taxes.js';

/** An estimate's discounts on its charges, and all that follows from them alone. */
export interface Discounted extends TakenOff {
  readonly discounts: readonly Discount[];
  readonly taxes: TaxRule;
  readonly charges: readonly Charge[];
  readonly entries: readonly Entry[];
  /** The charges with their discounts. */
  readonly printed: readonly PricedCharge[];
}

/** A charge and what all discounts together take off it, in money steps. */
interface Entry {
  readonly charge: Charge;
  readonly part: bigint;
  readonly printed: PricedCharge;
}

/**
 * Rule 10 over all charges. A money step may move from any charge to any other, so the discounts are spread anew unless
 * every charge that they name has kept its price; but only the charges off which another part is taken than before are
 * counted and printed again.
 *
 * @param charges all charges of the estimate, in their order
 * @param printed the same, without discounts
 * @param last the last discounts, of this estimate or of any other
 */
export function discountCharges(
  charges: readonly Charge[],
  printed: readonly PricedCharge[],
  discounts: readonly Discount[],
  taxes: TaxRule,
  last: Discounted | null,
): Discounted {
  const before = last !== null && last.discounts === discounts && last.taxes === taxes ? last : null;
  const { known, gone } = entriesBefore(charges, before);
  const { amounts, parts } =
    before !== null && areSpreadAlike(before.charges, charges, discounts) ? before : takeDiscounts(charges, discounts, taxes.money);

  const taken = before === null ? new Tally() : before.taken.copy();
  for (const entry of gone) addPart(taken, entry.charge, entry.part, taxes, -1);
  const entries = charges.map((charge, i): Entry => {
    const part = parts[i]!;
    const old = known[i];
    if (old?.charge === charge && old.part === part) return old;
    if (old !== undefined) addPart(taken, old.charge, old.part, taxes, -1);
    addPart(taken, charge, part, taxes);
    return { charge, part, printed: printDiscounted(printed[i]!, part, taxes) };
  });
  return { discounts, taxes, charges, entries, amounts, parts, taken, printed: entries.map((entry) => entry.printed) };
}

/** For each charge its last entry, or that of the charge in whose place it stands; and the entries of charges that are no more. */
function entriesBefore(
  charges: readonly Charge[],
  before: Discounted | null,
): { known: readonly (Entry | undefined)[]; gone: Iterable<Entry> } {
  if (before === null) return { known: [], gone: [] };
  if (before.charges.length === charges.length) return { known: before.entries, gone: [] };
  const { start, removed, added } = difference(before.charges, charges);
  const moved = new Map(removed.map((charge, i) => [charge, before.entries[start + i]!]));
  const found = added.map((charge) => {
    const entry = moved.get(charge);
    moved.delete(charge);
    return entry;
  });
  return { known: spliced<Entry | undefined>(before.entries, start, removed.length, found), gone: moved.values() };
}

/** Whether every charge is the same, or has given way to one that the discounts cannot tell from it. */
function areSpreadAlike(before: readonly Charge[], charges: readonly Charge[], discounts: readonly Discount[]): boolean {
  const each = discounts.map(namedBy);
  return (
    before.length === charges.length &&
    charges.every((now, i) => {
      const old = before[i]!;
      if (old === now || !each.some((names) => names(old) || names(now))) return true;
      return old.line === now.line && old.kind === now.kind && old.amount.eq(now.amount);
    })
  );
}
