import { placeByBox, showPopup } from './popup.js';
import type { SheetChoice } from './sheet.js';

/** Of more choices than this only the best are listed: nobody reads on, and typing narrows them. */
const mostListed = 100;

/**
 * The list below a type-ahead editor. The focus stays in the editor's field, which names the highlighted
 * choice by `aria-activedescendant` (combobox pattern of the WAI-ARIA Authoring Practices).
 */
export class ChoiceList {
  private readonly element = document.createElement('div');
  private choices: readonly SheetChoice[] = [];
  private highlighted = -1;
  private shown = false;

  constructor(
    private readonly popups: HTMLElement,
    private readonly field: HTMLInputElement,
    private readonly id: string,
    label: string,
    private readonly pick: (choice: SheetChoice) => void,
  ) {
    this.element.id = id;
    this.element.className = 'sheet-choices';
    this.element.setAttribute('role', 'listbox');
    this.element.setAttribute('aria-label', label);
    // Keeps the focus in the field; a press on the scroll bar must stay possible, so only options are held.
    this.element.addEventListener('mousedown', (event) => event.preventDefault());
    this.element.addEventListener('click', (event) => {
      const option = (event.target as Element).closest('[role="option"]');
      const choice = option && this.choices[[...this.element.children].indexOf(option)];
      if (choice) this.pick(choice);
    });
    field.setAttribute('role', 'combobox');
    field.setAttribute('aria-autocomplete', 'list');
    field.setAttribute('aria-expanded', 'false');
  }

  get open(): boolean {
    return this.shown;
  }

  /** The choice that Enter and Tab take, if any. */
  get taken(): SheetChoice | undefined {
    return this.shown ? this.choices[this.highlighted] : undefined;
  }

  owns(path: readonly EventTarget[]): boolean {
    return path.includes(this.element);
  }

  /** Lists `choices`, with the one at `highlighted` (or none, -1) ready to be taken. */
  show(choices: readonly SheetChoice[], highlighted: number): void {
    this.choices = choices.slice(0, mostListed);
    if (this.choices.length === 0) {
      this.hide();
      return;
    }
    this.element.replaceChildren(...this.choices.map((choice, index) => this.option(choice, index)));
    if (!this.shown) {
      showPopup(this.element, this.popups);
      this.shown = true;
      this.field.setAttribute('aria-expanded', 'true');
      this.field.setAttribute('aria-controls', this.id);
    }
    this.place();
    this.highlight(highlighted);
  }

  hide(): void {
    if (!this.shown) return;
    this.shown = false;
    this.highlighted = -1;
    this.element.remove();
    this.field.setAttribute('aria-expanded', 'false');
    this.field.removeAttribute('aria-controls');
    this.field.removeAttribute('aria-activedescendant');
  }

  place(): void {
    if (!this.shown) return;
    const box = this.field.getBoundingClientRect();
    this.element.style.minWidth = `${box.width}px`;
    placeByBox(this.element, box);
  }

  /**
   * One choice up or down. Down stays on the last, so that it can be pressed without looking; up from the first leads
   * back to the field's own text, and from there to the last.
   */
  move(by: 1 | -1): void {
    const last = this.choices.length - 1;
    const next = this.highlighted + by;
    this.highlight(next < -1 ? last : Math.min(next, last));
  }

  private highlight(index: number): void {
    const options = this.element.children;
    options[this.highlighted]?.setAttribute('aria-selected', 'false');
    this.highlighted = index;
    const option = options[index];
    option?.setAttribute('aria-selected', 'true');
    option?.scrollIntoView({ block: 'nearest' });
    if (option) this.field.setAttribute('aria-activedescendant', option.id);
    else this.field.removeAttribute('aria-activedescendant');
  }

  private option(choice: SheetChoice, index: number): HTMLElement {
    const option = document.createElement('div');
    option.id = `${this.id}-${index}`;
    option.setAttribute('role', 'option');
    option.setAttribute('aria-selected', 'false');
    const text = document.createElement('span');
    text.textContent = choice.text;
    option.append(text);
    if (choice.hint) {
      const hint = document.createElement('span');
      hint.className = 'sheet-choice-hint';
      hint.textContent = choice.hint;
      option.append(' ', hint);
    }
    return option;
  }
}

/**
 * Which choice Enter should take while `typed` stands in the field: the first, if it holds every word that was
 * typed; else none, so that words of one's own are not replaced by something merely similar.
 */
export function bestFor(typed: string, choices: readonly SheetChoice[]): number {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  const first = choices[0];
  if (!first || words.length === 0) return -1;
  const held = `${first.text} ${first.hint ?? ''}`.toLowerCase();
  return words.every((word) => held.includes(word)) ? 0 : -1;
}
