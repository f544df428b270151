import { type Difference, difference, spliced } from '../overlap/difference.js';
import type { LineResult } from './line-result.js';
import type { PricedCharge } from './priced-estimate.js';
import { Tally } from './tally.js';

/** What the lines of an estimate come to together, before what is charged once for all of them. */
export interface AllLines {
  readonly tally: Tally;
  /** Without discounts, in the order of the sheet. */
  readonly printedCharges: readonly PricedCharge[];
}

/**
 * All lines together: what they came to before, with those that are no longer the same taken out and the new ones
 * added; from nothing where there is no before.
 */
export function addUp(results: readonly LineResult[], before: readonly LineResult[], all?: AllLines): AllLines {
  const change = difference(before, results);
  return { tally: tallyAfter(change, all?.tally ?? new Tally()), printedCharges: chargesAfter(change, before, all?.printedCharges ?? []) };
}

function tallyAfter({ removed, added }: Difference<LineResult>, before: Tally): Tally {
  const tally = before.copy();
  removed.forEach((result, i) => {
    if (result !== added[i]) tally.add(result.tally, -1);
  });
  added.forEach((result, i) => {
    if (result !== removed[i]) tally.add(result.tally);
  });
  return tally;
}

function chargesAfter(
  { start, removed, added }: Difference<LineResult>,
  before: readonly LineResult[],
  charges: readonly PricedCharge[],
): PricedCharge[] {
  let first = 0;
  for (let i = 0; i < start; i += 1) first += before[i]!.printedCharges.length;
  let gone = 0;
  for (const result of removed) gone += result.printedCharges.length;
  return spliced(charges, first, gone, added.flatMap((result) => result.printedCharges));
}
