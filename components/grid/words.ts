import { longestCell, mostPastedRows } from './edits.js';
import type { BlockEdits, PasteEdits } from './edits.js';
import type { Block } from './model.js';

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
      skipped === 1
        ? '1 cell cannot be changed and was left as it is.'
        : `${skipped} cells cannot be changed and were left as they are.`,
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
