/**
 * The guard against formulas in tables (OWASP, "CSV Injection"): a spreadsheet that opens a table runs a cell that
 * begins with `=`, `+`, `-`, `@`, a tab, a carriage return or a line feed, whoever wrote it. Names and notes come from
 * customers and from other shops, so no cell of ours may begin so.
 *
 * The rule. A cell is *live* when its first character, blanks aside, is one of these (or `=`, `+`, `-`, `@` in their
 * full-width forms, which some spreadsheets take for them), unless the whole cell is one signed figure such as
 * `-150.00` or `-1.234,50`: a figure computes nothing and must stay a figure. On the way out a live cell gets an
 * apostrophe before it. A cell that begins with apostrophes before something live gets one more, so that on the way in
 * exactly one is taken off and every text comes back as it was: `unguardCell(guardCell(text)) === text`.
 *
 * Quotes and separators, the other half of OWASP's rule, are the business of `print-table.ts`.
 */

/** What comes after any apostrophes and makes a cell live. */
const LIVE = /^'*(?:[\t\r\n]|[\s\u200b\ufeff]*[=+\-@＝＋－＠])/;

/** What only looks live: one signed figure, with or without separators and a percent sign. */
const FIGURE = /^[+-]\d+(?:[.,'’\u00a0\u202f]\d+)*\u00a0?%?$/;

/** A cell as it may be written into a table. */
export function guardCell(text: string): string {
  return LIVE.test(text) && !FIGURE.test(text) ? `'${text}` : text;
}

/** A cell as it was before it was guarded, here or by another program that follows the same advice. */
export function unguardCell(cell: string): string {
  return cell.startsWith("'") && LIVE.test(cell) ? cell.slice(1) : cell;
}
