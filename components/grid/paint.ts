import { sameCell } from './model.js';
import type { SheetCell, SheetColumn, SheetRow } from './sheet.js';

/** What a painted cell stands for. The heading row is row 1 for a screen reader, so row index 0 is row 2. */
export interface PaintedCell {
  readonly row: SheetRow;
  readonly rowIndex: number;
  readonly column: SheetColumn;
  readonly columnIndex: number;
  readonly cell: SheetCell;
}

export const spareHint = 'Type here to add a row';

const painted = new WeakMap<Element, PaintedCell>();

/**
 * Puts text, marks and roles on one cell, and on its row with the row's first cell. The library hands the same
 * elements round while it scrolls and wipes their classes and styles, so that everything of ours is an
 * attribute, and nothing is touched where the cell shows the right thing already.
 */
export function paintCell(element: HTMLTableCellElement, next: PaintedCell, idPrefix: string): void {
  const before = painted.get(element);
  if (element.parentElement?.firstElementChild === element) paintRow(element.parentElement, next);
  if (
    before?.rowIndex === next.rowIndex &&
    before.columnIndex === next.columnIndex &&
    before.column.align === next.column.align &&
    before.row.level === next.row.level &&
    sameCell(before.cell, next.cell)
  ) {
    painted.set(element, next);
    return;
  }
  painted.set(element, next);
  const { cell, column, columnIndex, row, rowIndex } = next;
  if (element.textContent !== cell.text) element.textContent = cell.text;
  element.id = cellId(idPrefix, rowIndex, columnIndex);
  // An empty cell can name no row.
  set(element, 'role', columnIndex === 0 && cell.text !== '' ? 'rowheader' : 'gridcell');
  set(element, 'aria-colindex', String(columnIndex + 1));
  set(element, 'aria-readonly', cell.editor === 'none' ? 'true' : null);
  set(element, 'aria-invalid', cell.invalid ? 'true' : null);
  set(element, 'aria-description', describe(cell) || null);
  set(element, 'data-align', column.align ?? 'start');
  set(element, 'data-marks', cell.marks?.join(' ') || null);
  set(element, 'data-corner', cell.invalid ? 'invalid' : cell.note ? 'note' : null);
  set(element, 'data-hint', row.level === 'spare' && columnIndex === 0 && cell.text === '' ? spareHint : null);
}

function paintRow(element: Element, { row, rowIndex }: PaintedCell): void {
  set(element, 'role', 'row');
  set(element, 'aria-rowindex', String(rowIndex + 2));
  set(element, 'data-level', row.level);
}

/** A column heading, with the grip that its width is dragged by. */
export function paintHeading(element: HTMLTableCellElement, column: SheetColumn, columnIndex: number): void {
  let words = element.firstElementChild as HTMLElement | null;
  if (!words) {
    words = document.createElement('span');
    const grip = document.createElement('span');
    words.className = 'sheet-heading';
    grip.className = 'sheet-grip';
    element.replaceChildren(words, grip);
  }
  if (words.textContent !== column.title) words.textContent = column.title;
  set(element, 'role', 'columnheader');
  set(element, 'aria-colindex', String(columnIndex + 1));
  set(element, 'aria-description', column.help ?? null);
  set(element, 'data-align', column.align ?? 'start');
  set(element.parentElement!, 'role', 'row');
  set(element.parentElement!, 'aria-rowindex', '1');
}

export function cellId(prefix: string, row: number, column: number): string {
  return `${prefix}-r${row}c${column}`;
}

/** What is to be known of a cell beyond its text: shown on hover, and read out after it. */
function describe(cell: SheetCell): string {
  return [cell.invalid, cell.note].filter(Boolean).join(' ');
}

/** What a hint over a cell or a heading says: its text where that does not fit, and what is to be known of it. */
export function wordsFor(element: Element): string {
  const known = painted.get(element);
  const text = known ? known.cell.text : element.textContent;
  const shown = known ? element : element.querySelector('.sheet-heading');
  const cut = !!shown && shown.scrollWidth > shown.clientWidth;
  return [cut ? text : '', element.getAttribute('aria-description')].filter(Boolean).join('\n');
}

function set(element: Element, name: string, value: string | null): void {
  if (element.getAttribute(name) === value) return;
  if (value === null) element.removeAttribute(name);
  else element.setAttribute(name, value);
}
