import type { Surface } from './library.js';
import { cellId } from './paint.js';

/**
 * The grid pattern of the WAI-ARIA Authoring Practices on the library's tables: the scrolling box is the grid
 * and the one tab stop; the active cell is named by `aria-activedescendant`, since cells are handed round while
 * scrolling and would lose a focus of their own. The copies of the heading are hidden from assistive tools.
 */
export function dressSurface(surface: Surface, label: string): void {
  const { holder } = surface;
  holder.tabIndex = 0;
  holder.setAttribute('role', 'grid');
  holder.setAttribute('aria-label', label);
  holder.setAttribute('aria-multiselectable', 'true');
  // Tab goes from cell to cell, so the way out is told (WCAG 2.2, 2.1.2).
  holder.setAttribute('aria-description', 'Escape, then Tab, leaves the cells.');
  surface.table.setAttribute('role', 'presentation');
  surface.head.setAttribute('role', 'rowgroup');
  surface.body.setAttribute('role', 'rowgroup');
  for (const clone of surface.clones) clone.setAttribute('aria-hidden', 'true');
}

/** Virtual rows: says how many there are in all, the heading row among them. */
export function countSurface(surface: Surface, rows: number, columns: number): void {
  surface.holder.setAttribute('aria-rowcount', String(rows + 1));
  surface.holder.setAttribute('aria-colcount', String(columns));
}

/** Names the active cell, where it is on the screen, and marks the cells of the selected block. */
export function markSelection(surface: Surface, idPrefix: string): void {
  const selection = surface.selection();
  const active = selection && surface.cellAt(selection.anchor.row, selection.anchor.column);
  if (selection && active?.isConnected) {
    const id = cellId(idPrefix, selection.anchor.row, selection.anchor.column);
    if (surface.holder.getAttribute('aria-activedescendant') !== id) {
      surface.holder.setAttribute('aria-activedescendant', id);
    }
  } else {
    surface.holder.removeAttribute('aria-activedescendant');
  }
  const rendered = surface.rendered();
  const block = selection?.block;
  [...surface.body.children].forEach((tr, down) => {
    [...tr.children].forEach((cell, across) => {
      const row = rendered.top + down;
      const column = rendered.left + across;
      const inside = !!block && row >= block.top && row <= block.bottom && column >= block.left && column <= block.right;
      if (cell.getAttribute('aria-selected') !== String(inside)) cell.setAttribute('aria-selected', String(inside));
    });
  });
}
