import type { CatalogueCommand, CatalogueList, CatalogueRow } from '../../src/store/catalogue-draft.js';
import type { GridOptions } from '../estimate/grid-controller.js';
import type { EditSource, SheetColumn, SheetRow } from '../grid/index.js';
import { toldEntry, toldRefused } from '../grid/words.js';
import { type CatalogueAction, catalogueActions } from './catalogue-actions.js';
import type { CatalogueColumn } from './catalogue-cells.js';
import { editCatalogue, spareRow } from './catalogue-edits.js';
import { CATALOGUE_COLUMNS, LIST_TITLES } from './catalogue-lists.js';
import { CatalogueRows } from './catalogue-rows.js';
import type { CatalogueView } from './catalogue-view.js';

/** What the grids ask of the element that they stand in. */
export interface CatalogueOwner {
  /** Null while there is no catalogue. */
  view(): CatalogueView | null;
  /** The list that is on the screen. */
  shown(): CatalogueList;
  /** Which rows were asked for; null for all. */
  finder(): ((row: CatalogueRow) => boolean) | null;
  commit(commands: readonly CatalogueCommand[], what: string): void;
  ask(action: CatalogueAction, rows: readonly string[]): void;
  undo(): void;
  redo(): void;
  announce(text: string): void;
}

const WHAT: Readonly<Record<EditSource, string>> = { type: 'entry', paste: 'paste', cut: 'cut', fill: 'fill', clear: 'clearing' };

/** The grid of one list. */
export function catalogueGrid(list: CatalogueList, owner: CatalogueOwner): GridOptions {
  const columns = CATALOGUE_COLUMNS[list] as readonly CatalogueColumn<never>[];
  const row = (id: string): CatalogueRow | null =>
    (owner.view()?.state.draft[list] as readonly CatalogueRow[]).find(({ key }) => id === `${list}:${key}`) ?? null;
  const rows = rowsOf(list, owner);
  return {
    container: `grid-${list}`,
    popups: 'popups',
    label: LIST_TITLES[list].title,
    columns: columns.map(({ id, title, width, align, help }): SheetColumn => ({
      id,
      title,
      width,
      ...(align && { align }),
      ...(help && { help }),
    })),
    maxVisibleRows: 16,
    rows,
    events: {
      edit: (edits, source) => {
        const view = owner.view();
        if (view === null) return;
        const before = view.index;
        const rowsBefore = rows() ?? [];
        const { commands, refused, renamed } = editCatalogue(list, edits, view);
        owner.commit(commands, renamed.length > 0 ? 'renaming' : WHAT[source]);
        const said = renamed.map(([from, to]) => `${from} is ${to} now, in ${places(before.usesOf(list as never, from))}.`);
        const [only, ...others] = edits;
        if (only !== undefined && others.length === 0)
          said.unshift(toldEntry(only, { before: rowsBefore, after: rows() ?? [], columns, refused: refused[0] }));
        else if (refused.length > 0) said.push(toldRefused(refused));
        if (said.length > 0) owner.announce(said.join(' '));
      },
      choices: (id, column, typed) => {
        const view = owner.view();
        return view === null ? [] : (columns.find((each) => each.id === column)?.choices?.(typed, row(id) as never, view) ?? []);
      },
      actions: (selection) => {
        const view = owner.view();
        return view === null ? [] : catalogueActions(list, selection, view.state.draft, owner.finder() !== null);
      },
      act: (id, selection) => {
        const view = owner.view();
        const action =
          view === null
            ? undefined
            : catalogueActions(list, selection, view.state.draft, owner.finder() !== null).find((each) => each.id === id);
        if (action?.ask !== undefined) owner.ask(action, selection.rows);
        else if (action !== undefined) owner.commit(action.commands, action.label);
      },
      undo: () => owner.undo(),
      redo: () => owner.redo(),
      announce: (text) => owner.announce(text),
    },
  };
}

function places(count: number): string {
  return count === 1 ? 'one other place' : `${count} other places`;
}

/** The rows to paint, the same list while nothing has changed; none while another list is on the screen. */
function rowsOf(list: CatalogueList, owner: CatalogueOwner): () => readonly SheetRow[] | null {
  const maker = new CatalogueRows(list);
  let last: { readonly view: CatalogueView; readonly finder: unknown; readonly rows: readonly SheetRow[] } | null = null;
  return () => {
    const view = owner.view();
    if (view === null || owner.shown() !== list) return null;
    const finder = owner.finder();
    if (last?.view !== view || last.finder !== finder) last = { view, finder, rows: maker.of(view, finder) };
    return last.rows;
  };
}

/** The cell that waits for the next entry of a list. */
export function spareCell(list: CatalogueList): { readonly row: string; readonly column: string } {
  return { row: spareRow(list), column: CATALOGUE_COLUMNS[list][0]!.id };
}
