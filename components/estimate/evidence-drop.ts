import type { Finding } from '../../src/documents/estimate.js';

/** Whether what is dragged holds files: a picture from a folder, say. */
export function holdsFiles(event: DragEvent): boolean {
  return event.dataTransfer?.types.includes('Files') ?? false;
}

/** The finding whose row of the grid lies under the pointer: rows are counted from 1, and the heading is the first. */
export function findingUnder(event: Event, findings: readonly Finding[]): Finding | null {
  const row = event.composedPath().find((target) => target instanceof Element && target.matches('tr[aria-rowindex]'));
  return row === undefined ? null : (findings[Number((row as Element).getAttribute('aria-rowindex')) - 2] ?? null);
}

/** The pictures on a clipboard. Where there is text too it comes from a spreadsheet or a page, and the text is what is meant. */
export function pastedPictures(event: ClipboardEvent): File[] {
  const data = event.clipboardData;
  if (data === null || data.getData('text/plain') !== '') return [];
  return [...data.files].filter((file) => file.type.startsWith('image/'));
}
