import type { PartNeed } from '../../src/documents/catalogue.js';
import { ID_PATTERN, MAX_TEXT } from '../../src/documents/fields.js';
import { readFigure } from '../../src/number/locale-parse.js';
import { printList, readList } from '../../src/exchange/list-cell.js';
import { printPartNeeds, readPartNeeds } from '../../src/exchange/part-needs.js';
import { isReason, type Reason } from '../../src/exchange/reason.js';
import type { LinkTarget } from '../../src/store/catalogue-links.js';
import { sameWords, search } from '../estimate/search.js';
import type { SheetChoice, SheetColumn } from '../grid/sheet.js';
import { formatFigure } from '../look/format.js';
import type { CatalogueView } from './catalogue-view.js';

/** One column of a list: what stands in its cells, and what an entry there means. */
export interface CatalogueColumn<T> extends SheetColumn {
  show(row: T, view: CatalogueView): string;
  /** What the entry changes, or why it cannot be used. A column without it only shows. */
  enter?(text: string, row: T, view: CatalogueView): Partial<T> | Reason;
  choices?(typed: string, row: T | null, view: CatalogueView): SheetChoice[];
}

type Field<T, V> = { [K in keyof T]-?: T[K] extends V ? K : never }[keyof T] & string;
type More = Pick<SheetColumn, 'help'>;

/** Words; `required` says of what, where the entry cannot be without. */
export function words<T>(
  id: Field<T, string | undefined>,
  title: string,
  width: number,
  { required, help }: More & { required?: string } = {},
): CatalogueColumn<T> {
  return {
    id,
    title,
    width,
    ...(help === undefined ? {} : { help }),
    show: (row) => (row[id as keyof T] as string | undefined) ?? '',
    enter: (text) => {
      if (required !== undefined && text.trim() === '')
        return { reason: `${required} cannot be without words. Write some, or remove the row.` };
      return text.length > MAX_TEXT
        ? { reason: `This is longer than ${MAX_TEXT} characters. Shorten it.` }
        : ({ [id]: text.trim() } as Partial<T>);
    },
  };
}

/** Words that are left out of the document where there are none. */
export function optionalWords<T>(id: Field<T, string | undefined>, title: string, width: number, help: string): CatalogueColumn<T> {
  const column = words<T>(id, title, width, { help });
  return {
    ...column,
    enter: (text, row, view) => (text.trim() === '' ? ({ [id]: undefined } as Partial<T>) : column.enter!(text, row, view)),
  };
}

/** The id of an entry. Another one is taken wherever the catalogue names it. */
export function idColumn<T extends { readonly id: string; readonly key: string }>(list: LinkTarget, one: string): CatalogueColumn<T> {
  return {
    id: 'id',
    title: 'Id',
    width: 150,
    help: 'The name that other entries know it by; a new one is taken everywhere',
    show: (row) => row.id,
    enter: (text, row, view) => {
      const id = text.trim();
      if (!ID_PATTERN.test(id))
        return { reason: `"${short(id)}" cannot be an id. Use 1 to 64 letters, digits, dots, hyphens or underscores, no blanks.` };
      if (id !== row.id && view.index.titlesOf(list).has(id))
        return { reason: `Another ${one} has the id "${id}" already. Choose one that is free.` };
      return { id } as Partial<T>;
    },
  };
}

/** A figure; what an empty entry stands for is given, and whether it may be below zero. */
export function figure<T>(
  id: Field<T, string | null>,
  title: string,
  width: number,
  { empty, signed = false, help }: More & { readonly empty: '0' | null; readonly signed?: boolean },
): CatalogueColumn<T> {
  return {
    id,
    title,
    width,
    align: 'end',
    ...(help === undefined ? {} : { help }),
    show: (row, { locale }) => {
      const value = row[id as keyof T] as string | null;
      return value === null ? '' : formatFigure(value, locale);
    },
    enter: (text, _row, { locale }) => {
      if (text.trim() === '') return { [id]: empty } as Partial<T>;
      const read = readFigure(text, locale);
      if (!read.ok) return { reason: read.reason };
      if (!signed && read.value.startsWith('-')) return { reason: `"${short(text)}" is below zero, which cannot be here.` };
      return { [id]: read.value } as Partial<T>;
    },
  };
}

/** One of a few words; the beginning of one is enough. */
export function oneOf<T>(id: Field<T, string>, title: string, width: number, all: readonly string[]): CatalogueColumn<T> {
  return {
    id,
    title,
    width,
    show: (row) => row[id as keyof T] as string,
    enter: (text) => {
      const asked = text.trim().toLowerCase();
      const found = asked === '' ? all[0] : all.find((word) => word.startsWith(asked));
      return found === undefined ? { reason: `"${short(text)}" is not one of: ${all.join(', ')}.` } : ({ [id]: found } as Partial<T>);
    },
    choices: (typed) =>
      search(
        typed,
        all.map((text) => ({ item: { text }, text })),
      ),
  };
}

/** Entries of another list by their ids, with commas between; each may be named by its title too. */
export function links<T>(id: Field<T, string[]>, target: LinkTarget, title: string, width: number, help?: string): CatalogueColumn<T> {
  return {
    id,
    title,
    width,
    ...(help === undefined ? {} : { help }),
    show: (row) => (row[id as keyof T] as string[]).join(', '),
    enter: (text, _row, view) => {
      const ids = readLinks(text, target, view);
      return isReason(ids) ? ids : ({ [id]: ids } as Partial<T>);
    },
    choices: (typed, _row, view) => linkChoices(typed, target, view, ','),
  };
}

/** One entry of another list; `empty`: what nothing stands for, where it may be left out. */
export function link<T>(
  id: Field<T, string | null>,
  target: LinkTarget,
  title: string,
  width: number,
  { empty, help }: More & { readonly empty?: '' | null } = {},
): CatalogueColumn<T> {
  return {
    id,
    title,
    width,
    ...(help === undefined ? {} : { help }),
    show: (row) => (row[id as keyof T] as string | null) ?? '',
    enter: (text, _row, view) => {
      if (text.trim() === '' && empty !== undefined) return { [id]: empty } as Partial<T>;
      const found = readLink(text.trim(), target, view);
      return isReason(found) ? found : ({ [id]: found.id } as Partial<T>);
    },
    choices: (typed, _row, view) => linkChoices(typed, target, view, null),
  };
}

/** Parts and how many of each. */
export function partNeeds<T extends { readonly parts: PartNeed[] }>(width: number): CatalogueColumn<T> {
  return {
    id: 'parts',
    title: 'Parts',
    width,
    help: 'Like hose-seal × 2; clip × 4 each. “each” is for every position',
    show: (row, { locale }) => printPartNeeds(row.parts, (qty) => formatFigure(qty, locale)),
    enter: (text, _row, { locale }) => {
      const parts = readPartNeeds(text, locale);
      return isReason(parts) ? parts : ({ parts } as Partial<T>);
    },
    choices: (typed, _row, view) => linkChoices(typed, 'parts', view, ';'),
  };
}

/** Words of which there may be several, with semicolons between. */
export function severalWords<T>(id: Field<T, string[]>, title: string, width: number, help: string): CatalogueColumn<T> {
  return {
    id,
    title,
    width,
    help,
    show: (row) => printList(row[id as keyof T] as string[]),
    enter: (text) => {
      const all = [...new Set(readList(text))];
      return { [id]: all } as Partial<T>;
    },
  };
}

/** How many entries name this one. */
export function usedBy<T extends { readonly id: string }>(target: LinkTarget): CatalogueColumn<T> {
  return {
    id: 'used',
    title: 'Used',
    width: 56,
    align: 'end',
    help: 'How many entries name it; the row’s menu says which',
    show: (row, { index }) => String(index.usesOf(target, row.id) || ''),
  };
}

/** Ids or titles with commas or semicolons between. What looks like an id is taken even where it leads nowhere yet: the check says so. */
export function readLinks(text: string, target: LinkTarget, view: CatalogueView): string[] | Reason {
  const ids: string[] = [];
  for (const piece of text.split(/[,;]/)) {
    if (piece.trim() === '') continue;
    const found = readLink(piece.trim(), target, view);
    if (isReason(found)) return found;
    ids.push(found.id);
  }
  return [...new Set(ids)];
}

export function readLink(text: string, target: LinkTarget, { index }: CatalogueView): { readonly id: string } | Reason {
  const titles = index.titlesOf(target);
  if (titles.has(text)) return { id: text };
  for (const [id, title] of titles) if (sameWords(title, text)) return { id };
  return ID_PATTERN.test(text)
    ? { id: text }
    : { reason: `${ONE[target]} called "${short(text)}" is not there. Choose one from the list, or add it first.` };
}

const ONE: Readonly<Record<LinkTarget, string>> = {
  operations: 'An operation',
  steps: 'A step',
  parts: 'A part',
  components: 'A component',
  cautions: 'A caution',
  methods: 'A method',
  fees: 'A fee',
  labourClasses: 'A labour class',
};

/** Choices for the last of several ids; those before it stay. */
export function linkChoices(typed: string, target: LinkTarget, { index }: CatalogueView, mark: ',' | ';' | null): SheetChoice[] {
  const at = mark === null ? -1 : Math.max(typed.lastIndexOf(mark), typed.lastIndexOf(';'));
  const before = at < 0 ? '' : `${typed.slice(0, at + 1).trim()} `;
  const there = new Set(before.split(/[,;]/).map((piece) => piece.trim()));
  const items = [...index.titlesOf(target)].flatMap(([id, title]) =>
    there.has(id) ? [] : { item: { text: `${before}${id}`, hint: short(title) }, text: `${id} ${title}` },
  );
  return search(typed.slice(at + 1), items);
}

export function short(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}
