import type { ChargeKind } from '../../src/documents/fields.js';
import { ID_PATTERN } from '../../src/documents/fields.js';
import type { DecimalString } from '../../src/number/decimal.js';
import { readFigure } from '../../src/number/locale-parse.js';
import { texts } from '../estimate/finding-choices.js';
import { sameWords } from '../estimate/search.js';
import type { SheetCell, SheetChoice } from '../grid/sheet.js';
import { formatFigure } from '../look/format.js';

/** What a person typed, read; or why it cannot be used. */
export type Entry<T> = { readonly value: T } | { readonly reason: string };

/** Goes on with what was read. */
export function use<T, U extends object>(entry: Entry<T>, then: (value: T) => U): U | { readonly reason: string } {
  return 'reason' in entry ? entry : then(entry.value);
}

/** A figure that is not below zero, with or without a percent sign; an empty entry gives `whenEmpty`. */
export function readAmount<T extends DecimalString | null>(text: string, locale: string, whenEmpty: T): Entry<DecimalString | T> {
  const bare = text.replace(/\s*%$/, '').trim();
  if (bare === '') return { value: whenEmpty };
  const read = readFigure(bare, locale);
  if (!read.ok) return { reason: read.reason };
  return read.value.startsWith('-') ? { reason: `"${text}" is below zero, which nothing on a rate card may be.` } : { value: read.value };
}

/** A figure above zero; an empty entry gives null. */
export function readStep(text: string, locale: string, what: string): Entry<DecimalString | null> {
  return use(readAmount(text, locale, null), (value) =>
    value !== null && !/[1-9]/.test(value) ? { reason: `${what} must be above zero. Empty the cell to have none.` } : { value },
  );
}

export function readTitle(text: string, what: string): Entry<string> {
  return text === '' ? { reason: `${what} needs words that a customer can read.` } : { value: text };
}

/** An id that no other entry has. */
export function readId(text: string, taken: readonly string[]): Entry<string> {
  if (!ID_PATTERN.test(text)) return { reason: `"${text}" is not an id. Use 1 to 64 letters, digits, dots, hyphens or underscores.` };
  return taken.includes(text) ? { reason: `There is another "${text}" in this list. Ids must differ.` } : { value: text };
}

/** An id made of a title that no entry has yet: "Hybrid work" → `hybrid-work`. */
export function idOf(title: string, otherwise: string, taken: readonly string[]): string {
  const words = title
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .match(/[a-z0-9]+/g) ?? [otherwise];
  const base = words.join('-').slice(0, 56);
  if (!taken.includes(base)) return base;
  let n = 2;
  while (taken.includes(`${base}-${n}`)) n += 1;
  return `${base}-${n}`;
}

export const KINDS = ['labour', 'part', 'core', 'sublet', 'fee', 'supplies'] as const satisfies readonly ChargeKind[];

/** Kinds of charge with commas between; "all" for every one. */
export function readKinds<K extends ChargeKind>(text: string, kinds: readonly K[]): Entry<K[]> {
  if (text.toLowerCase() === 'all') return { value: [...kinds] };
  const asked = several(text).map((word) => kinds.find((kind) => sameWords(kind, word) || sameWords(`${kind}s`, word)) ?? word);
  const strange = asked.find((kind) => !kinds.includes(kind as K));
  if (strange !== undefined) return { reason: `"${strange}" is not one of the kinds here. Write some of ${kinds.join(', ')}; or all.` };
  return { value: kinds.filter((kind) => asked.includes(kind)) };
}

interface Named {
  readonly id: string;
  readonly title: string;
}

/** Taxes by id or title with commas between. */
export function readTaxes(text: string, taxes: readonly Named[]): Entry<string[]> {
  const asked = several(text).map((word) => taxes.find(({ id, title }) => id === word || sameWords(title, word))?.id ?? { word });
  const strange = asked.find((id) => typeof id !== 'string');
  if (strange === undefined) return { value: [...new Set(asked as string[])] };
  const all = taxes.map(({ id }) => id).join(', ');
  return { reason: `The card has no tax "${strange.word}". ${all === '' ? 'It has none yet.' : `Write some of ${all}.`}` };
}

/** Taxes that stand in place of what the kind says: none written is null, "none" an empty list. */
export function readOwnTaxes(text: string, taxes: readonly Named[]): Entry<string[] | null> {
  if (text === '' || sameWords(text, 'as the kind says')) return { value: null };
  return text.toLowerCase() === 'none' ? { value: [] } : readTaxes(text, taxes);
}

function several(text: string): string[] {
  return text
    .split(',')
    .map((part) => part.trim())
    .filter((part) => part !== '');
}

/** One of several fixed words, each with the value that it stands for. */
export interface Choice<T> {
  readonly value: T;
  readonly text: string;
  readonly hint?: string;
}

/** The whole word, its beginning, or the value as it stands in the file. */
export function readChoice<T>(text: string, choices: readonly Choice<T>[]): Entry<T> {
  const asked = text.toLowerCase();
  const found = choices.find((choice) => choice.text.toLowerCase() === asked || String(choice.value) === asked);
  const begun = choices.filter((choice) => asked !== '' && choice.text.toLowerCase().startsWith(asked));
  if (found !== undefined) return { value: found.value };
  return begun.length === 1
    ? { value: begun[0]!.value }
    : { reason: `"${text}" is none of the choices. Write ${choices.map((choice) => choice.text).join(', or ')}.` };
}

export function choicesFor<T>(typed: string, choices: readonly Choice<T>[]): SheetChoice[] {
  const found = new Set(
    texts(
      typed,
      choices.map(({ text }) => text),
    ).map(({ text }) => text),
  );
  return choices.filter(({ text }) => found.has(text)).map(({ text, hint }) => (hint === undefined ? { text } : { text, hint }));
}

/** A cell to type a figure in. */
export function figureCell(figure: DecimalString | null, locale: string, more: Partial<SheetCell> = {}): SheetCell {
  return { text: figure === null ? '' : formatFigure(figure, locale), editor: 'text', ...more };
}

/** A cell to type or choose words in. */
export function wordsCell(text: string, editor: 'text' | 'choice' = 'text', more: Partial<SheetCell> = {}): SheetCell {
  return { text, editor, ...more };
}

export function ownTaxesCell(taxes: readonly string[] | null): SheetCell {
  if (taxes === null) return wordsCell('as the kind says', 'choice', { edit: '', marks: ['quiet'] });
  return wordsCell(taxes.length === 0 ? 'none' : taxes.join(', '), 'choice');
}
