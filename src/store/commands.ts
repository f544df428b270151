import type { Discount, Estimate, Finding, TestRound } from '../documents/estimate.js';
import type { Line } from '../documents/lines.js';
import type { PartNote } from '../documents/parts-run.js';

/** A cell whose entry cannot be used: what stands in it and why. Keys are made by `cellKey`. */
export interface PendingEntry {
  readonly text: string;
  readonly reason: string;
}

/** What the sheet holds: the estimate, and entries that are not (yet) part of it. */
export interface SheetState {
  readonly estimate: Estimate;
  readonly pending: ReadonlyMap<string, PendingEntry>;
}

/** The texts and choices at the head of an estimate. */
export type JobFields = Pick<Estimate, 'number' | 'vehicle' | 'customer' | 'concern' | 'cause' | 'correction'>;

/** Lists of an estimate whose entries have an id and an order. */
export interface Lists {
  readonly lines: Line;
  readonly findings: Finding;
  readonly discounts: Discount;
}
export type ListName = keyof Lists;

type InsertInto<L extends ListName> = { readonly do: 'insert'; readonly list: L; readonly entry: Lists[L]; readonly before: string | null };
type PutInto<L extends ListName> = { readonly do: 'put'; readonly list: L; readonly entry: Lists[L] };

/** Every change that a person can make to an estimate, as plain data. */
export type Command =
  /** A new entry before another one, or at the end. */
  | { [L in ListName]: InsertInto<L> }[ListName]
  /** Another version of the entry with the same id. */
  | { [L in ListName]: PutInto<L> }[ListName]
  | { readonly do: 'remove'; readonly list: ListName; readonly ids: readonly string[] }
  /** Entries, in their order, before another one, or to the end. */
  | { readonly do: 'move'; readonly list: ListName; readonly ids: readonly string[]; readonly before: string | null }
  /** All lines at once, as `proposeLines` gives them. */
  | { readonly do: 'set-lines'; readonly lines: readonly Line[] }
  | { readonly do: 'set-rounds'; readonly rounds: readonly TestRound[] }
  /** The trouble codes of the vehicle. */
  | { readonly do: 'set-codes'; readonly codes: NonNullable<Estimate['codes']> }
  /** All notes of the parts run at once, as `withPartNote` gives them. */
  | { readonly do: 'set-parts-run'; readonly notes: readonly PartNote[] }
  /** The card and the catalogue that the estimate is priced under from now on. */
  | { readonly do: 'quote'; readonly quoted: NonNullable<Estimate['quoted']> }
  /** The next revision of an estimate that was authorised; `at` is the time. */
  | { readonly do: 'revise'; readonly at: string }
  /** Another estimate altogether: from a file, or with a consent recorded. */
  | { readonly do: 'set-estimate'; readonly estimate: Estimate }
  | { readonly do: 'set-job'; readonly fields: Partial<JobFields> }
  /** An entry that cannot be used stays in its cell; null takes it away. */
  | { readonly do: 'pend'; readonly key: string; readonly entry: PendingEntry | null };

/** The row of an entry: `lines:l3`. Rows below it add to that: `lines:l3/part/hose-seal`. */
export function rowOf(list: ListName, id: string): string {
  return `${list}:${id}`;
}

/** The key of a cell among the pending entries. */
export function cellKey(row: string, column: string): string {
  return `${row} ${column}`;
}
