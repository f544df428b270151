import { ShareFault } from './fault.js';

/**
 * How values are laid down in a row of slots, each a short text: the same description writes and reads, so the two
 * cannot part. A default value is an empty slot. Lists of records go column by column, which brings like next to
 * like and compresses best.
 */
export interface Slot<T> {
  write(value: T, row: string[]): void;
  read(row: Row): T;
}

/** A row that cannot be read. It never leaves the folder. */
export class RowFault extends Error {}

/** Slots one to a line, so a line break inside one is written in two characters. */
export function printRow(row: readonly string[]): string {
  return row.map((slot) => slot.replace(/\\/g, '\\\\').replace(/\n/g, '\\n')).join('\n');
}

export function splitRow(printed: string): string[] {
  return printed.split('\n').map((line) => line.replace(/\\(.)/g, (_, character: string) => (character === 'n' ? '\n' : character)));
}

/** Slots that are being read, one after the other. */
export class Row {
  private at = 0;

  constructor(private readonly slots: readonly string[]) {}

  next(): string {
    const slot = this.slots[this.at];
    if (slot === undefined) throw new RowFault('the row is too short');
    this.at += 1;
    return slot;
  }

  get left(): number {
    return this.slots.length - this.at;
  }
}

function slot<T>(write: (value: T) => string, read: (text: string) => T): Slot<T> {
  return { write: (value, row) => row.push(write(value)), read: (row) => read(row.next()) };
}

export const text: Slot<string> = slot(
  (value) => value,
  (value) => value,
);

/** A text that is mostly `usual`. */
export function usually(usual: string): Slot<string> {
  return slot(
    (value) => (value === usual ? '' : value),
    (value) => (value === '' ? usual : value),
  );
}

export const textOrNull: Slot<string | null> = slot(
  (value) => value ?? '',
  (value) => (value === '' ? null : value),
);

export const textOrNone: Slot<string | undefined> = slot(
  (value) => value ?? '',
  (value) => (value === '' ? undefined : value),
);

export const flag: Slot<boolean> = slot(
  (value) => (value ? '1' : ''),
  (value) => value !== '',
);

/** A whole number that is mostly `usual`. */
export function count(usual: number): Slot<number> {
  return slot((value) => (value === usual ? '' : String(value)), (value) => (value === '' ? usual : whole(value)));
}

function whole(value: string): number {
  if (!/^(0|[1-9]\d{0,6})$/.test(value)) throw new RowFault('a number is none');
  return Number(value);
}

/** One of these, the first being the usual one. */
export function choice<const T extends string>(choices: readonly T[]): Slot<T> {
  return slot(
    (value) => {
      const i = choices.indexOf(value);
      return i === 0 ? '' : String(i);
    },
    (value) => {
      const found = choices[value === '' ? 0 : whole(value)];
      if (found === undefined) throw new RowFault('a choice is none');
      return found;
    },
  );
}

/** Several of these, as letters. */
export function letters<const T extends string>(choices: Readonly<Record<T, string>>): Slot<T[]> {
  const names = Object.keys(choices) as T[];
  return slot(
    (value) => value.map((name) => choices[name]).join(''),
    (value) =>
      [...value].map((letter) => {
        const found = names.find((name) => choices[name] === letter);
        if (found === undefined) throw new RowFault('a letter is none');
        return found;
      }),
  );
}

/** What stands for a reference that leads nowhere. */
const NOWHERE = '?';

/** `p12` as `12`. */
export function shorten(prefix: string, id: string): string {
  return id.startsWith(prefix) && /^\d+$/.test(id.slice(prefix.length)) ? id.slice(prefix.length) : NOWHERE;
}

export function lengthen(prefix: string, short: string): string {
  return short === NOWHERE ? 'unknown' : `${prefix}${whole(short)}`;
}

/** The id of an entry of another list. */
export function reference(prefix: string): Slot<string> {
  return slot((value) => shorten(prefix, value), (value) => lengthen(prefix, value));
}

/** The id of an entry, or `none`. */
export function referenceOr<T extends string | null>(prefix: string, none: T): Slot<string | T> {
  return slot<string | T>(
    (value) => (value === none ? '' : shorten(prefix, value as string)),
    (value) => (value === '' ? none : lengthen(prefix, value)),
  );
}

export function references(prefix: string): Slot<string[]> {
  return slot(
    (value) => value.map((id) => shorten(prefix, id)).join(','),
    (value) => (value === '' ? [] : value.split(',').map((short) => lengthen(prefix, short))),
  );
}

/** Like `references`, but having none and saying nothing differ. */
export function referencesOrNull(prefix: string): Slot<string[] | null> {
  const several = references(prefix);
  return {
    write: (value, row) => (value?.length === 0 ? row.push('-') : several.write(value ?? [], row)),
    read: (row) => {
      const value = row.next();
      return value === '' ? null : several.read(new Row([value === '-' ? '' : value]));
    },
  };
}

/** Something that is the same in every copy and takes no slot. */
export function always<T>(value: T): Slot<T> {
  return { write: () => undefined, read: () => structuredCopy(value) };
}

/** Constants are lists, objects and plain values; nobody who gets one may change the next one's. */
function structuredCopy<T>(value: T): T {
  return JSON.parse(JSON.stringify(value)) as T;
}

type Slots<T> = { readonly [K in keyof T]-?: Slot<T[K]> };

export function record<T>(slots: Slots<T>): Slot<T> {
  const keys = Object.keys(slots) as (keyof T)[];
  return {
    write: (value, row) => {
      for (const key of keys) slots[key].write(value[key], row);
    },
    read: (row) => Object.fromEntries(keys.map((key) => [key, slots[key].read(row)])) as T,
  };
}

export function nullable<T>(inner: Slot<T>): Slot<T | null> {
  return {
    write: (value, row) => {
      row.push(value === null ? '' : '1');
      if (value !== null) inner.write(value, row);
    },
    read: (row) => (row.next() === '' ? null : inner.read(row)),
  };
}

function readLength(row: Row): number {
  const length = count(0).read(row);
  // Every entry takes a slot at least: a length beyond that is none, and must not be made room for.
  if (length > row.left) throw new RowFault('a list is longer than the row');
  return length;
}

export function list<T>(inner: Slot<T>): Slot<T[]> {
  return {
    write: (value, row) => {
      count(0).write(value.length, row);
      for (const entry of value) inner.write(entry, row);
    },
    read: (row) => Array.from({ length: readLength(row) }, () => inner.read(row)),
  };
}

/** Records one below the other, as columns. */
export function records<T>(slots: Slots<T>): Slot<T[]> {
  const columns = columnsOf(slots);
  return {
    write: (value, row) => {
      count(0).write(value.length, row);
      columns.write(value, row);
    },
    read: (row) => columns.read(row, readLength(row)),
  };
}

/** Columns of a known length. */
export function columnsOf<T>(slots: Slots<T>): { write(value: readonly T[], row: string[]): void; read(row: Row, length: number): T[] } {
  const keys = Object.keys(slots) as (keyof T)[];
  return {
    write: (value, row) => {
      for (const key of keys) for (const entry of value) slots[key].write(entry[key], row);
    },
    read: (row, length) => {
      const columns = keys.map((key) => Array.from({ length }, () => slots[key].read(row)));
      return Array.from({ length }, (_, i) => Object.fromEntries(keys.map((key, k) => [key, columns[k]![i]])) as T);
    },
  };
}

/** Records with ids that follow from where they stand: `p0`, `p1`. */
export function named<T extends { id: string }>(prefix: string, slots: Slots<Omit<T, 'id'>>): Slot<T[]> {
  const inner = records<Omit<T, 'id'>>(slots);
  return {
    write: (value, row) => {
      if (value.some(({ id }, i) => id !== `${prefix}${i}`)) {
        throw new ShareFault('copy', 'Only what customerCopy has made can be packed: its entries are named by their place.');
      }
      inner.write(value, row);
    },
    read: (row) => inner.read(row).map((entry, i) => ({ id: `${prefix}${i}`, ...entry }) as T),
  };
}
