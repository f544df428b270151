/** Values and places for documents that mean harm. */

/** Every place in a JSON value, as the container and the key in it; what lies deeper than any document goes is passed over. */
export function places(value: unknown, depth = 0): { holder: Record<string, unknown>; key: string }[] {
  if (typeof value !== 'object' || value === null || depth > 50) return [];
  const holder = value as Record<string, unknown>;
  return Object.keys(holder).flatMap((key) => [{ holder, key }, ...places(holder[key], depth + 1)]);
}

/** As JSON.parse does it: an own property, even where the key is `__proto__`. */
export function setOwn(holder: object, key: string, value: unknown): void {
  Object.defineProperty(holder, key, { value, enumerable: true, configurable: true, writable: true });
}

/** Values that have broken readers of JSON before. */
export const HOSTILE = [
  '',
  ' ',
  null,
  [],
  {},
  0,
  -1,
  1e308,
  true,
  '-',
  '1e5',
  '١٢',
  '0x10',
  'NaN',
  '-0.00',
  '999999999999.9999999999',
  '.5',
  'x'.repeat(70),
  '__proto__',
  'constructor',
  'l0',
  'o0',
  's0',
  'p0',
  't0',
  '\u0000',
  '\ud800',
  ['o0', 'o0'],
  [[[]]],
  { part: 'p0' },
  { id: 'l0', kind: 'operation' },
];
