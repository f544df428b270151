/**
 * Shows an element above everything else: in the top layer where the browser has one, so that no ancestor of
 * the host clips it and its position is measured from the viewport.
 */
export function showPopup(element: HTMLElement, popups: HTMLElement): void {
  element.classList.add('sheet-popup');
  if ('popover' in element) element.popover = 'manual';
  popups.append(element);
  element.showPopover?.();
}

/** Below `anchor`, or above it where there is more room; never outside the viewport. */
export function placeByBox(element: HTMLElement, anchor: DOMRect, gap = 2): void {
  element.style.maxHeight = '';
  const below = innerHeight - anchor.bottom - gap;
  const above = anchor.top - gap;
  const height = element.offsetHeight;
  const up = height > below && above > below;
  element.style.maxHeight = `${Math.max(48, up ? above : below)}px`;
  move(element, anchor.left, up ? Math.max(0, above - element.offsetHeight) : anchor.bottom + gap);
}

/** With its corner at a point (a click), pushed inside the viewport. */
export function placeAtPoint(element: HTMLElement, x: number, y: number): void {
  move(element, x, Math.max(0, Math.min(y, innerHeight - element.offsetHeight - 4)));
}

function move(element: HTMLElement, x: number, y: number): void {
  const left = Math.max(0, Math.min(x, innerWidth - element.offsetWidth - 4));
  element.style.left = `${left}px`;
  element.style.top = `${y}px`;
}
