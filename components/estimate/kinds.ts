import type { Condition } from '../../src/documents/fields.js';
import type { Line, PartLine } from '../../src/documents/lines.js';
import type { RateIndex } from '../../src/pricing/rate-index.js';

/** How the kinds of line are written in the sheet; a part says its condition, as the customer's copy must. */
export const KIND_WORDS = [
  'operation',
  'labour',
  'new part',
  'used part',
  'rebuilt part',
  'reconditioned part',
  'sublet',
  'fee',
  'note',
  'discount',
] as const;
export type KindWord = (typeof KIND_WORDS)[number];

export const CONDITION_WORDS: readonly KindWord[] = ['new part', 'used part', 'rebuilt part', 'reconditioned part'];

export function partWord(condition: Condition): KindWord {
  return `${condition} part`;
}

export function kindWord(line: Line): KindWord {
  return line.kind === 'part' ? partWord(line.condition) : line.kind;
}

/** The kind that a person wrote: a whole word or its beginning; "part" alone is a new one. */
export function readKind(text: string): KindWord | null {
  const asked = text.trim().toLowerCase();
  if (asked === '') return null;
  if ('part'.startsWith(asked)) return 'new part';
  return KIND_WORDS.find((word) => word.startsWith(asked)) ?? null;
}

export function conditionOf(word: KindWord): Condition | null {
  return word.endsWith(' part') ? (word.slice(0, -' part'.length) as Condition) : null;
}

/** The words that a line has of its own. */
export function ownTitle(line: Line, operationTitle: string): string {
  if (line.kind === 'operation') return operationTitle;
  return line.kind === 'note' ? line.text : line.title;
}

/**
 * The same line as another kind: its words, taxes, decision and note stay. Null for an operation, which must be one of
 * the catalogue, and for a discount, which is no line.
 */
export function asKind(line: Line, word: KindWord, title: string, rates: RateIndex): Line | null {
  const { id, taxes, decision, note } = line;
  const common = { id, taxes, decision, note };
  const condition = conditionOf(word);
  if (condition !== null) return { ...common, kind: 'part', title, ...figuresOfPart(line), condition };
  switch (word) {
    case 'labour':
      return { ...common, kind: 'labour', title, hours: '0', labourClass: rates.rates.labourClasses[0]?.id ?? 'general' };
    case 'sublet':
      return { ...common, kind: 'sublet', title, cost: '0', price: null };
    case 'fee':
      return { ...common, kind: 'fee', title, amount: '0' };
    case 'note':
      return { ...common, kind: 'note', text: title };
    default:
      return null;
  }
}

function figuresOfPart(line: Line): Pick<PartLine, 'number' | 'qty' | 'cost' | 'unitPrice' | 'core' | 'supplier'> {
  if (line.kind !== 'part') return { number: '', qty: '1', cost: '0', unitPrice: null, core: '0' };
  const { number, qty, cost, unitPrice, core, supplier } = line;
  return { number, qty, cost, unitPrice, core, ...(supplier === undefined ? {} : { supplier }) };
}
