import { placeByBox, showPopup } from './popup.js';

/** How long the pointer must rest before a hint comes up, in milliseconds. */
const restingTime = 350;

/**
 * The words behind a marked cell. They come at once where the keyboard is and after a moment where the pointer
 * rests, stay while it does, and go with Escape (WCAG 2.2, 1.4.13). A screen reader has them from the cell.
 */
export class CellHint {
  private readonly element = document.createElement('div');
  private timer = 0;
  private under: Element | null = null;

  constructor(private readonly popups: HTMLElement) {
    this.element.className = 'sheet-hint';
    this.element.setAttribute('role', 'tooltip');
    this.element.addEventListener('mouseleave', () => this.hide());
  }

  get shown(): boolean {
    return this.element.isConnected;
  }

  /** After a moment, unless `hide` comes first. */
  showSoon(cell: Element, words: string): void {
    if (this.under === cell) return;
    this.hide();
    this.under = cell;
    this.timer = window.setTimeout(() => this.show(cell, words), restingTime);
  }

  show(cell: Element, words: string): void {
    this.hide();
    this.under = cell;
    this.element.textContent = words;
    showPopup(this.element, this.popups);
    placeByBox(this.element, cell.getBoundingClientRect(), 4);
    addEventListener('scroll', this.follow, true);
  }

  readonly hide = (): void => {
    clearTimeout(this.timer);
    removeEventListener('scroll', this.follow, true);
    this.under = null;
    this.element.remove();
  };

  /** The page scrolled: stays by its cell as long as that can be seen. */
  private readonly follow = (): void => {
    const box = this.under?.getBoundingClientRect();
    if (box && box.bottom > 0 && box.top < innerHeight) placeByBox(this.element, box, 4);
    else this.hide();
  };

  owns(target: EventTarget | null): boolean {
    return target instanceof Node && this.element.contains(target);
  }
}
