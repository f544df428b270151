import { placeAtPoint, showPopup } from './popup.js';
import type { SheetAction } from './sheet.js';

export interface MenuOptions {
  readonly popups: HTMLElement;
  readonly label: string;
  readonly actions: readonly SheetAction[];
  readonly x: number;
  readonly y: number;
  act(action: string): void;
  /** The menu is gone. `refocus` unless the person went elsewhere by themselves. */
  closed(refocus: boolean): void;
}

/** The row menu (menu pattern of the WAI-ARIA Authoring Practices). Takes the focus until it closes. */
export class RowMenu {
  private readonly element = document.createElement('div');
  private open = true;

  constructor(private readonly options: MenuOptions) {
    const { element } = this;
    element.className = 'sheet-menu';
    element.setAttribute('role', 'menu');
    element.setAttribute('aria-label', options.label);
    element.append(...options.actions.map(menuItem));
    element.addEventListener('keydown', this.onKey);
    element.addEventListener('click', this.onClick);
    element.addEventListener('focusout', this.onFocusOut);
    element.addEventListener('contextmenu', (event) => event.preventDefault());
    document.addEventListener('mousedown', this.onOutside, true);
    showPopup(element, options.popups);
    placeAtPoint(element, options.x, options.y);
    this.focus(0);
  }

  owns(path: readonly EventTarget[]): boolean {
    return path.includes(this.element);
  }

  close(refocus: boolean): void {
    if (!this.open) return;
    this.open = false;
    document.removeEventListener('mousedown', this.onOutside, true);
    // First the focus, then the element: else the focus falls to the page for a moment.
    this.options.closed(refocus);
    this.element.remove();
  }

  private get items(): HTMLElement[] {
    return [...this.element.children] as HTMLElement[];
  }

  private focus(index: number): void {
    const { items } = this;
    items[(index + items.length) % items.length]?.focus();
  }

  private run(item: Element | null | undefined): void {
    const action = item && this.options.actions[this.items.indexOf(item as HTMLElement)];
    if (!action || action.disabled) return;
    this.close(true);
    this.options.act(action.id);
  }

  private readonly onClick = (event: Event): void => this.run((event.target as Element).closest('[role="menuitem"]'));

  private readonly onOutside = (event: Event): void => {
    if (!this.owns(event.composedPath())) this.close(false);
  };

  private readonly onFocusOut = (event: FocusEvent): void => {
    if (!event.relatedTarget || !this.element.contains(event.relatedTarget as Node)) {
      if (document.hasFocus()) this.close(false);
    }
  };

  private readonly onKey = (event: KeyboardEvent): void => {
    const { items } = this;
    const at = items.findIndex((item) => item.matches(':focus'));
    switch (event.key) {
      case 'ArrowDown':
        this.focus(at + 1);
        break;
      case 'ArrowUp':
        this.focus(at - 1);
        break;
      case 'Home':
        this.focus(0);
        break;
      case 'End':
        this.focus(-1);
        break;
      case 'Enter':
      case ' ':
        this.run(items[at]);
        break;
      case 'Escape':
      case 'Tab':
        this.close(true);
        break;
      default:
        if (event.key.length !== 1 || event.ctrlKey || event.metaKey) return;
        this.focusByLetter(event.key, at);
    }
    event.preventDefault();
    event.stopPropagation();
  };

  /** The next entry that begins with the letter. */
  private focusByLetter(letter: string, at: number): void {
    const { items } = this;
    const order = [...items.slice(at + 1), ...items.slice(0, at + 1)];
    order.find((item) => item.textContent?.toLowerCase().startsWith(letter.toLowerCase()))?.focus();
  }
}

function menuItem(action: SheetAction): HTMLElement {
  const item = document.createElement('div');
  item.setAttribute('role', 'menuitem');
  item.tabIndex = -1;
  if (action.disabled) item.setAttribute('aria-disabled', 'true');
  const title = document.createElement('span');
  title.textContent = action.title;
  item.append(title);
  if (action.keys) {
    const keys = document.createElement('span');
    keys.className = 'sheet-menu-keys';
    keys.textContent = action.keys;
    item.append(' ', keys);
  }
  return item;
}
