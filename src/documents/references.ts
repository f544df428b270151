import { error, type Problem } from './problem.js';

/** Ids that stand twice in a list. */
export function duplicates(ids: readonly string[], path: string, key = 'id'): Problem[] {
  const first = new Map<string, number>();
  const problems: Problem[] = [];
  ids.forEach((id, index) => {
    const before = first.get(id);
    if (before === undefined) first.set(id, index);
    else {
      const at = key === '' ? `${path}[${index}]` : `${path}[${index}].${key}`;
      problems.push(
        error('duplicate', at, `"${id}" stands here twice; first at ${path}[${before}].`, 'Give one of them another name, or take it out.'),
      );
    }
  });
  return problems;
}

/** Ids that lead nowhere. `what` says what they should name ("step"). */
export function unknown(ids: readonly string[], known: { has(id: string): boolean }, what: string, path: string): Problem[] {
  const problems: Problem[] = [];
  ids.forEach((id, index) => {
    if (!known.has(id)) problems.push(unknownAt(id, what, `${path}[${index}]`));
  });
  return problems;
}

/** One id that leads nowhere. */
export function unknownAt(id: string, what: string, path: string): Problem {
  return error('unknown-reference', path, `There is no ${what} "${id}".`, `Add the ${what}, or name another.`);
}

/** A list that is longer than any that makes sense. */
export function tooMany(list: readonly unknown[], most: number, what: string, path: string): Problem[] {
  if (list.length <= most) return [];
  return [error('too-many', path, `There are ${list.length} ${what} here; ${most} is the most.`, 'Take out those that are not needed.')];
}

/** A map from id to entry; of two with the same id the first counts. */
export function byId<T extends { readonly id: string }>(list: readonly T[]): Map<string, T> {
  const map = new Map<string, T>();
  for (const entry of list) if (!map.has(entry.id)) map.set(entry.id, entry);
  return map;
}
