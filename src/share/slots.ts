import { ShareFault } from './fault.js';

/**
 * How values are laid down in a row of slots, each a short text: the same description writes and reads, so the two
 * cannot part. A default value is an empty slot. Lists of records go column by column, which brings like next to
 * like and compresses best.
 */
export interface Slot<T> {
  write(value: T, row: string[]): void;
  read(row: Row): T;
  /** Where a whole column is laid down otherwise than value by value. */
  readonly column?: Column<T>;
}

/** Values one below the other; when they are read, how many there are is known. */
interface Column<T> {
  write(values: readonly T[], row: string[]): void;
  read(row: Row, length: number): T[];
}

function columnOf<T>(slot: Slot<T>): Column<T> {
  return (
    slot.column ?? {
      write: (values, row) => {
        for (const value of values) slot.write(value, row);
      },
      read: (row, length) => Array.from({ length }, () => slot.read(row)),
    }
  );
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

/** A value as a text, and back. Only writers are called `write` here: a page that only opens links is built without them. */
interface Form<T> {
  write(value: T): string;
  read(text: string): T;
}

function slot<T>(form: Form<T>): Slot<T> {
  return { write: (value, row) => row.push(form.write(value)), read: (row) => form.read(row.next()) };
}

export const text: Slot<string> = slot({ write: (value) => value, read: (value) => value });

/** A text that is mostly `usual`. */
export function usually(usual: string): Slot<string> {
  return slot({ write: (value) => (value === usual ? '' : value), read: (value) => (value === '' ? usual : value) });
}

export const textOrNull: Slot<string | null> = slot({
  write: (value) => value ?? '',
  read: (value) => (value === '' ? null : value),
});

export const textOrNone: Slot<string | undefined> = slot({
  write: (value) => value ?? '',
  read: (value) => (value === '' ? undefined : value),
});

export const flag: Slot<boolean> = slot({ write: (value) => (value ? '1' : ''), read: (value) => value !== '' });

/** A whole number that is mostly `usual`. */
export function count(usual: number): Slot<number> {
  return slot({
    write: (value) => (value === usual ? '' : String(value)),
    read: (value) => (value === '' ? usual : whole(value)),
  });
}

function whole(value: string): number {
  if (!/^(0|[1-9]\d{0,6})$/.test(value)) throw new RowFault('a number is none');
  return Number(value);
}

/** One of these, the first being the usual one. */
export function choice<const T extends string>(choices: readonly T[]): Slot<T> {
  return slot({
    write: (value) => {
      const i = choices.indexOf(value);
      return i === 0 ? '' : String(i);
    },
    read: (value) => {
      const found = choices[value === '' ? 0 : whole(value)];
      if (found === undefined) throw new RowFault('a choice is none');
      return found;
    },
  });
}

/** Several of these, as letters. */
export function letters<const T extends string>(choices: Readonly<Record<T, string>>): Slot<T[]> {
  const names = Object.keys(choices) as T[];
  return slot({
    write: (value) => value.map((name) => choices[name]).join(''),
    read: (value) =>
      [...value].map((letter) => {
        const found = names.find((name) => choices[name] === letter);
        if (found === undefined) throw new RowFault('a letter is none');
        return found;
      }),
  });
}

/** What stands for a reference that leads nowhere. */
const NOWHERE = '?';
/** What stands for the entry after the one that was referred to last. */
const NEXT = '+';

/** Ids of the entries of one list (`p12`) in short (`12`): within a column the next one after the last is only a sign. */
export class Shortener {
  private next = 0;

  constructor(private readonly prefix: string) {}

  shorten(id: string): string {
    const place = id.startsWith(this.prefix) && /^\d+$/.test(id.slice(this.prefix.length)) ? Number(id.slice(this.prefix.length)) : null;
    if (place === null) return NOWHERE;
    const isNext = place === this.next;
    this.next = place + 1;
    return isNext ? NEXT : String(place);
  }

  lengthen(short: string): string {
    if (short === NOWHERE) return 'unknown';
    const place = short === NEXT ? this.next : whole(short);
    this.next = place + 1;
    return `${this.prefix}${place}`;
  }
}

/** How something with ids in it is written and read, with the ids in short. */
export interface ShortForm<T> {
  write(value: T, ids: Shortener): string;
  read(text: string, ids: Shortener): T;
}

/** A slot of ids; what is next begins anew with every column. */
function shortened<T>(prefix: string, form: ShortForm<T>): Slot<T> {
  const fresh = (): Slot<T> => {
    const ids = new Shortener(prefix);
    return slot({ write: (value) => form.write(value, ids), read: (value) => form.read(value, ids) });
  };
  return {
    write: (value, row) => fresh().write(value, row),
    read: (row) => fresh().read(row),
    column: { write: (values, row) => columnOf(fresh()).write(values, row), read: (row, length) => columnOf(fresh()).read(row, length) },
  };
}

/** An id as it is. */
const oneId: ShortForm<string> = { write: (id, ids) => ids.shorten(id), read: (short, ids) => ids.lengthen(short) };

/** The id of an entry of another list. */
export function reference(prefix: string): Slot<string> {
  return shortened(prefix, oneId);
}

/** The id of an entry, or `none`. */
export function referenceOr<T extends string | null>(prefix: string, none: T): Slot<string | T> {
  return shortened<string | T>(prefix, {
    write: (value, ids) => (value === none ? '' : ids.shorten(value as string)),
    read: (value, ids) => (value === '' ? none : ids.lengthen(value)),
  });
}

export function references(prefix: string): Slot<string[]> {
  return separated(prefix, oneId);
}

/** Entries with ids in them, with commas between. */
export function separated<T>(prefix: string, entry: ShortForm<T>): Slot<T[]> {
  return shortened<T[]>(prefix, {
    write: (value, ids) => value.map((each) => entry.write(each, ids)).join(','),
    read: (value, ids) => (value === '' ? [] : value.split(',').map((each) => entry.read(each, ids))),
  });
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

/** Lists whose entries are laid down by `entries`; in a column, all lengths first and then all entries together. */
function listOf<T>(entries: Column<T>): Slot<T[]> {
  const lengths = columnOf(count(0));
  const column: Column<T[]> = {
    write: (values, row) => {
      lengths.write(
        values.map((value) => value.length),
        row,
      );
      entries.write(
        values.flatMap((value) => value),
        row,
      );
    },
    read: (row, length) => {
      const each = Array.from({ length }, () => readLength(row));
      const all = entries.read(row, checkedSum(each, row));
      return each.map((count) => all.splice(0, count));
    },
  };
  return { write: (value, row) => column.write([value], row), read: (row) => column.read(row, 1)[0]!, column };
}

function checkedSum(lengths: readonly number[], row: Row): number {
  const sum = lengths.reduce((a, b) => a + b, 0);
  if (sum > row.left) throw new RowFault('lists are longer than the row');
  return sum;
}

export function list<T>(inner: Slot<T>): Slot<T[]> {
  return listOf(columnOf(inner));
}

/** Records one below the other, as columns. */
export function records<T>(slots: Slots<T>): Slot<T[]> {
  return listOf(columnsOf(slots));
}

/** Columns of a known length. */
export function columnsOf<T>(slots: Slots<T>): Column<T> {
  const keys = Object.keys(slots) as (keyof T)[];
  return {
    write: (values, row) => {
      for (const key of keys)
        columnOf(slots[key]).write(
          values.map((value) => value[key]),
          row,
        );
    },
    read: (row, length) => {
      const columns = keys.map((key) => columnOf(slots[key]).read(row, length));
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
