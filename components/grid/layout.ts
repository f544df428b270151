import type { SheetColumn } from './sheet.js';

/** The text size, in CSS pixels, that the widths of columns are given for. */
const usualFontSize = 14;

/** Narrower than this a column cannot be dragged: it could not be found again. */
export const narrowestColumn = 36;

/**
 * Widths in CSS pixels by column index: as dragged, or as given and grown with the text. What is left of the room goes to the widest column of words that
 * nobody has dragged; a sheet that is too wide scrolls instead.
 */
export function fitColumns(
  columns: readonly SheetColumn[],
  dragged: ReadonlyMap<string, number>,
  room: number,
  fontSize: number,
): number[] {
  const grown = (width: number): number => Math.round((width * fontSize) / usualFontSize);
  const widths = columns.map((column) => dragged.get(column.id) ?? grown(column.width));
  const left = room - widths.reduce((sum, width) => sum + width, 0);
  if (left <= 0) return widths;
  let widest = -1;
  columns.forEach((column, index) => {
    if (column.align === 'end' || dragged.has(column.id)) return;
    if (widest < 0 || widths[index]! > widths[widest]!) widest = index;
  });
  if (widest >= 0) widths[widest]! += left;
  return widths;
}

/** The height of a row for a font size in CSS pixels: never below the 24 pixels of WCAG 2.2, 2.5.8. */
export function rowHeightFor(fontSize: number): number {
  return Math.max(24, Math.round(fontSize * 2));
}

/** How much room a scroll bar takes, in CSS pixels. Nothing where they lie over the content. */
export function scrollBarSize(beside: HTMLElement): number {
  const probe = document.createElement('div');
  Object.assign(probe.style, {
    position: 'absolute',
    width: '50px',
    height: '50px',
    overflow: 'scroll',
    visibility: 'hidden',
  });
  beside.append(probe);
  const size = probe.offsetWidth - probe.clientWidth;
  probe.remove();
  return size;
}
