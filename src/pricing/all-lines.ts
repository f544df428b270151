import type { Problem } from '../documents/problem.js';
import { type Difference, difference, spliced } from '../overlap/difference.js';
import type { Charge } from './charge.js';
import type { LineResult } from './line-result.js';
import type { PricedCharge, PricedLine } from './priced-estimate.js';
import { Tally } from './tally.js';

/** What the lines of an estimate come to together, before what is charged once for all of them. */
export interface AllLines {
  readonly tally: Tally;
  /** In the order of the sheet, like all lists here. */
  readonly printed: readonly PricedLine[];
  readonly charges: readonly Charge[];
  /** The same, without discounts. */
  readonly printedCharges: readonly PricedCharge[];
  readonly problems: readonly Problem[];
}

const NOTHING: AllLines = { tally: new Tally(), printed: [], charges: [], printedCharges: [], problems: [] };

/**
 * All lines together: what they came to before, with those that are no longer the same taken out and the new ones
 * added; from nothing where there is no before.
 */
export function addUp(results: readonly LineResult[], before: readonly LineResult[] = [], all = NOTHING): AllLines {
  const change = difference(before, results);
  const { start, removed, added } = change;
  if (removed.length === 0 && added.length === 0) return all;
  // The charges of a line stand together.
  const first = countCharges(before.slice(0, start));
  const gone = countCharges(removed);
  return {
    tally: tallyAfter(change, all.tally),
    printed: spliced(
      all.printed,
      start,
      removed.length,
      added.map((result) => result.printed),
    ),
    charges: spliced(
      all.charges,
      first,
      gone,
      added.flatMap((result) => result.charges),
    ),
    printedCharges: spliced(
      all.printedCharges,
      first,
      gone,
      added.flatMap((result) => result.printedCharges),
    ),
    problems: problemsAfter(change, results, all.problems),
  };
}

function countCharges(results: readonly LineResult[]): number {
  let count = 0;
  for (const result of results) count += result.charges.length;
  return count;
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

/** The path of a problem says where its line stands, so all of them are told again when lines have moved. */
function problemsAfter(
  { removed, added }: Difference<LineResult>,
  results: readonly LineResult[],
  problems: readonly Problem[],
): readonly Problem[] {
  const hasProblems = (result: LineResult): boolean => result.problems.length > 0;
  if (removed.length === added.length && !removed.some(hasProblems) && !added.some(hasProblems)) return problems;
  return results.flatMap((result, i) => result.problems.map((problem) => ({ ...problem, path: `lines[${i}].${problem.path}` })));
}
