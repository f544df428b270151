import type { Condition } from '../documents/fields.js';
import type { PartNote } from '../documents/parts-run.js';
import { decimal } from '../number/decimal.js';
import type { PartToGet } from './parts-plan.js';

/** What tells one part of the run from another. */
export interface PartIdentity {
  readonly part: string | null;
  readonly number: string;
  readonly title: string;
  readonly condition: Condition;
}

/** The same part: by number, else by the catalogue's id, else by title, and in the same condition. */
export function samePart(a: PartIdentity, b: PartIdentity): boolean {
  return a.condition === b.condition && identityOf(a) === identityOf(b);
}

function identityOf({ number, part, title }: PartIdentity): string {
  return number || (part ?? title);
}

/** What a person says of a part of the run. */
export type PartChange = Partial<Pick<PartNote, 'state' | 'supplier' | 'note'>>;

/**
 * The notes with something else said of a part. A new state is said of as many as are needed now. A note that says
 * nothing any more goes; undefined takes back a supplier or a note.
 */
export function withPartNote(notes: readonly PartNote[], of: PartToGet, change: PartChange): PartNote[] {
  const at = notes.findIndex((note) => samePart(note, of));
  const { part, number, title, condition } = of;
  const before: PartNote = notes[at] ?? { part, number, title, condition, state: 'to-find', qty: '0' };
  const { supplier, note, ...rest } = { ...before, ...change, ...('state' in change ? { qty: of.qty } : {}) };
  const after: PartNote = {
    ...rest,
    ...(rest.state === 'to-find' ? { qty: '0' } : {}),
    ...(supplier === undefined ? {} : { supplier }),
    ...(note === undefined || note === '' ? {} : { note }),
  };
  const isEmpty = after.state === 'to-find' && after.supplier === undefined && after.note === undefined;
  if (at < 0) return isEmpty ? [...notes] : [...notes, after];
  return isEmpty ? notes.toSpliced(at, 1) : notes.with(at, after);
}

/** The notes without one that is settled: what was ordered in vain has gone back. */
export function withoutPartNote(notes: readonly PartNote[], of: PartIdentity): PartNote[] {
  return notes.filter((note) => !samePart(note, of));
}

/** "2 ordered, 1 more to find": the state in words, with what has changed since it was said. */
export function stateWords({ state, more, over }: Pick<PartToGet, 'state' | 'more' | 'over'>): string {
  const words = STATE_WORDS[state];
  if (!decimal(more).isZero()) return `${words}, ${more} more to find`;
  return decimal(over).isZero() ? words : `${words}, ${over} too many`;
}

/** How the states are written. */
export const STATE_WORDS: Readonly<Record<PartNote['state'], string>> = {
  'to-find': 'to find',
  'in-stock': 'in stock',
  ordered: 'ordered',
  here: 'here',
};
