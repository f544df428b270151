import type { Editing } from './editing.js';
import { CellHint } from './hint.js';
import { RowMenu } from './menu.js';
import type { SheetModel } from './model.js';
import { wordsFor } from './paint.js';
import { RowButton } from './row-button.js';
import type { SheetEvents } from './sheet.js';
import type { SheetView } from './view.js';
import { sizeOf } from './words.js';

export interface PointingOptions {
  readonly view: SheetView;
  readonly model: SheetModel;
  readonly editing: Editing;
  readonly popups: HTMLElement;
  readonly label: string;
  readonly events: SheetEvents;
  /** Ends the listening. */
  readonly signal: AbortSignal;
}

/** A hand that presses is never quite still: so many CSS pixels are not a drag yet. */
const STILL = 3;

/** The mouse on a sheet, and what stands above its cells: the hint, the row's button and the row menu. */
export class Pointing {
  readonly hint: CellHint;
  private readonly button: RowButton;
  private menu: RowMenu | null = null;
  /** Where the mouse was pressed, until it has been drawn away from there. */
  private pressedAt: { readonly x: number; readonly y: number } | null = null;

  constructor(private readonly options: PointingOptions) {
    const { view, popups, signal } = options;
    const { frame } = view;
    this.hint = new CellHint(popups);
    this.button = new RowButton(frame, (x, y) => this.openMenu({ x, y }));
    frame.addEventListener('mousedown', (event) => this.onPress(event), { signal });
    frame.addEventListener('mouseup', (event) => this.onRelease(event), { signal });
    frame.addEventListener('dblclick', (event) => this.onDoubleClick(event), { signal });
    frame.addEventListener('contextmenu', (event) => this.onContextMenu(event), { signal });
    // Before the library hears of it.
    frame.addEventListener('mouseover', (event) => this.onDrawn(event), { capture: true, signal });
    frame.addEventListener('mouseover', (event) => this.onHover(event), { signal });
    frame.addEventListener(
      'mouseleave',
      (event) => {
        if (!this.hint.owns(event.relatedTarget)) this.hint.hide();
      },
      { signal },
    );
  }

  /** Something was painted, scrolled or selected: the button goes with its row, the hint with the active cell. */
  follow(): void {
    this.placeButton();
    this.hintAtSelection();
  }

  hintAtSelection(): void {
    const { view, editing } = this.options;
    const place = view.surface.selection()?.anchor;
    const cell = place && view.surface.cellAt(place.row, place.column);
    const words = cell ? wordsFor(cell) : '';
    if (cell && words && view.hasFocus && !editing.active) this.hint.show(cell, words);
    else this.hint.hide();
  }

  /** Opens the row menu at a point, or at the active cell; `false` if there is nothing to choose. */
  openMenu(at: { x: number; y: number } | null): boolean {
    const { view, model, events, popups, label } = this.options;
    const selection = view.selection();
    const actions = selection ? events.actions(selection) : [];
    const place = view.surface.selection()?.anchor;
    if (!selection || !place || actions.length === 0) return false;
    const box = view.surface.cellAt(place.row, place.column)?.getBoundingClientRect();
    this.hint.hide();
    this.menu?.close(false);
    this.menu = new RowMenu({
      popups,
      label: model.rows[place.row]!.label || label,
      actions,
      x: at?.x ?? box?.left ?? 0,
      y: at?.y ?? box?.bottom ?? 0,
      act: (action) => events.act(action, selection),
      closed: (refocus) => {
        this.menu = null;
        if (refocus) view.takeFocus();
      },
    });
    return true;
  }

  destroy(): void {
    this.menu?.close(false);
    this.hint.hide();
  }

  private placeButton(): void {
    const { view, events } = this.options;
    const { surface } = view;
    const selection = view.selection();
    const row = surface.selection()?.anchor.row ?? -1;
    const cell = surface.cellAt(row, surface.rendered().left);
    if (!selection || !cell || events.actions(selection).length === 0) {
      this.button.hide();
      return;
    }
    const box = surface.holder.getBoundingClientRect();
    this.button.showIn(cell, box, box.top + surface.head.offsetHeight);
  }

  private onPress(event: MouseEvent): void {
    const { view, editing } = this.options;
    this.pressedAt = { x: event.clientX, y: event.clientY };
    this.hint.hide();
    // The library keeps a press on its cells from moving the focus.
    if (!editing.owns(event.composedPath())) view.takeFocus();
  }

  /**
   * The cells may move away under a mouse that is held, as when the press ends an entry above that makes a new row. The
   * browser then tells of another cell below the mouse, which the library would take for a block that is being drawn.
   */
  private onDrawn(event: MouseEvent): void {
    const { pressedAt } = this;
    if (pressedAt === null || event.buttons === 0) return;
    if (Math.hypot(event.clientX - pressedAt.x, event.clientY - pressedAt.y) <= STILL) event.stopPropagation();
    else this.pressedAt = null;
  }

  private onRelease(event: MouseEvent): void {
    const { view, events } = this.options;
    const block = view.surface.selection()?.block;
    if (event.button !== 0 || !block || !view.hasFocus) return;
    if (block.top !== block.bottom || block.left !== block.right) events.announce(`${sizeOf(block)} selected.`);
  }

  private onDoubleClick(event: MouseEvent): void {
    const { view, editing } = this.options;
    const place = view.surface.selection()?.anchor;
    if (place && event.target instanceof Element && event.target.closest('tbody td')) {
      editing.begin(place.row, place.column, null, true);
    }
  }

  private onContextMenu(event: MouseEvent): void {
    if (this.options.editing.owns(event.composedPath())) return;
    event.preventDefault();
    // The menu key has opened it already, and some systems send this event after it.
    if (this.menu) return;
    const byMouse = event.button === 2 || event.clientX > 0 || event.clientY > 0;
    this.openMenu(byMouse ? { x: event.clientX, y: event.clientY } : null);
  }

  private onHover(event: MouseEvent): void {
    const element = event.target instanceof Element ? event.target.closest('td, th') : null;
    const words = element ? wordsFor(element) : '';
    if (element && words && !this.options.editing.active && event.buttons === 0) this.hint.showSoon(element, words);
    else this.hint.hide();
  }
}
