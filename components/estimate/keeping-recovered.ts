import type { KeepingTasks, KeptSheetHost } from './keeping-host.js';
import type { Typed } from './keeping-text.js';
import { cellOf, fieldOf } from './keeping-typed.js';

/** What was being typed when the page went away, until a person has decided about it. */
export class Recovered {
  texts: readonly Typed[] = [];

  /** @param changed called when a person has decided about one of them */
  constructor(
    private readonly host: KeptSheetHost,
    private readonly desk: KeepingTasks,
    private readonly changed: () => void,
  ) {}

  /** Whether the place where a text was being typed is there. */
  canEnter(typed: Typed): boolean {
    return cellOf(typed) !== null || fieldOf(typed, this.host.shadowRoot!) !== null;
  }

  /** Puts a text where it was being typed. */
  enter(typed: Typed): void {
    const cell = cellOf(typed);
    const field = fieldOf(typed, this.host.shadowRoot!);
    if (cell !== null) {
      if (!this.desk.enter(cell.grid, cell.row, cell.column, typed.text)) {
        this.desk.announce('The row that it was typed in is gone. The text stays where it is.');
        return;
      }
    } else if (field !== null) {
      field.value = typed.text;
      field.dispatchEvent(new Event('change', { bubbles: true }));
    }
    this.forget(typed);
  }

  forget(typed: Typed): void {
    this.texts = this.texts.filter((each) => each !== typed);
    this.changed();
  }
}
