import type { PricedLine } from '../../src/pricing/priced-estimate.js';

/** Up to here the best order is looked for; the time it takes grows with the cube of the rows. */
const MOST_ROWS_TO_MOVE = 50;

/**
 * Orders rows so that those that share work are near each other: first by whether they share the first of `sets`, then
 * the second and so on, and in reflected (Gray code) order, so that one half ends with what the next begins with. Steps
 * that need one another then lie in one piece. Ties keep the order of the sheet.
 */
export function neighboursTogether(lines: readonly PricedLine[], sets: readonly (readonly string[])[]): PricedLine[] {
  const shared = sets.filter((set) => set.length > 1).map((set) => new Set(set));
  const keyed = lines.map((line) => {
    let parity = false;
    const key = shared.map((set) => {
      parity = set.has(line.id) !== parity;
      return parity ? '0' : '1';
    });
    return { line, key: key.join('') };
  });
  const ordered = keyed.sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0)).map(({ line }) => line);
  if (ordered.length > MOST_ROWS_TO_MOVE) return ordered;
  const members = shared.map((set) => ordered.flatMap((line, i) => (set.has(line.id) ? [i] : [])));
  return closedUp(
    ordered.map((_, i) => i),
    members,
  ).map((i) => ordered[i]!);
}

/** Moves single rows to where the blocks pass the fewest rows that do not need them, until no move helps. */
function closedUp(order: readonly number[], sets: readonly (readonly number[])[]): number[] {
  let best = [...order];
  let passed = rowsPassed(best, sets);
  for (let moved = true; moved && passed > 0;) {
    moved = false;
    for (const row of order) {
      const others = best.filter((other) => other !== row);
      for (let at = 0; at < order.length; at++) {
        const tried = others.toSpliced(at, 0, row);
        const passes = rowsPassed(tried, sets);
        if (passes >= passed) continue;
        [best, passed, moved] = [tried, passes, true];
      }
    }
  }
  return best;
}

function rowsPassed(order: readonly number[], sets: readonly (readonly number[])[]): number {
  const place: number[] = [];
  order.forEach((row, at) => (place[row] = at));
  let passed = 0;
  for (const set of sets) {
    let first = order.length;
    let last = -1;
    for (const row of set) {
      const at = place[row]!;
      if (at < first) first = at;
      if (at > last) last = at;
    }
    passed += last - first + 1 - set.length;
  }
  return passed;
}
