/**
 * The guard against formulas in tables (OWASP, "CSV Injection"): a spreadsheet that opens a table runs a cell that
 * begins with `=`, `+`, `-`, `@`, a tab, a carriage return or a line feed, whoever wrote it. Names and notes come from
 * customers and from other shops, so no cell of ours may begin so.
 *
 * The rule, in two halves.
 * 1. A cell is *live* when its first character, blanks and quotes aside, is one of these (or `=`, `+`, `-`, `@` in their full-width
 *    forms, which some spreadsheets take for them). It gets an apostrophe before it. Not so a cell that is one signed
 *    figure and nothing else, such as `-150.00` or `-1.234,50`: it computes nothing and must stay a figure.
 * 2. A spreadsheet that expects another separator ends a cell where none should end, and quotes do not hold it there. So
 *    inside a cell too, what would begin one (`=` and so on after a comma, a semicolon, a tab or a line break, blanks and
 *    quotes aside, unless it is a figure) gets an apostrophe.
 *
 * Where apostrophes stand before something live already, one more is put before them, and on the way in exactly one is
 * taken off: `unguardCell(guardCell(text)) === text` for every text. On the way in the guard of another program, which
 * puts its apostrophe in the same place, comes off too: `'=A1` is `=A1`, `'-5` is `-5`; `'til noon` stays as it is.
 */

/** What comes after any apostrophes and makes a cell live. */
const LIVE = /^'*(?:[\t\r\n]|[\s\u200b\ufeff"]*[=+\-@＝＋－＠])/;

/** What only looks live: one signed figure, with or without separators and a percent sign. */
const FIGURE = /^[+-]\d+(?:[.,'’\u00a0\u202f]\d+)*\u00a0?%?$/;

/**
 * Blanks, quotes and separators with something live behind them. The look behind lets a run of them be tried only from its
 * beginning: from each place in it anew, a cell of a hundred thousand line breaks would take minutes.
 */
const LIVE_INSIDE = /(?<![\s\u200b\ufeff",;])([\s\u200b\ufeff",;]+)(?![+-]\d+(?:\.\d+)?%?\s*(?:[,;\t\r\n]|$))('*[=+\-@＝＋－＠])/g;
const GUARDED_INSIDE = /(?<![\s\u200b\ufeff",;])([\s\u200b\ufeff",;]+)'('*[=+\-@＝＋－＠])/g;

/** A run that no separator is in begins no cell. */
const SEPARATOR = /[,;\t\r\n]/;

/** A cell as it may be written into a table. */
export function guardCell(text: string): string {
  const inside = text.replace(LIVE_INSIDE, (found: string, run: string, live: string) => (SEPARATOR.test(run) ? `${run}'${live}` : found));
  return LIVE.test(inside) && !FIGURE.test(inside) ? `'${inside}` : inside;
}

/** A cell as it was before it was guarded, here or by another program that follows the same advice. */
export function unguardCell(cell: string): string {
  const inside = cell.startsWith("'") && LIVE.test(cell) ? cell.slice(1) : cell;
  return inside.replace(GUARDED_INSIDE, (found: string, run: string, live: string) => (SEPARATOR.test(run) ? `${run}${live}` : found));
}
