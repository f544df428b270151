import type { Separator } from './print-table.js';

/** Where the quotes of a table stop making sense. */
export interface QuoteFault {
  /** The line that the faulty cell begins in, counted from 1. */
  readonly line: number;
  /** Where in the text the row of that cell begins. */
  readonly rowStart: number;
  readonly message: string;
}

/**
 * The first cell whose quotes RFC 4180 cannot explain: one that never ends, or that goes on after its closing quote.
 * The library that splits the table drops characters there without a word, so nothing from that row on may be used.
 * A quote inside a cell that does not begin with one stands for itself.
 */
export function findFault(text: string, separator: Separator): QuoteFault | null {
  let at = 0;
  let line = 1;
  let rowStart = 0;
  let cellStart = true;
  while (at < text.length) {
    const c = text[at]!;
    if (cellStart && c === '"') {
      const end = closingQuote(text, at);
      if (end < 0) return { line, rowStart, message: 'A cell begins with a quote that never ends.' };
      const after = text[end + 1];
      if (after !== undefined && after !== separator && after !== '\n' && after !== '\r') {
        return { line, rowStart, message: `A cell goes on after its closing quote: ${JSON.stringify(text.slice(end + 1, end + 21))}.` };
      }
      line += text.slice(at, end).match(/\r\n|\r|\n/g)?.length ?? 0;
      at = end + 1;
      cellStart = false;
      continue;
    }
    at += 1;
    cellStart = c === separator;
    if (c !== '\n' && c !== '\r') continue;
    if (c === '\r' && text[at] === '\n') at += 1;
    line += 1;
    rowStart = at;
    cellStart = true;
  }
  return null;
}

function closingQuote(text: string, open: number): number {
  let close = text.indexOf('"', open + 1);
  while (close >= 0 && text[close + 1] === '"') close = text.indexOf('"', close + 2);
  return close;
}
