import { parseTsv, printTsv } from './tsv.js';
import type { Block, SheetModel } from './model.js';

export interface ClipboardOptions {
  readonly frame: HTMLElement;
  /** Ends the listening. */
  readonly signal: AbortSignal;
  /** Whether the keyboard is on the cells, and not in an editor's field or a menu. */
  onCells(): boolean;
  /** The selected block as text, or `null` while nothing is selected. */
  copied(): string | null;
  cut(): void;
  pasted(cells: string[][]): void;
}

/**
 * Copy, cut and paste of blocks as plain text. The HTML flavour that spreadsheets offer as well is never read:
 * it would have to be parsed, which Trusted Types forbid for good reason. Listens in the capture phase so that
 * nobody else in the sheet answers first.
 */
export function listenToClipboard({ frame, signal, onCells, copied, cut, pasted }: ClipboardOptions): void {
  const capture = { capture: true, signal };
  const copy = (event: ClipboardEvent): boolean => {
    const text = onCells() ? copied() : null;
    if (text === null || !event.clipboardData) return false;
    event.clipboardData.setData('text/plain', text);
    event.preventDefault();
    event.stopPropagation();
    return true;
  };
  frame.addEventListener('copy', copy, capture);
  frame.addEventListener(
    'cut',
    (event) => {
      if (copy(event)) cut();
    },
    capture,
  );
  frame.addEventListener(
    'paste',
    (event) => {
      if (!onCells() || !event.clipboardData) return;
      event.preventDefault();
      event.stopPropagation();
      const text = event.clipboardData.getData('text/plain');
      if (text !== '') pasted(parseTsv(text));
    },
    capture,
  );
  // Safari sends copy and cut without selected text only to those who ask for them.
  for (const name of ['beforecopy', 'beforecut', 'beforepaste']) {
    frame.addEventListener(name, (event) => onCells() && event.preventDefault(), capture);
  }
}

/** What a block shows, as spreadsheets copy it: the printed text, not the sum behind it. */
export function printBlock(model: SheetModel, block: Block): string {
  const rows: string[][] = [];
  for (let row = block.top; row <= block.bottom; row += 1) {
    const cells: string[] = [];
    for (let column = block.left; column <= block.right; column += 1) cells.push(model.cell(row, column).text);
    rows.push(cells);
  }
  return printTsv(rows);
}
