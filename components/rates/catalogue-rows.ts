import type { CatalogueList, CatalogueRow } from '../../src/store/catalogue-draft.js';
import { cellKey, type PendingEntry } from '../../src/store/commands.js';
import type { SheetCell, SheetRow } from '../grid/sheet.js';
import type { CatalogueColumn } from './catalogue-cells.js';
import { spareRow } from './catalogue-edits.js';
import { CATALOGUE_COLUMNS, LIST_TITLES } from './catalogue-lists.js';
import { type CatalogueView, type CellFault, titleOf } from './catalogue-view.js';

/** Columns whose text hangs on more than the row. */
const COMPUTED: ReadonlySet<string> = new Set(['own', 'used']);

interface Kept {
  readonly signs: string;
  readonly row: SheetRow;
}

/**
 * Makes the rows of one list, or hands back those of the last time where nothing that they show has changed: a list of
 * thousands is looked through with every entry, but made only once.
 */
export class CatalogueRows {
  private readonly kept = new WeakMap<CatalogueRow, Kept>();
  private readonly columns: readonly CatalogueColumn<never>[];
  private readonly computed: readonly CatalogueColumn<never>[];

  constructor(private readonly list: CatalogueList) {
    this.columns = CATALOGUE_COLUMNS[list] as readonly CatalogueColumn<never>[];
    this.computed = this.columns.filter(({ id }) => COMPUTED.has(id));
  }

  /** @param shown which rows; all of them unless it says otherwise */
  of(view: CatalogueView, shown: ((row: CatalogueRow) => boolean) | null): SheetRow[] {
    const { list } = this;
    const entries = view.state.draft[list] as readonly CatalogueRow[];
    const pending = byRow(view.state.pending, list);
    const faults = byRow(view.faults, list);
    const rows = (shown === null ? entries : entries.filter(shown)).map((entry) =>
      this.row(entry, view, pending.get(entry.key), faults.get(entry.key)),
    );
    return [...rows, spare(list)];
  }

  private row(
    entry: CatalogueRow,
    view: CatalogueView,
    pending: ReadonlyMap<string, PendingEntry> | undefined,
    faults: ReadonlyMap<string, CellFault> | undefined,
  ): SheetRow {
    const { list } = this;
    const { columns } = this;
    const computed = this.computed.map((column) => column.show(entry as never, view));
    const noted = pending === undefined && faults === undefined ? '' : JSON.stringify([[...(pending ?? [])], [...(faults ?? [])]]);
    const signs = `${view.locale} ${computed.join(' ')} ${noted}`;
    const known = this.kept.get(entry);
    if (known?.signs === signs) return known.row;
    const cells = columns.map(
      (column) => [column.id, cellOf(column, entry, view, pending?.get(column.id), faults?.get(column.id))] as const,
    );
    const row: SheetRow = {
      id: `${list}:${entry.key}`,
      label: titleOf(entry) || LIST_TITLES[list].one,
      level: 'main',
      cells: Object.fromEntries(cells),
    };
    this.kept.set(entry, { signs, row });
    return row;
  }
}

function cellOf(
  column: CatalogueColumn<never>,
  entry: CatalogueRow,
  view: CatalogueView,
  pending: PendingEntry | undefined,
  fault: CellFault | undefined,
): SheetCell {
  const editor = column.enter === undefined ? 'none' : column.choices === undefined ? 'text' : 'choice';
  if (pending !== undefined) return { text: pending.text, editor, invalid: pending.reason };
  const text = column.show(entry as never, view);
  return {
    text,
    editor,
    ...(fault === undefined ? {} : fault.invalid ? { invalid: fault.words } : { note: fault.words }),
    ...(column.id === 'id' ? { marks: ['quiet'] as const } : {}),
  };
}

function spare(list: CatalogueList): SheetRow {
  const columns = CATALOGUE_COLUMNS[list] as readonly CatalogueColumn<never>[];
  const cells = columns.map(
    ({ id, enter, choices }) =>
      [id, { text: '', editor: enter === undefined ? 'none' : choices === undefined ? 'text' : 'choice' }] as const,
  );
  return { id: spareRow(list), label: `New ${LIST_TITLES[list].one}`, level: 'spare', cells: Object.fromEntries(cells) };
}

/** Notes about cells of one list, by row and column. */
function byRow<T>(notes: ReadonlyMap<string, T>, list: CatalogueList): Map<string, Map<string, T>> {
  const rows = new Map<string, Map<string, T>>();
  for (const [key, note] of notes) {
    if (!key.startsWith(`${list}:`)) continue;
    const [row, column] = key.slice(list.length + 1).split(' ') as [string, string];
    const there = rows.get(row) ?? new Map<string, T>();
    rows.set(row, there.set(column, note));
  }
  return rows;
}

/** The key of a cell of a list. */
export function catalogueCell(list: CatalogueList, key: string, column: string): string {
  return cellKey(`${list}:${key}`, column);
}
