import type { Editing } from './editing.js';
import type { Gestures } from './gestures.js';
import { commandFor } from './keys.js';
import type { Command } from './keys.js';
import type { SheetModel } from './model.js';
import { targetOf } from './navigate.js';
import type { Pointing } from './pointing.js';
import type { SheetEvents } from './sheet.js';
import type { SheetView } from './view.js';
import { sizeOf } from './words.js';

export interface KeyboardOptions {
  readonly view: SheetView;
  readonly model: SheetModel;
  readonly editing: Editing;
  readonly gestures: Gestures;
  readonly pointing: Pointing;
  readonly events: Pick<SheetEvents, 'announce' | 'undo' | 'redo'>;
  /** Ends the listening. */
  readonly signal: AbortSignal;
  /** A key of ours was pressed. */
  began(): void;
}

/** The keys that are pressed while the keyboard is on the cells. */
export class Keyboard {
  /** After Escape the next Tab leaves the sheet, whatever the cell: nobody is held in it. */
  private tabLeaves = false;

  constructor(private readonly options: KeyboardOptions) {
    const { view, signal } = options;
    view.surface.holder.addEventListener('keydown', (event) => this.onKey(event), { signal });
  }

  /** The focus came or went. */
  forget(): void {
    this.tabLeaves = false;
  }

  /** Moves the selection; `false` where Tab would leave the sheet. */
  move(command: Command): boolean {
    const { view, model, events } = this.options;
    const { surface } = view;
    const selection = surface.selection();
    const target =
      selection &&
      targetOf(command, selection, {
        rows: model.rows.length,
        columns: model.columns.length,
        page: surface.pageRows(),
      });
    if (!target) return false;
    // A whole column or row is selected without scrolling to its end.
    if (command.do === 'select') surface.select(target.anchor, target.head, false);
    else view.go(target.anchor, target.head);
    const block = surface.selection()?.block;
    if (block && target.anchor !== target.head) events.announce(`${sizeOf(block)} selected.`);
    return true;
  }

  private onKey(event: KeyboardEvent): void {
    const command = commandFor(event);
    if (!command || !this.run(command, event.key)) return;
    event.preventDefault();
    event.stopPropagation();
  }

  /** Does what a key asks; `false` leaves the key to the browser and the page. */
  private run(command: Command, key: string): boolean {
    const { view, model, editing, gestures, pointing, events } = this.options;
    const leaves = this.tabLeaves;
    const place = view.surface.selection()?.anchor;
    this.tabLeaves = command.do === 'step' && leaves;
    this.options.began();
    if (command.do === 'undo' || command.do === 'redo') {
      events[command.do]();
      return true;
    }
    if (!place) return false;
    switch (command.do) {
      case 'edit':
        if (key === 'Enter' && !model.canEdit(place.row, place.column)) {
          return this.move({ do: 'move', rows: 1, columns: 0, extend: false });
        }
        pointing.hint.hide();
        editing.begin(place.row, place.column, command.begin, command.list);
        // A character goes on into the field that has just taken the focus.
        return command.begin === null || !editing.active;
      case 'clear':
        gestures.clear('clear');
        return true;
      case 'fill-down':
        gestures.fillDown();
        return true;
      case 'menu':
        return pointing.openMenu(null);
      case 'escape':
        return this.escape(leaves);
      default:
        return !(command.do === 'step' && leaves) && this.move(command);
    }
  }

  /** First puts the hint away, then lets the next Tab out of the sheet, then is the page's own key. */
  private escape(leaving: boolean): boolean {
    const { pointing, events } = this.options;
    if (pointing.hint.shown) {
      pointing.hint.hide();
      return true;
    }
    if (leaving) return false;
    this.tabLeaves = true;
    events.announce('Tab now leaves the sheet.');
    return true;
  }
}
