/**
 * What the rest of Baysheet knows of a grid: rows in, edits out. No library type appears here, so that the
 * grid library can be replaced by writing one other `createSheet`.
 *
 * The sheet holds no data of its own. It paints the rows that it is given, tells what the person did
 * (`SheetEvents`) and waits for new rows. Undo and redo belong to the store behind it.
 */

/** How a cell may be changed: not at all, by typing, or by typing with a list of choices below. */
export type CellEditor = 'none' | 'text' | 'choice';

/** One choice of a type-ahead list. `text` is what lands in the cell, `hint` is shown beside it in grey. */
export interface SheetChoice {
  readonly text: string;
  readonly hint?: string;
}

/** What one cell shows. Everything is text: figures are printed before they come here. */
export interface SheetCell {
  /** What is painted. */
  readonly text: string;
  /** What the editor opens with, where that differs from `text` (a bare figure, a sum that was typed). */
  readonly edit?: string;
  readonly editor: CellEditor;
  /** Why the entry cannot be used, in words: marks the cell, is shown on hover and read out. */
  readonly invalid?: string;
  /** Something to know about the cell (which line carries a step, say): shown on hover and read out. */
  readonly note?: string;
  /** Meaning for the look: `shared`, `changed` (typed by hand over the catalogue), `quiet`, `strong`, `struck`. */
  readonly marks?: readonly ('shared' | 'changed' | 'quiet' | 'strong' | 'struck')[];
}

export interface SheetColumn {
  readonly id: string;
  readonly title: string;
  /** Said about the column on hover of its heading. */
  readonly help?: string;
  /** Width to begin with, in CSS pixels for text of 14 pixels (it grows with larger text); people may drag it. */
  readonly width: number;
  /** Figures are set right, in tabular numerals. */
  readonly align?: 'start' | 'end';
}

export interface SheetRow {
  /** Stable over updates; the selection follows it when rows move. */
  readonly id: string;
  /** What the row is called when read out ("Heater hose, renew one"). */
  readonly label: string;
  /** `main` rows stand for themselves, `sub` rows (parts) belong to the main row above, `spare` is the empty row at the end. */
  readonly level: 'main' | 'sub' | 'spare';
  /** By column id; a column that is missing is an empty cell that cannot be edited. */
  readonly cells: Readonly<Record<string, SheetCell>>;
}

/** One changed cell. `row` is a row id; `null` stands for a new row below the last one (a paste that runs over the end), and `extra` counts those from 0. */
export interface SheetEdit {
  readonly row: string | null;
  readonly extra?: number;
  readonly column: string;
  readonly text: string;
}

/** Where the person is: the active cell and the block around it. */
export interface SheetSelection {
  readonly row: string;
  readonly column: string;
  /** Row ids of the selected block, top to bottom. */
  readonly rows: readonly string[];
  readonly columns: readonly string[];
}

/** One entry of the row menu. */
export interface SheetAction {
  readonly id: string;
  readonly title: string;
  /** The key that does the same, for show. */
  readonly keys?: string;
  readonly disabled?: boolean;
}

/** The gesture that an edit came from. */
export type EditSource = 'type' | 'paste' | 'cut' | 'fill' | 'clear';

export interface SheetEvents {
  /** One gesture, one call: a typed cell, a pasted block, a fill, a cleared block. `source` says which. */
  edit(edits: readonly SheetEdit[], source: EditSource): void;
  /** Choices for a cell while `typed` stands in its editor; the best first. */
  choices(row: string, column: string, typed: string): readonly SheetChoice[];
  select(selection: SheetSelection | null): void;
  undo(): void;
  redo(): void;
  /** The row menu for the selected rows (right click, context-menu key, Shift+F10, or the row's own button). */
  actions(selection: SheetSelection): readonly SheetAction[];
  act(action: string, selection: SheetSelection): void;
  /** Text that a screen reader should say now (an entry refused, a block pasted, a cell that was left). */
  announce(text: string): void;
}

export interface SheetOptions {
  /** Where the grid is put: an element inside a shadow root. */
  readonly container: HTMLElement;
  /** Where lists and menus are put: an element of the same shadow root, positioned above the rest. */
  readonly popups: HTMLElement;
  readonly label: string;
  readonly columns: readonly SheetColumn[];
  readonly rows: readonly SheetRow[];
  readonly events: SheetEvents;
  /** Rows shown before the grid scrolls inside itself. */
  readonly maxVisibleRows?: number;
}

export interface Sheet {
  /** New rows (and columns); keeps the scroll position, the selection by row id, and an open editor. Paints only what differs. */
  update(rows: readonly SheetRow[], columns?: readonly SheetColumn[]): void;
  /** Puts the selection on a cell, scrolls it into view and takes the keyboard. */
  focus(row: string, column?: string): void;
  /** Measures again after the host was hidden, resized or moved. */
  refresh(): void;
  /** Column widths as dragged, by column id. */
  widths(): Readonly<Record<string, number>>;
  destroy(): void;
}

export type CreateSheet = (options: SheetOptions) => Sheet;
