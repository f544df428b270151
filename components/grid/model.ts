import type { SheetCell, SheetColumn, SheetRow } from './sheet.js';

const emptyCell: SheetCell = { text: '', editor: 'none' };

/** A rectangle of cells by index, its edges included. */
export interface Block {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

/** The rows and columns that a sheet was last given, to be asked by index or by id. */
export class SheetModel {
  rows: readonly SheetRow[] = [];
  columns: readonly SheetColumn[] = [];
  private rowIndexes = new Map<string, number>();

  set(rows: readonly SheetRow[], columns: readonly SheetColumn[]): void {
    this.rows = rows;
    this.columns = columns;
    this.rowIndexes = new Map(rows.map((row, index) => [row.id, index]));
  }

  /** A column that the row does not name is an empty cell that cannot be edited. */
  cell(row: number, column: number): SheetCell {
    const id = this.columns[column]?.id;
    return (id !== undefined && this.rows[row]?.cells[id]) || emptyCell;
  }

  canEdit(row: number, column: number): boolean {
    return this.cell(row, column).editor !== 'none';
  }

  /** What an editor opens with, and what a fill repeats. */
  entry(row: number, column: number): string {
    const cell = this.cell(row, column);
    return cell.edit ?? cell.text;
  }

  indexOfRow(id: string): number {
    return this.rowIndexes.get(id) ?? -1;
  }

  indexOfColumn(id: string): number {
    return this.columns.findIndex((column) => column.id === id);
  }

  /** "Heater hose, renew one, Quantity" */
  nameOf(row: number, column: number): string {
    return [this.rows[row]?.label, this.columns[column]?.title].filter(Boolean).join(', ');
  }
}

/** Whether two cells look and read the same, so that the second need not be painted over the first. */
export function sameCell(a: SheetCell, b: SheetCell): boolean {
  return (
    a === b ||
    (a.text === b.text &&
      a.editor === b.editor &&
      a.invalid === b.invalid &&
      a.note === b.note &&
      (a.marks ?? []).join() === (b.marks ?? []).join())
  );
}
