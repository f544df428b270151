/**
 * Blocks of cells as the text that spreadsheets put on the clipboard: tabs between cells, a line for each row,
 * double quotes around a cell that holds a tab, a line break or a quote. No standard describes it; this is
 * what the spreadsheets of today write and read (common practice, no source).
 */

/** From rows of cells to clipboard text. */
export function printTsv(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => row.map(quoteWhereNeeded).join('\t')).join('\n');
}

function quoteWhereNeeded(cell: string): string {
  return /[\t\r\n"]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/** From clipboard text to rows of cells. Lines may end in CR, LF or both; one at the very end starts no row. */
export function parseTsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  for (;;) {
    const quoted = text[at] === '"' ? readQuoted(text, at) : null;
    const { cell, next } = quoted ?? readPlain(text, at);
    row.push(cell);
    at = next;
    if (text[at] === '\t') {
      at += 1;
      continue;
    }
    rows.push(row);
    row = [];
    if (text[at] === '\r' && text[at + 1] === '\n') at += 1;
    at += 1;
    if (at >= text.length) return rows;
  }
}

function readPlain(text: string, from: number): { cell: string; next: number } {
  let next = from;
  while (next < text.length && text[next] !== '\t' && text[next] !== '\n' && text[next] !== '\r') next += 1;
  return { cell: text.slice(from, next), next };
}

/** `null` where the quote turns out to be part of the words (an inch mark, say): it then stands for itself. */
function readQuoted(text: string, from: number): { cell: string; next: number } | null {
  let close = text.indexOf('"', from + 1);
  while (close >= 0 && text[close + 1] === '"') close = text.indexOf('"', close + 2);
  if (close < 0) return null;
  const after = text[close + 1];
  if (after !== undefined && after !== '\t' && after !== '\n' && after !== '\r') return null;
  return { cell: text.slice(from + 1, close).replaceAll('""', '"'), next: close + 1 };
}
