/**
 * How large a document may be. Far above what a shop makes in a day, far below what would freeze a page: anything
 * beyond is refused before it is looked at in detail.
 */
export const LIMITS = {
  /** Characters of JSON text. */
  characters: 8_000_000,
  /** Objects, lists and single values together. */
  values: 1_000_000,
  /** How deep objects and lists may be nested. */
  depth: 40,
  /** Entries of one list. */
  entries: 10_000,
  /** Cells of one row of a table. */
  columns: 1_000,
  /** Taxes of a card, discounts of an estimate, positions of a line: each is worked out for every charge. */
  taxes: 100,
  discounts: 100,
  positions: 100,
  /** Steps that an operation or a step needs, and operations that one includes, through others too. */
  reach: 250,
  /** Problems that are told one by one; the rest is counted. */
  problems: 200,
} as const;

/** Why a parsed value is beyond the limits, in words, or null. Walks without recursion, so depth cannot hurt it. */
export function beyondLimits(json: unknown): string | null {
  const open: { value: unknown; depth: number }[] = [{ value: json, depth: 0 }];
  let values = 0;
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const { value, depth } = next;
    values += 1;
    if (typeof value !== 'object' || value === null) continue;
    if (depth >= LIMITS.depth) return `It is nested deeper than ${LIMITS.depth} levels.`;
    if (Array.isArray(value) && value.length > LIMITS.entries) {
      return `One of its lists has ${value.length} entries; ${LIMITS.entries} is the most.`;
    }
    const children = Object.values(value);
    if (values + open.length + children.length > LIMITS.values) {
      return `It holds more than ${LIMITS.values} values.`;
    }
    for (const child of children) open.push({ value: child, depth: depth + 1 });
  }
  return null;
}
