import type { Typed } from './keeping-text.js';
import { isOpen, type OpenField, typedBy } from './keeping-typed.js';

export interface TypingEvents {
  /** What is being typed is another text now, or nothing any more. */
  typed(): void;
  /** Whether the sheet may only be read; says so to whoever tried to change it. */
  refuses(): boolean;
}

/** Watches the fields of a sheet, in whichever part of it they are: what is being typed, and that nothing is where nothing may be. */
export class Typing {
  private field: OpenField | null = null;

  constructor(
    private readonly host: HTMLElement,
    private readonly events: TypingEvents,
  ) {}

  /** What stands in the open field; null while nothing was typed into one. */
  get open(): Typed | null {
    return this.field?.typed ?? null;
  }

  listen(): void {
    this.host.addEventListener('input', this.onInput);
    this.host.addEventListener('focusin', this.onFocus);
    this.host.addEventListener('beforeinput', this.onTry, true);
    this.host.addEventListener('click', this.onTry, true);
  }

  unlisten(): void {
    this.host.removeEventListener('input', this.onInput);
    this.host.removeEventListener('focusin', this.onFocus);
    this.host.removeEventListener('beforeinput', this.onTry, true);
    this.host.removeEventListener('click', this.onTry, true);
  }

  /** Looks whether the field is open still: one whose text was entered is not, and must not be kept beside that. */
  look(): void {
    if (this.field !== null && !isOpen(this.field)) this.field = null;
  }

  forget(): void {
    this.field = null;
  }

  /** Enters what is being typed, as leaving the field does. */
  stop(): void {
    let active: Element | null = document.activeElement;
    if (active !== this.host) return;
    while (active?.shadowRoot?.activeElement) active = active.shadowRoot.activeElement;
    if (active instanceof HTMLInputElement || active instanceof HTMLTextAreaElement) active.blur();
  }

  private readonly onInput = (event: Event): void => {
    const open = typedBy(event, this.host);
    if (open === null) return;
    // Heard before the field's own listener: what is entered is not open any more.
    if (open.field !== this.field?.field) open.field.addEventListener('change', this.onEntered, { capture: true });
    this.field = open;
    this.events.typed();
  };

  private readonly onEntered = (event: Event): void => {
    if (event.target !== this.field?.field) return;
    this.field = null;
    // Where nothing was made of it, as after Escape, nobody else says so.
    queueMicrotask(() => this.events.typed());
  };

  /** The field was left: what became of it is saved together with that it is closed. */
  private readonly onFocus = (): void => {
    if (this.field === null) return;
    queueMicrotask(() => {
      if (this.field === null || isOpen(this.field)) return;
      this.field = null;
      this.events.typed();
    });
  };

  /** While the sheet may only be read, nothing is typed or ticked in it. What belongs to the keeping itself may be. */
  private readonly onTry = (event: Event): void => {
    const path = event.composedPath();
    const [target] = path;
    const isChoice =
      target instanceof HTMLSelectElement || (target instanceof HTMLInputElement && ['checkbox', 'radio'].includes(target.type));
    if (event.type === 'click' && !isChoice) return;
    if (path.some((each) => each instanceof Element && each.hasAttribute('data-not-kept'))) return;
    if (this.events.refuses()) event.preventDefault();
  };
}
