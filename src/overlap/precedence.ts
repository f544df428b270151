import type { Work } from './work.js';

/**
 * The one order that decides who carries what (rules 4, 5 and 6): the highest labour rate, then the longest book
 * hours, then the first in the sheet. Since the dearest line carries, the order of entry never lowers the price
 * below what the work costs.
 */
export function byPrecedence(works: readonly Work[]): Work[] {
  // The sort is stable, so works that are equal stay in the order of the sheet.
  return [...works].sort((a, b) => (a.rate === b.rate ? 0 : b.rate.cmp(a.rate)) || b.bookHours.cmp(a.bookHours));
}
