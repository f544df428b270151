import type { CardCommand, CardList } from '../../src/store/card-draft.js';
import type { GridOptions } from '../estimate/grid-controller.js';
import type { EditSource, SheetEdit, SheetRow, SheetSelection } from '../grid/index.js';
import { toldEntry, toldRefused } from '../grid/words.js';
import { type CardAction, listActions } from './card-actions.js';
import { CLASSES } from './card-classes.js';
import { FEES } from './card-fees.js';
import { editList, type ListGrid, listRows } from './card-lists.js';
import { editSettings, rowOfSetting, SETTING_COLUMNS, settingRows } from './card-setting-rows.js';
import { SETTINGS, type SettingsName } from './card-settings.js';
import { TAXES } from './card-taxes.js';
import { TIERS } from './card-tiers.js';
import { CardGesture, type CardView } from './card-view.js';

/** What the grids ask of the element that they stand in. */
export interface CardOwner {
  /** Null while there is no card. */
  view(): CardView | null;
  commit(commands: readonly CardCommand[], what: string): void;
  undo(): void;
  redo(): void;
  announce(text: string): void;
}

export const LIST_GRIDS: Readonly<Record<CardList, ListGrid>> = {
  labourClasses: CLASSES,
  tiers: TIERS,
  fees: FEES,
  taxes: TAXES,
};

const WHAT: Readonly<Record<EditSource, string>> = { type: 'entry', paste: 'paste', cut: 'cut', fill: 'fill', clear: 'clearing' };

/** A list of the card as a grid of the owner. */
export function listGrid(list: CardList, owner: CardOwner): GridOptions {
  const grid = LIST_GRIDS[list];
  const rows = lastKept(owner, (view) => listRows(grid, view));
  return {
    container: list,
    popups: 'popups',
    label: grid.label,
    columns: grid.columns,
    maxVisibleRows: 12,
    rows,
    events: {
      ...shared(owner, {
        rows,
        columns: grid.columns,
        edit: (edits, gesture, view) => editList(grid, edits, gesture, view),
        actions: (selection, view) => listActions(grid, selection, view),
      }),
      choices: (_row, column, typed) => withView(owner, (view) => grid.choices(column, typed, view), []),
    },
  };
}

/** A group of settings as a grid of the owner. */
export function settingsGrid(name: SettingsName, owner: CardOwner): GridOptions {
  const grid = SETTINGS[name];
  const rows = lastKept(owner, (view) => settingRows(grid, view));
  return {
    container: name,
    popups: 'popups',
    label: grid.label,
    columns: SETTING_COLUMNS,
    maxVisibleRows: 12,
    rows,
    events: {
      ...shared(owner, {
        rows,
        columns: SETTING_COLUMNS,
        edit: (edits, gesture, view) => editSettings(grid, edits, gesture, view),
        actions: () => [],
      }),
      choices: (row, _column, typed) =>
        withView(owner, (view) => grid.settings.find(({ id }) => rowOfSetting(id) === row)?.choices?.(typed, view) ?? [], []),
    },
  };
}

/** Rows are only made when there is another view to make them from. */
function lastKept(owner: CardOwner, make: (view: CardView) => readonly SheetRow[]): () => readonly SheetRow[] | null {
  let last: { readonly view: CardView; readonly rows: readonly SheetRow[] } | null = null;
  return () => {
    const view = owner.view();
    if (view !== null && view !== last?.view) last = { view, rows: make(view) };
    return view === null ? null : last!.rows;
  };
}

interface GridOf extends Pick<GridOptions, 'rows' | 'columns'> {
  edit(edits: readonly SheetEdit[], gesture: CardGesture, view: CardView): void;
  actions(selection: SheetSelection, view: CardView): CardAction[];
}

function shared(owner: CardOwner, { rows, columns, edit, actions }: GridOf) {
  return {
    edit: (edits: readonly SheetEdit[], source: EditSource): void =>
      withView(
        owner,
        (view) => {
          const gesture = new CardGesture(view.state);
          const before = rows() ?? [];
          edit(edits, gesture, view);
          owner.commit(gesture.commands, WHAT[source]);
          const { refused } = gesture;
          const [only, ...others] = edits;
          if (only !== undefined && others.length === 0)
            owner.announce(toldEntry(only, { before, after: rows() ?? [], columns, refused: refused[0] }));
          else if (refused.length > 0) owner.announce(toldRefused(refused));
        },
        undefined,
      ),
    actions: (selection: SheetSelection) => withView(owner, (view) => actions(selection, view), []),
    act: (id: string, selection: SheetSelection): void =>
      withView(
        owner,
        (view) => {
          const chosen = actions(selection, view).find((action) => action.id === id);
          if (chosen === undefined) return;
          owner.commit(chosen.commands, chosen.label);
          owner.announce(`Done: ${chosen.label}.`);
        },
        undefined,
      ),
    undo: () => owner.undo(),
    redo: () => owner.redo(),
    announce: (text: string) => owner.announce(text),
  };
}

function withView<T>(owner: CardOwner, use: (view: CardView) => T, otherwise: T): T {
  const view = owner.view();
  return view === null ? otherwise : use(view);
}
