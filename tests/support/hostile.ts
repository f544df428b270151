/** Documents that mean harm: valid ones with something done to them that readers of JSON have broken on before. */
import type { Drawing } from './arbitraries.js';
import { HOSTILE, places, setOwn } from './oracle-hostile.js';

/** Ids that every object has a property for; the pattern of ids lets all of them in. */
export const PROTOTYPE_IDS = ['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty', 'valueOf'] as const;

const FIGURES = [
  '0',
  '-0',
  '-0.00',
  '0.0000000001',
  '999999999999.9999999999',
  '-999999999999.9999999999',
  '1000000000000',
  '00012.50',
  '.5',
  '5.',
  '1e5',
  '1E-7',
  'NaN',
  'Infinity',
  '-Infinity',
  '0x1F',
  '١٢٫٥',
  '１２',
  '12,50',
  ' 12',
  '12 ',
  '+12',
  '--1',
  '1.12345678901',
  '',
];
const TEXTS = [
  '',
  ' ',
  '\u0000',
  '\ud800',
  'a\udfff',
  '\u202e\u2066gnp.exe',
  '\ufeff',
  '\u200b',
  '\r\n\t',
  '=1+1',
  "'=cmd|' /C calc'!A0",
  '<script>alert(1)</script>',
  '<img src=x onerror=alert(1)>',
  'javascript:alert(1)',
  '"]}',
  '\\n\\u0000',
  '${7*7}',
  '{{7*7}}',
  '__proto__',
  'constructor',
  'null',
  'undefined',
  'true',
  '😀'.repeat(50),
  'é'.repeat(300),
  'İ',
  'ﬀ',
  'x'.repeat(9_999),
  'x'.repeat(10_001),
];

/** What is done to a document. Returns false where it found nothing to do it to. */
type Harm = (d: Drawing, root: object) => boolean;

const isFigure = (value: unknown): boolean => typeof value === 'string' && /^-?\d+(\.\d+)?$/.test(value);
const isRecord = (value: unknown): boolean => typeof value === 'object' && value !== null && !Array.isArray(value);
const isText = (value: unknown): value is string => typeof value === 'string';

function at(
  d: Drawing,
  root: object,
  fits: (value: unknown, key: string) => boolean = () => true,
): { holder: Record<string, unknown>; key: string } | null {
  const found = places(root).filter(({ holder, key }) => fits(holder[key], key));
  return found.length === 0 ? null : d.pick(found);
}

function put(d: Drawing, root: object, fits: ((value: unknown, key: string) => boolean) | undefined, value: () => unknown): boolean {
  const place = at(d, root, fits);
  if (place !== null) setOwn(place.holder, place.key, value());
  return place !== null;
}

function nested(depth: number, inLists: boolean): unknown {
  let value: unknown = 1;
  for (let i = 0; i < depth; i += 1) value = inLists ? [value] : { a: value };
  return value;
}

const HARMS: Readonly<Record<string, Harm>> = {
  'a value of another kind': (d, root) => put(d, root, undefined, () => structuredClone(d.pick(HOSTILE))),
  'a key taken out': (d, root) => {
    const place = at(d, root);
    if (place !== null) delete place.holder[place.key];
    return place !== null;
  },
  'a key of every prototype': (d, root) => {
    const place = at(d, root, isRecord);
    const holder = (place === null ? root : place.holder[place.key]) as object;
    setOwn(holder, d.pick(PROTOTYPE_IDS), d.pick<unknown>([{ polluted: true }, 'polluted', null, ['polluted']]));
    return true;
  },
  'an unknown key': (d, root) => {
    const place = at(d, root, isRecord);
    setOwn(
      (place === null ? root : place.holder[place.key]) as object,
      d.pick(['', 'x', '0', 'length', '\ud800']),
      structuredClone(d.pick(HOSTILE)),
    );
    return true;
  },
  'a figure at the edge': (d, root) => put(d, root, isFigure, () => d.pick(FIGURES)),
  'a text at the edge': (d, root) => put(d, root, isText, () => d.pick(TEXTS)),
  'another value of the same key': (d, root) => {
    const to = at(d, root);
    const from = to === null ? null : at(d, root, (_, key) => key === to.key);
    if (to === null || from === null) return false;
    setOwn(to.holder, to.key, structuredClone(from.holder[from.key]));
    return true;
  },
  'an entry twice': (d, root) => {
    const place = at(d, root, (value) => Array.isArray(value) && value.length > 0);
    if (place === null) return false;
    const list = place.holder[place.key] as unknown[];
    list.splice(d.int(0, list.length), 0, structuredClone(d.pick(list)));
    return true;
  },
  'a list turned round': (d, root) => {
    const place = at(d, root, (value) => Array.isArray(value) && value.length > 1);
    if (place !== null) (place.holder[place.key] as unknown[]).reverse();
    return place !== null;
  },
  'a reference that goes in a ring': (d, root) => {
    const place = at(d, root, (value, key) => Array.isArray(value) && ['needs', 'includes', 'after', 'steps'].includes(key));
    const id = at(d, root, (_, key) => key === 'id');
    if (place === null || id === null) return false;
    (place.holder[place.key] as unknown[]).push(id.holder[id.key]);
    return true;
  },
  'a list of many entries': (d, root) => {
    const place = at(d, root, (value) => Array.isArray(value) && value.length > 0);
    if (place === null) return false;
    const list = place.holder[place.key] as unknown[];
    const model = d.pick(list);
    for (let i = d.chance(4) ? 11_000 : d.pick([20, 20, 100, 20]); i > 0; i -= 1) {
      list.push(typeof model === 'object' && model !== null && 'id' in model ? { ...model, id: `more-${i}` } : model);
    }
    return true;
  },
  'great depth': (d, root) => put(d, root, undefined, () => nested(d.chance(10) ? 20_000 : d.pick([5, 38, 41, 500]), d.chance(50))),
  'a huge text': (d, root) =>
    put(d, root, isText, () =>
      d.pick(['x', ' ', '\n', '"', '\\', '<', '1', '\ud83d\ude00']).repeat(d.chance(10) ? 200_000 : d.pick([2_000, 5_000])),
    ),
};

/** What often leaves a document that is let in is done more often. */
const MILD = [
  'a figure at the edge',
  'a text at the edge',
  'another value of the same key',
  'a list turned round',
  'a list of many entries',
];
const HARM_NAMES = [...Object.keys(HARMS), ...MILD, ...MILD];

/** Does one to four things to a document; says which. */
export function harm(d: Drawing, root: object): string[] {
  return Array.from({ length: d.pick([1, 1, 1, 2, 3, 4]) }, () => d.pick(HARM_NAMES)).filter((name) => isDone(name, d, root));
}

/** What is nested too deep already cannot be copied: then nothing is done. */
function isDone(name: string, d: Drawing, root: object): boolean {
  try {
    return HARMS[name]!(d, root);
  } catch (fault) {
    if (fault instanceof RangeError) return false;
    throw fault;
  }
}

/** Gives an id the name of something that every object has, wherever it stands. */
export function renameToPrototype<T>(d: Drawing, root: T): T {
  const ids = [...new Set(places(root).flatMap(({ holder, key }) => (key === 'id' && isText(holder[key]) ? [holder[key]] : [])))];
  if (ids.length === 0) return root;
  const names = new Map<string, string>();
  for (const id of d.some(ids, 30)) names.set(id, d.pick(PROTOTYPE_IDS));
  const renamed = (value: unknown): unknown => {
    if (typeof value === 'string') return names.get(value) ?? value;
    if (Array.isArray(value)) return value.map(renamed);
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, renamed(each)]));
  };
  return renamed(root) as T;
}

/** So many bytes by chance: one draw, however many. */
export function noise(d: Drawing, length: number): Uint8Array {
  let state = d.int(0, 2 ** 31 - 1);
  return Uint8Array.from({ length }, () => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) | 0;
    return (state >>> 16) & 255;
  });
}

/** A text that was cut off, or had something put into it on the way. */
export function spoiltText(d: Drawing, text: string): string {
  const at = d.int(0, text.length);
  const other = d.int(0, text.length);
  const [from, to] = at < other ? [at, other] : [other, at];
  switch (d.pick(['cut', 'cut', 'hole', 'noise', 'twice', 'letter', 'bytes'])) {
    case 'cut':
      return text.slice(0, at);
    case 'hole':
      return text.slice(0, from) + text.slice(to);
    case 'noise':
      return text.slice(0, at) + d.pick([...TEXTS, '"', ',', '{', '[', ':', '}', '1', '\n']) + text.slice(at);
    case 'twice':
      return text.slice(0, to) + text.slice(from);
    case 'letter':
      return text.slice(0, at) + String.fromCharCode(d.int(0, 65_535)) + text.slice(at + 1);
    default:
      return new TextDecoder().decode(noise(d, d.int(0, 400)));
  }
}
