import { type CardCommand, type CardList, type CardLists, freeKey } from '../../src/store/card-draft.js';
import type { SheetCell, SheetChoice, SheetColumn, SheetEdit, SheetRow } from '../grid/sheet.js';
import { type CardGesture, type CardOutcome, type CardView, withEntries } from './card-view.js';

type Cells = Readonly<Record<string, SheetCell>>;
/** What was typed in a row that does not exist yet, by column. */
export type Typed = (column: string) => string;

/** One list of the card as a grid: what its columns show, and what an entry in one of them means. */
export interface ListGrid<L extends CardList = CardList> {
  readonly list: L;
  readonly label: string;
  /** What a row is called. */
  readonly one: string;
  readonly columns: readonly SheetColumn[];
  /** What invites to begin a row. */
  readonly spare: string;
  cells(entry: CardLists[L], view: CardView): Cells;
  /** The entry with what was typed in it. */
  enter(column: string, text: string, entry: CardLists[L], view: CardView): { readonly entry: CardLists[L] } | { readonly reason: string };
  choices(column: string, typed: string, view: CardView): readonly SheetChoice[];
  /** An entry with nothing in it but what it cannot do without, and the key of the one that it belongs before. */
  create(typed: Typed, view: CardView): { readonly entry: Omit<CardLists[L], 'key'>; readonly before: string | null };
  nameOf(entry: CardLists[L], view: CardView): string;
}

export function rowOfCard(list: CardList, key: string): string {
  return `${list}:${key}`;
}

/** The rows of a list, and the empty one that waits for the next. */
export function listRows<L extends CardList>(grid: ListGrid<L>, view: CardView): SheetRow[] {
  const entries = view.state.draft[grid.list] as readonly CardLists[L][];
  const rows = entries.map((entry): SheetRow => {
    const id = rowOfCard(grid.list, entry.key);
    return { id, label: grid.nameOf(entry, view), level: 'main', cells: withEntries(grid.cells(entry, view), id, view) };
  });
  return [...rows, spareRow(grid, view)];
}

function spareRow<L extends CardList>(grid: ListGrid<L>, view: CardView): SheetRow {
  const like = grid.cells({ ...grid.create(() => '', view).entry, key: '' } as unknown as CardLists[L], view);
  const empty = (id: string, i: number): SheetCell =>
    like[id] === undefined || like[id].editor === 'none'
      ? { text: '', editor: 'none' }
      : { text: i === 0 ? grid.spare : '', edit: '', editor: like[id].editor, marks: ['quiet'] };
  return {
    id: `${grid.list}:+`,
    label: `New ${grid.one}`,
    level: 'spare',
    cells: Object.fromEntries(grid.columns.map(({ id }, i) => [id, empty(id, i)])),
  };
}

/** What the edits of one gesture in a list come to. */
export function editList<L extends CardList>(grid: ListGrid<L>, edits: readonly SheetEdit[], gesture: CardGesture, view: CardView): void {
  for (const { row, fresh, group } of byRow(edits, `${grid.list}:+`)) {
    const key = fresh ? create(grid, group, gesture, view) : row.slice(grid.list.length + 1);
    if (key === null) continue;
    for (const edit of group) gesture.enter(rowOfCard(grid.list, key), edit.column, edit.text, outcome(grid, key, edit, gesture, view));
  }
}

/** Entries of one row belong together, above all those of a row that does not exist yet. */
function byRow(edits: readonly SheetEdit[], spare: string): { row: string; fresh: boolean; group: SheetEdit[] }[] {
  const groups = new Map<string, { row: string; fresh: boolean; group: SheetEdit[] }>();
  for (const edit of edits) {
    const row = edit.row ?? `extra ${edit.extra}`;
    const known = groups.get(row) ?? { row, fresh: edit.row === null || edit.row === spare, group: [] };
    known.group.push(edit);
    groups.set(row, known);
  }
  return [...groups.values()];
}

function create<L extends CardList>(grid: ListGrid<L>, group: readonly SheetEdit[], gesture: CardGesture, view: CardView): string | null {
  if (group.every(({ text }) => text.trim() === '')) return null;
  const typed: Typed = (column) => group.find((edit) => edit.column === column)?.text.trim() ?? '';
  const key = freeKey(gesture.state.draft[grid.list]);
  const { entry, before } = grid.create(typed, { ...view, state: gesture.state });
  gesture.run({ do: 'insert', list: grid.list, entry: { ...entry, key }, before } as unknown as CardCommand);
  return key;
}

function outcome<L extends CardList>(grid: ListGrid<L>, key: string, edit: SheetEdit, gesture: CardGesture, view: CardView): CardOutcome {
  const entry = (gesture.state.draft[grid.list] as readonly CardLists[L][]).find((each) => each.key === key);
  if (entry === undefined) return { commands: [] };
  const entered = grid.enter(edit.column, edit.text.trim(), entry, { ...view, state: gesture.state });
  if ('reason' in entered) return entered;
  return { commands: [{ do: 'put', list: grid.list, entry: entered.entry } as unknown as CardCommand] };
}
