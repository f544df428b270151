/** Where a list has become another one: `removed` stood at `start`, where `added` stands now; all else is the same. */
export interface Difference<T> {
  readonly start: number;
  readonly removed: readonly T[];
  readonly added: readonly T[];
}

/**
 * What lies between the items that two lists have in common at their beginning and at their end. Items are compared
 * as objects. One edit of a sheet changes one place of it, so nearly all of a long list can be taken over.
 */
export function difference<T>(before: readonly T[], now: readonly T[]): Difference<T> {
  const shorter = Math.min(before.length, now.length);
  let start = 0;
  while (start < shorter && before[start] === now[start]) start += 1;
  let end = 0;
  while (end < shorter - start && before[before.length - 1 - end] === now[now.length - 1 - end]) end += 1;
  return { start, removed: before.slice(start, before.length - end), added: now.slice(start, now.length - end) };
}

/** `list` with `added` in the place of the `removed` items from `start` on. */
export function spliced<T>(list: readonly T[], start: number, removed: number, added: readonly T[]): T[] {
  return list.slice(0, start).concat(added, list.slice(start + removed));
}
