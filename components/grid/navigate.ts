import type { AfterEntry } from './editor.js';
import type { Command } from './keys.js';
import type { Corner, SurfaceSelection } from './library.js';
import type { SheetModel } from './model.js';
import type { SheetColumn, SheetRow } from './sheet.js';

export interface Target {
  readonly anchor: Corner;
  readonly head: Corner;
}

interface Extent {
  readonly rows: number;
  readonly columns: number;
  /** Rows that PageUp and PageDown move by. */
  readonly page: number;
}

/**
 * Where a key takes the selection. Nothing wraps: an edge is an edge. The exception is Tab, which reads on into
 * the next row and, past the last cell (or before the first), gives `null`: there it leaves the sheet.
 */
export function targetOf(command: Command, { anchor, head }: SurfaceSelection, extent: Extent): Target | null {
  const lastRow = extent.rows - 1;
  const lastColumn = extent.columns - 1;
  const inside = (row: number, column: number): Corner => ({
    row: Math.max(0, Math.min(row, lastRow)),
    column: Math.max(0, Math.min(column, lastColumn)),
  });
  const go = (place: Corner, extend: boolean): Target => ({ anchor: extend ? anchor : place, head: place });
  // A key that extends moves the far corner; one that moves starts from the active cell.
  const from = 'extend' in command && command.extend ? head : anchor;
  switch (command.do) {
    case 'move':
      return go(inside(from.row + command.rows, from.column + command.columns), command.extend);
    case 'page':
      return go(inside(from.row + command.rows * extent.page, from.column), command.extend);
    case 'edge':
      switch (command.to) {
        case 'row-start':
          return go({ row: from.row, column: 0 }, command.extend);
        case 'row-end':
          return go({ row: from.row, column: lastColumn }, command.extend);
        case 'first':
          return go({ row: 0, column: 0 }, command.extend);
        case 'last':
          return go({ row: lastRow, column: lastColumn }, command.extend);
      }
      break;
    case 'step': {
      const next = anchor.row * extent.columns + anchor.column + command.by;
      if (next < 0 || next >= extent.rows * extent.columns) return null;
      const place = { row: Math.floor(next / extent.columns), column: next % extent.columns };
      return { anchor: place, head: place };
    }
    case 'select':
      switch (command.what) {
        case 'all':
          return { anchor: { row: 0, column: 0 }, head: { row: lastRow, column: lastColumn } };
        case 'rows':
          return { anchor: { row: anchor.row, column: 0 }, head: { row: head.row, column: lastColumn } };
        case 'columns':
          return { anchor: { row: 0, column: anchor.column }, head: { row: lastRow, column: head.column } };
      }
  }
  return null;
}

/** The move that follows an entry. */
export function commandAfter(after: AfterEntry): Command | null {
  switch (after) {
    case 'up':
      return { do: 'move', rows: -1, columns: 0, extend: false };
    case 'down':
      return { do: 'move', rows: 1, columns: 0, extend: false };
    case 'left':
      return { do: 'move', rows: 0, columns: -1, extend: false };
    case 'right':
      return { do: 'move', rows: 0, columns: 1, extend: false };
    case 'next':
      return { do: 'step', by: 1 };
    case 'previous':
      return { do: 'step', by: -1 };
    case 'stay':
    case 'all':
      return null;
  }
}

/**
 * The spare row has been typed into and is about to become a row of its own, with a new spare row below. The
 * person stays on what they typed, or, after Enter, goes down to the new spare row.
 */
export type SpareEntry = 'stay' | 'down' | null;

/** The selection after rows or columns changed: it stays on its rows and columns by id, or else in its place. */
export function selectionAfter(
  { anchor, head }: SurfaceSelection,
  before: { readonly rows: readonly SheetRow[]; readonly columns: readonly SheetColumn[] },
  now: SheetModel,
  entry: SpareEntry,
): Target | null {
  const lastRow = now.rows.length - 1;
  const lastColumn = now.columns.length - 1;
  if (lastRow < 0 || lastColumn < 0) return null;
  const onSpare = entry !== null && before.rows[anchor.row]?.level === 'spare';
  const stayed = (found: number, index: number, last: number): number => (found >= 0 ? found : Math.min(index, last));
  const moved = ({ row, column }: Corner): Corner => ({
    row: onSpare ? Math.min(row + (entry === 'down' ? 1 : 0), lastRow) : stayed(now.indexOfRow(before.rows[row]?.id ?? ''), row, lastRow),
    column: stayed(now.indexOfColumn(before.columns[column]?.id ?? ''), column, lastColumn),
  });
  return { anchor: moved(anchor), head: moved(head) };
}
