import { listenToClipboard } from './clipboard.js';
import type { AfterEntry } from './editor.js';
import { Editing } from './editing.js';
import { Gestures } from './gestures.js';
import { Keyboard } from './keyboard.js';
import type { Corner, Surface } from './library.js';
import { SheetModel } from './model.js';
import { commandAfter, selectionAfter } from './navigate.js';
import type { SpareEntry } from './navigate.js';
import { Pointing } from './pointing.js';
import { resizeByGrip } from './resize.js';
import type { CreateSheet, EditSource, Sheet, SheetColumn, SheetEdit, SheetOptions, SheetRow } from './sheet.js';
import { SheetView } from './view.js';

let created = 0;
/** The sheet that the person is in: when another takes over, this one lets go of its selection. */
let current: GridSheet | null = null;

function takeOver(sheet: GridSheet): void {
  if (current === sheet) return;
  current?.letGo();
  current = sheet;
}

/** Puts a sheet into `options.container` and starts listening. Several may stand in one page or one element. */
export const createSheet: CreateSheet = (options) => new GridSheet(options);

class GridSheet implements Sheet {
  private readonly model = new SheetModel();
  private readonly view: SheetView;
  private readonly surface: Surface;
  private readonly gestures: Gestures;
  private readonly editing: Editing;
  private readonly pointing: Pointing;
  private readonly keyboard: Keyboard;
  private readonly watcher: ResizeObserver;
  private readonly life = new AbortController();
  /** Where the selection was when it was let go, to come back to. */
  private lastPlace: Corner = { row: 0, column: 0 };
  private lastSelection = '';
  private spareEntry: SpareEntry = null;

  constructor(private readonly options: SheetOptions) {
    const { model } = this;
    const { container, popups, label, events } = options;
    const { signal } = this.life;
    const id = `sheet-${(created += 1)}`;
    const edit = (edits: readonly SheetEdit[], source: EditSource): void => this.edit(edits, source);
    model.set(options.rows, options.columns);
    this.view = new SheetView({
      id,
      model,
      container,
      label,
      maxVisibleRows: options.maxVisibleRows,
      selected: () => this.onSelected(),
      painted: () => this.onPainted(),
      filled: (target) => this.gestures.fillOver(target),
    });
    const { view } = this;
    this.surface = view.surface;
    const { surface } = this;
    this.gestures = new Gestures({ model, surface, edit, announce: (words) => events.announce(words) });
    this.editing = new Editing({
      id,
      frame: view.frame,
      popups,
      model,
      surface,
      edit,
      events,
      enterAll: (text) => this.gestures.enterAll(text),
      done: (after) => this.afterEntry(after),
    });
    this.pointing = new Pointing({ view, model, editing: this.editing, popups, label, events, signal });
    this.keyboard = new Keyboard({
      view,
      model,
      editing: this.editing,
      gestures: this.gestures,
      pointing: this.pointing,
      events,
      signal,
      began: () => {
        this.spareEntry = null;
      },
    });
    this.listen();
    view.start();
    this.watcher = new ResizeObserver(() => this.refresh());
    this.watcher.observe(container);
  }

  // What the owner asks. A call that comes after the end, as from an update that was on its way, does nothing.

  update(rows: readonly SheetRow[], columns: readonly SheetColumn[] = this.model.columns): void {
    if (this.life.signal.aborted) return;
    const before = { rows: this.model.rows, columns: this.model.columns };
    const selection = this.surface.selection();
    this.model.set(rows, columns);
    const sameShape =
      columns === before.columns && rows.length === before.rows.length && rows.every((row, index) => row.id === before.rows[index]!.id);
    if (sameShape) {
      this.view.showChanged();
    } else {
      this.view.showAll();
      const target = selection && selectionAfter(selection, before, this.model, this.spareEntry);
      if (target) this.surface.select(target.anchor, target.head, this.spareEntry === 'down');
      else if (selection) this.letGo();
    }
    this.spareEntry = null;
    this.editing.follow();
    this.pointing.follow();
  }

  focus(row: string, column?: string): void {
    const rowIndex = this.model.indexOfRow(row);
    if (this.life.signal.aborted || rowIndex < 0) return;
    this.editing.finish(true);
    const here = this.surface.selection()?.anchor ?? this.lastPlace;
    this.selectCell(rowIndex, column === undefined ? here.column : this.model.indexOfColumn(column));
    this.view.takeFocus();
  }

  refresh(): void {
    if (!this.life.signal.aborted) this.view.refresh();
  }

  widths(): Readonly<Record<string, number>> {
    return this.view.draggedWidths();
  }

  destroy(): void {
    if (this.life.signal.aborted) return;
    if (current === this) current = null;
    // Stops events too that are on their way already, as after scrolling.
    this.life.abort();
    this.watcher.disconnect();
    this.editing.finish(false);
    this.pointing.destroy();
    this.view.destroy();
  }

  /** Another sheet took over, or there is nothing left to select. */
  letGo(): void {
    this.editing.finish(true);
    const place = this.surface.selection()?.anchor;
    if (!place) return;
    this.lastPlace = place;
    this.lastSelection = '';
    this.surface.deselect();
    this.view.markSelection();
    this.pointing.follow();
    this.options.events.select(null);
  }

  // What the surface tells

  private onSelected(): void {
    takeOver(this);
    this.view.markSelection();
    this.pointing.follow();
    const selection = this.view.selection();
    const key = JSON.stringify(selection);
    if (!selection || key === this.lastSelection) return;
    this.lastSelection = key;
    this.options.events.select(selection);
  }

  private onPainted(): void {
    this.view.markSelection();
    this.pointing.follow();
    this.editing.place();
  }

  private edit(edits: readonly SheetEdit[], source: EditSource): void {
    const spare = this.model.rows.at(-1);
    if (spare?.level === 'spare' && edits.some(({ row }) => row === spare.id)) this.spareEntry = 'stay';
    this.options.events.edit(edits, source);
  }

  // Keyboard and focus

  private listen(): void {
    const { view, surface, gestures } = this;
    const { signal } = this.life;
    const { frame } = view;
    const { holder } = surface;
    holder.addEventListener('focus', () => this.onFocus(), { signal });
    holder.addEventListener('scroll', () => this.onPainted(), { signal });
    frame.addEventListener('focusout', (event) => this.onFocusOut(event), { signal });
    listenToClipboard({
      frame,
      signal,
      onCells: () => view.hasFocus,
      copied: () => gestures.copy(),
      cut: () => gestures.clear('cut'),
      pasted: (cells) => gestures.paste(cells),
    });
    resizeByGrip({
      frame,
      signal,
      columnOf: (heading) => Number(heading.getAttribute('aria-colindex')) - 1,
      widthOf: (column) => view.widthOf(column),
      resize: (column, width) => view.drag(column, width),
    });
  }

  private afterEntry(after: AfterEntry): void {
    const command = commandAfter(after);
    this.view.takeFocus();
    if (command) this.keyboard.move(command);
    // The new row below comes with the owner's next update, if it has not come yet.
    if (after === 'down' && this.spareEntry) this.spareEntry = 'down';
  }

  private selectCell(row: number, column: number): void {
    const { rows, columns } = this.model;
    if (rows.length === 0 || columns.length === 0) return;
    const place = {
      row: Math.min(row, rows.length - 1),
      column: Math.max(0, Math.min(column, columns.length - 1)),
    };
    this.view.go(place, place);
  }

  private onFocus(): void {
    this.keyboard.forget();
    if (!this.surface.selection()) this.selectCell(this.lastPlace.row, this.lastPlace.column);
    this.pointing.follow();
  }

  private onFocusOut(event: FocusEvent): void {
    const to = event.relatedTarget as Node | null;
    // The window lost the focus, not the sheet.
    if (!to && !document.hasFocus()) return;
    if (to && (this.view.frame.contains(to) || this.options.popups.contains(to))) return;
    this.keyboard.forget();
    this.pointing.hint.hide();
    this.editing.finish(true);
  }
}
