import type { Difference } from './difference.js';
import type { Work } from './work.js';

/** Below zero where `a` comes before `b` by labour rate and book hours, above where after, zero where the sheet decides. */
export function compareWorks(a: Work, b: Work): number {
  // Works of one labour class have their rate in common, as the same object.
  return (a.rate === b.rate ? 0 : b.rate.cmp(a.rate)) || b.bookHours.cmp(a.bookHours);
}

/**
 * The one order that decides who carries what (rules 4, 5 and 6): the highest labour rate, then the longest book
 * hours, then the first in the sheet. Since the dearest line carries, the order of entry never lowers the price
 * below what the work costs.
 */
export function byPrecedence(works: readonly Work[]): Work[] {
  // The sort is stable, so works that are equal stay in the order of the sheet.
  return [...works].sort(compareWorks);
}

/**
 * The order of precedence after an edit, from the one before it.
 *
 * @param ranked the works before the edit, in order of precedence
 * @param change what the edit has done to the works
 * @param works all works after it, in the order of the sheet
 */
export function rankAgain(ranked: readonly Work[], { removed, added }: Difference<Work>, works: readonly Work[]): Work[] {
  if (added.length > works.length / 8) return byPrecedence(works);
  const gone = new Set(removed);
  const order = ranked.filter((work) => !gone.has(work));
  for (const work of added) order.splice(placeOf(work, order, works), 0, work);
  return order;
}

/** Where a work belongs in an order of precedence, by halving. */
function placeOf(work: Work, order: readonly Work[], works: readonly Work[]): number {
  let [from, to] = [0, order.length];
  while (from < to) {
    const middle = Math.floor((from + to) / 2);
    const other = order[middle]!;
    const before = compareWorks(work, other) || works.indexOf(work) - works.indexOf(other);
    if (before < 0) to = middle;
    else from = middle + 1;
  }
  return from;
}
