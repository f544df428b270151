import { bestFor, ChoiceList } from './choices.js';
import { longestCell } from './edits.js';
import type { SheetChoice } from './sheet.js';

/** Where the selection goes once an entry is made. `all` puts the entry into every selected cell. */
export type AfterEntry = 'stay' | 'up' | 'down' | 'left' | 'right' | 'next' | 'previous' | 'all';

export interface EditorOptions {
  /** The positioned element that the field is laid over. */
  readonly frame: HTMLElement;
  readonly popups: HTMLElement;
  readonly id: string;
  /** "row label, column title" */
  readonly label: string;
  readonly align: 'start' | 'end';
  /** What the cell holds now. */
  readonly entry: string;
  /** `null` goes on from the entry with the caret at its end; `''` begins anew, as typing on a cell does. */
  readonly begin: '' | null;
  /** Given for a type-ahead cell: what to list while a text stands in the field. */
  readonly choices?: (typed: string) => readonly SheetChoice[];
  /** The cell's box relative to `frame`, or `null` while it is scrolled away. */
  cellBox(): { left: number; top: number; width: number; height: number } | null;
  /** The person is done. The editor is closed by its owner, who decides where the focus goes. */
  entered(text: string, after: AfterEntry): void;
  escaped(): void;
}

/** An open field over one cell. */
export class CellEditor {
  readonly field: HTMLInputElement | HTMLTextAreaElement;
  private readonly list: ChoiceList | null;
  /** Begun by typing, arrows leave the cell; begun by F2, Enter or a double click they move in the text. */
  private arrowsLeave: boolean;

  constructor(private readonly options: EditorOptions) {
    this.arrowsLeave = options.begin !== null;
    const field = options.choices ? document.createElement('input') : document.createElement('textarea');
    this.field = field;
    field.className = 'sheet-field';
    field.dataset['align'] = options.align;
    field.setAttribute('aria-label', options.label);
    field.setAttribute('autocomplete', 'off');
    field.spellcheck = false;
    field.maxLength = longestCell;
    field.value = options.begin ?? options.entry;
    this.list =
      field instanceof HTMLInputElement
        ? new ChoiceList(options.popups, field, `${options.id}-choices`, options.label, (choice) => options.entered(choice.text, 'stay'))
        : null;
    field.addEventListener('keydown', (event) => this.onKey(event as KeyboardEvent));
    field.addEventListener('input', () => this.onInput());
    options.frame.append(field);
    this.place();
    field.focus({ preventScroll: true });
    field.setSelectionRange(field.value.length, field.value.length);
  }

  /** Shows everything that may be chosen, with what the cell holds highlighted. */
  listAll(): void {
    const choices = this.options.choices?.('') ?? [];
    this.list?.show(
      choices,
      choices.findIndex((choice) => choice.text === this.field.value),
    );
  }

  /** Lies over the cell again after scrolling, resizing or new rows. */
  place(): void {
    const { field } = this;
    const box = this.options.cellBox();
    field.classList.toggle('sheet-field-away', box === null);
    if (!box) {
      // Where it lay it could make the page wider than its window.
      field.style.left = '0px';
      return;
    }
    field.style.left = `${box.left}px`;
    field.style.top = `${box.top}px`;
    field.style.width = `${box.width}px`;
    field.style.height = `${box.height}px`;
    if (field instanceof HTMLTextAreaElement && field.scrollHeight > field.clientHeight) {
      field.style.height = `${Math.min(field.scrollHeight + 4, box.height * 8)}px`;
    }
    this.list?.place();
  }

  owns(path: readonly EventTarget[]): boolean {
    return path.includes(this.field) || !!this.list?.owns(path);
  }

  close(): void {
    this.list?.hide();
    this.field.remove();
  }

  private onInput(): void {
    const typed = this.field.value;
    const choices = this.options.choices?.(typed);
    if (choices) this.list?.show(choices, bestFor(typed, choices));
    this.place();
  }

  private onKey(event: KeyboardEvent): void {
    // An input method has the key; its Enter accepts characters, not the entry.
    if (event.isComposing || event.keyCode === 229) return;
    if (this.handles(event)) {
      event.preventDefault();
      event.stopPropagation();
    }
  }

  private handles(event: KeyboardEvent): boolean {
    const { options, list } = this;
    const finish = (after: AfterEntry): true => {
      options.entered(list?.taken?.text ?? this.field.value, after);
      return true;
    };
    const leave = (after: AfterEntry): boolean => {
      if (!this.arrowsLeave || event.shiftKey || event.ctrlKey || event.metaKey || event.altKey) return false;
      options.entered(this.field.value, after);
      return true;
    };
    switch (event.key) {
      case 'Enter':
        if (event.altKey && this.field instanceof HTMLTextAreaElement) return this.breakLine();
        if (event.ctrlKey || event.metaKey) return finish('all');
        return finish(event.shiftKey ? 'up' : 'down');
      case 'Tab':
        return finish(event.shiftKey ? 'previous' : 'next');
      case 'Escape':
        if (list?.open) list.hide();
        else options.escaped();
        return true;
      case 'F2':
        this.arrowsLeave = !this.arrowsLeave;
        return true;
      case 'ArrowDown':
      case 'ArrowUp': {
        const down = event.key === 'ArrowDown';
        if (list && event.altKey) {
          if (down) this.listAll();
          else list.hide();
          return true;
        }
        if (list?.open) {
          list.move(down ? 1 : -1);
          return true;
        }
        return leave(down ? 'down' : 'up');
      }
      case 'ArrowLeft':
        return leave('left');
      case 'ArrowRight':
        return leave('right');
      default:
        return false;
    }
  }

  private breakLine(): true {
    const { field } = this;
    field.setRangeText('\n', field.selectionStart ?? 0, field.selectionEnd ?? 0, 'end');
    this.place();
    return true;
  }
}
