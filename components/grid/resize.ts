import { narrowestColumn } from './layout.js';

export interface ResizeOptions {
  readonly frame: HTMLElement;
  /** Ends the listening. */
  readonly signal: AbortSignal;
  /** The column index of a heading cell. */
  columnOf(heading: Element): number;
  widthOf(column: number): number;
  /** While dragging and at its end. */
  resize(column: number, width: number): void;
}

/** Lets a column be dragged wider and narrower by the grip at the end of its heading. */
export function resizeByGrip({ frame, signal, columnOf, widthOf, resize }: ResizeOptions): void {
  // The library would take the press for a selection of the whole column.
  frame.addEventListener('mousedown', (event) => gripUnder(event) && event.stopPropagation(), {
    capture: true,
    signal,
  });
  frame.addEventListener(
    'pointerdown',
    (event) => {
      const grip = gripUnder(event);
      const heading = grip?.closest('th');
      if (!grip || !heading || event.button !== 0) return;
      event.preventDefault();
      const column = columnOf(heading);
      const startWidth = widthOf(column);
      const startX = event.clientX;
      // The heading is painted anew while it is dragged, so the pointer is captured by the frame.
      frame.setPointerCapture(event.pointerId);
      frame.classList.add('sheet-resizing');
      const drag = (move: PointerEvent): void => resize(column, Math.max(narrowestColumn, Math.round(startWidth + move.clientX - startX)));
      const end = (): void => {
        frame.classList.remove('sheet-resizing');
        frame.removeEventListener('pointermove', drag);
        frame.removeEventListener('pointerup', end);
        frame.removeEventListener('pointercancel', end);
      };
      frame.addEventListener('pointermove', drag);
      frame.addEventListener('pointerup', end);
      frame.addEventListener('pointercancel', end);
    },
    { capture: true, signal },
  );
}

function gripUnder(event: Event): Element | null {
  return event.target instanceof Element ? event.target.closest('.sheet-grip') : null;
}
