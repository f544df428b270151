import { longestCell, mostPastedRows } from './edits.js';
import type { BlockEdits, PasteEdits } from './edits.js';
import type { Block } from './model.js';
import type { SheetColumn, SheetEdit, SheetRow } from './sheet.js';

/** What is said to a screen reader after a gesture. */

export function count(number: number, one: string, many: string): string {
  return `${number} ${number === 1 ? one : many}`;
}

export function sizeOf(block: Block): string {
  const rows = block.bottom - block.top + 1;
  const columns = block.right - block.left + 1;
  return `${count(rows, 'row', 'rows')} by ${count(columns, 'column', 'columns')}`;
}

/** "Cleared 3 cells. 1 cell cannot be changed and was left as it is." */
export function told(done: string, { edits, skipped, cut }: BlockEdits): string {
  const parts = [`${done} ${count(edits.length, 'cell', 'cells')}.`];
  if (skipped > 0) {
    parts.push(
      skipped === 1 ? '1 cell cannot be changed and was left as it is.' : `${skipped} cells cannot be changed and were left as they are.`,
    );
  }
  if (cut > 0) parts.push(`${count(cut, 'cell was', 'cells were')} cut to ${longestCell} characters.`);
  return parts.join(' ');
}

export function toldPaste(paste: PasteEdits): string {
  const parts = [told('Pasted', paste)];
  if (paste.droppedColumns > 0) {
    parts.push(`${count(paste.droppedColumns, 'column', 'columns')} beyond the last column left out.`);
  }
  if (paste.droppedRows > 0) parts.push(`Only the first ${mostPastedRows} rows were pasted.`);
  return parts.join(' ');
}

/**
 * Where one entry went and what stands there now: "Heater hose, renew one, Quantity: 2." Why it cannot be used takes the
 * place of what stands there. A row that the entry has made is the first that was not there before.
 */
export function toldEntry(
  { row, column }: SheetEdit,
  {
    before,
    after,
    columns,
    refused,
  }: { before: readonly SheetRow[]; after: readonly SheetRow[]; columns: readonly SheetColumn[]; refused?: string | undefined },
): string {
  const known = new Set(before.map(({ id }) => id));
  const found =
    after.find(({ id, level }) => id === row && level !== 'spare') ??
    after.find(({ id }) => !known.has(id)) ??
    after.find(({ id }) => id === row);
  const place = [found?.label, columns.find(({ id }) => id === column)?.title].filter(Boolean).join(', ');
  if (refused !== undefined) return `${place}. Not used: ${refused}`;
  return `${place}: ${found?.cells[column]?.text || 'empty'}.`;
}

/** How many entries of a block cannot be used, and why the first of them cannot. */
export function toldRefused(refused: readonly string[]): string {
  return refused.length === 1
    ? `Not used: ${refused[0]}`
    : `${refused.length} entries cannot be used and are marked. The first: ${refused[0]}`;
}
