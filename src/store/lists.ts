/**
 * Changes of ordered lists whose entries have a name. What does not change stays the same list, which is how those who
 * read it know that they need not look.
 */

type NameOf<T> = (entry: T) => string;

/** Entries before the one called `before`, or at the end. */
export function insertInto<T>(list: readonly T[], entries: readonly T[], before: string | null, nameOf: NameOf<T>): readonly T[] {
  const at = before === null ? -1 : list.findIndex((entry) => nameOf(entry) === before);
  return at < 0 ? [...list, ...entries] : list.toSpliced(at, 0, ...entries);
}

/** Another version of the entry with the same name. */
export function putInto<T>(list: readonly T[], entry: T, nameOf: NameOf<T>): readonly T[] {
  const at = list.findIndex((known) => nameOf(known) === nameOf(entry));
  return at < 0 || list[at] === entry ? list : list.with(at, entry);
}

/** Entries, in their order, before another one, or to the end. */
export function moveIn<T>(list: readonly T[], names: readonly string[], before: string | null, nameOf: NameOf<T>): readonly T[] {
  const isMoved = (entry: T): boolean => names.includes(nameOf(entry));
  const rest = list.filter((entry) => !isMoved(entry));
  // Before one of their own: before the next that stays.
  const at = list.findIndex((entry) => nameOf(entry) === before);
  const next = at < 0 ? undefined : list.slice(at).find((entry) => !isMoved(entry));
  const after = insertInto(rest, list.filter(isMoved), next === undefined ? null : nameOf(next), nameOf);
  return after.every((entry, i) => entry === list[i]) ? list : after;
}
