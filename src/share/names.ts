/** What stands in a copy for an id that leads nowhere: a line that could not be priced stays one. */
const NOWHERE = 'unknown';

/** New names for ids: what a shop calls its parts and operations is no business of its customers, and is longer. */
export type Naming = (id: string) => string;

/** Names like `p0`, `p1` for these ids, in their order. */
export function naming(prefix: string, ids: Iterable<string>): Naming {
  const names = new Map<string, string>();
  for (const id of ids) if (!names.has(id)) names.set(id, `${prefix}${names.size}`);
  return (id) => names.get(id) ?? NOWHERE;
}
