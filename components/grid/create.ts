import { countSurface, dressSurface, markSelection } from './aria.js';
import { listenToClipboard } from './clipboard.js';
import type { AfterEntry } from './editor.js';
import { Editing } from './editing.js';
import { Gestures } from './gestures.js';
import { CellHint } from './hint.js';
import { commandFor } from './keys.js';
import type { Command } from './keys.js';
import { fitColumns, rowHeightFor, scrollBarSize } from './layout.js';
import { startSurface } from './library.js';
import type { Corner, Surface, SurfaceSelection } from './library.js';
import { RowMenu } from './menu.js';
import { SheetModel } from './model.js';
import { commandAfter, targetOf } from './navigate.js';
import { paintCell, paintHeading, wordsFor } from './paint.js';
import { resizeByGrip } from './resize.js';
import { RowButton } from './row-button.js';
import type {
  CreateSheet,
  EditSource,
  Sheet,
  SheetColumn,
  SheetEdit,
  SheetOptions,
  SheetRow,
  SheetSelection,
} from './sheet.js';
import { sizeOf } from './words.js';

let created = 0;
/** The sheet that the person is in: when another takes over, this one lets go of its selection. */
let current: GridSheet | null = null;

/** Puts a sheet into `options.container` and starts listening. Several may stand in one page or one element. */
export const createSheet: CreateSheet = (options) => new GridSheet(options);

class GridSheet implements Sheet {
  private readonly id = `sheet-${(created += 1)}`;
  private readonly model = new SheetModel();
  private readonly frame = document.createElement('div');
  private readonly root = document.createElement('div');
  private readonly surface: Surface;
  private readonly gestures: Gestures;
  private readonly editing: Editing;
  private readonly hint: CellHint;
  private readonly watcher: ResizeObserver;
  private readonly rowButton: RowButton;
  private readonly life = new AbortController();
  private readonly dragged = new Map<string, number>();
  private fitted: number[] = [];
  private rowHeight = 28;
  private menu: RowMenu | null = null;
  /** Where the selection was when it was let go, to come back to. */
  private lastPlace: Corner = { row: 0, column: 0 };
  private lastSelection = '';
  /** After Escape the next Tab leaves the sheet, whatever the cell. */
  private tabLeaves = false;
  /** A typed spare row is about to become a row of its own: the selection stays on it (or goes below it). */
  private spareTyped: 'stay' | 'down' | null = null;

  constructor(private readonly options: SheetOptions) {
    const { frame, root, model, id } = this;
    const { container, popups, events } = options;
    model.set(options.rows, options.columns);
    frame.className = 'sheet-frame';
    root.className = 'sheet-root';
    frame.append(root);
    container.append(frame);
    this.measure();
    this.surface = startSurface({
      root,
      columnCount: options.columns.length,
      columnWidth: (column) => this.fitted[column] ?? 50,
      rowHeight: () => this.rowHeight,
      paintCell: (element, row, column) => this.paint(element, row, column),
      paintHeading: (element, column) => paintHeading(element, model.columns[column]!, column),
      selected: () => this.onSelected(),
      painted: () => this.onPainted(),
      filled: (target) => this.gestures.fillOver(target),
    });
    const { surface } = this;
    this.hint = new CellHint(popups);
    const edit = (edits: readonly SheetEdit[], source: EditSource): void => this.edit(edits, source);
    this.rowButton = new RowButton(frame, (x, y) => this.openMenu({ x, y }));
    this.gestures = new Gestures({ model, surface, edit, announce: (words) => events.announce(words) });
    this.editing = new Editing({
      id,
      frame,
      popups,
      model,
      surface,
      edit,
      events,
      enterAll: (text) => this.gestures.enterAll(text),
      done: (after) => this.afterEntry(after),
    });
    dressSurface(surface, options.label);
    this.showAll();
    this.listen();
    this.watcher = new ResizeObserver(() => this.refresh());
    this.watcher.observe(container);
  }

  // What the owner asks

  update(rows: readonly SheetRow[], columns: readonly SheetColumn[] = this.model.columns): void {
    if (this.life.signal.aborted) return;
    const before = { rows: this.model.rows, columns: this.model.columns };
    const selection = this.surface.selection();
    this.model.set(rows, columns);
    const sameShape =
      columns === before.columns &&
      rows.length === before.rows.length &&
      rows.every((row, index) => row.id === before.rows[index]!.id);
    if (sameShape) this.repaintRendered();
    else this.showAll();
    if (selection && !sameShape) this.reselect(selection, before.rows, before.columns);
    this.spareTyped = null;
    this.editing.follow();
  }

  focus(row: string, column?: string): void {
    if (this.life.signal.aborted) return;
    const rowIndex = this.model.indexOfRow(row);
    if (rowIndex < 0) return;
    this.editing.finish(true);
    const columnIndex = column === undefined ? this.place().column : this.model.indexOfColumn(column);
    this.select(rowIndex, Math.max(0, columnIndex));
    this.surface.holder.focus({ preventScroll: true });
  }

  refresh(): void {
    if (this.life.signal.aborted || !this.measure()) return;
    this.surface.repaint();
    this.editing.place();
  }

  widths(): Readonly<Record<string, number>> {
    return Object.fromEntries(this.dragged);
  }

  destroy(): void {
    if (this.life.signal.aborted) return;
    if (current === this) current = null;
    // Also for events that are on their way already, as after scrolling.
    this.life.abort();
    this.watcher.disconnect();
    this.menu?.close(false);
    this.editing.finish(false);
    this.hint.hide();
    this.surface.destroy();
    this.frame.remove();
  }

  /** Another sheet took over. */
  letGo(): void {
    this.editing.finish(true);
    const place = this.surface.selection()?.anchor;
    if (!place) return;
    this.lastPlace = place;
    this.lastSelection = '';
    this.surface.deselect();
    this.hint.hide();
    markSelection(this.surface, this.id);
    this.placeRowButton();
    this.options.events.select(null);
  }

  // Painting

  /** Row height and column widths for the room there is; `false` while there is none. */
  private measure(): boolean {
    const { frame, root, model, options } = this;
    const room = frame.clientWidth;
    if (room === 0) return false;
    const fontSize = parseFloat(getComputedStyle(frame).fontSize);
    this.rowHeight = rowHeightFor(fontSize);
    frame.style.setProperty('--_row', `${this.rowHeight}px`);
    const bar = scrollBarSize(frame);
    const most = options.maxVisibleRows ?? 18;
    const scrolls = model.rows.length > most;
    this.fitted = fitColumns(model.columns, this.dragged, room - (scrolls ? bar : 0), fontSize);
    const tooWide = this.fitted.reduce((sum, width) => sum + width, 0) > room - (scrolls ? bar : 0);
    const rows = Math.max(1, Math.min(model.rows.length, most)) + 1;
    root.style.height = `${rows * this.rowHeight + 1 + (tooWide ? bar : 0)}px`;
    root.style.overflow = 'hidden';
    return true;
  }

  private showAll(): void {
    const { model, surface } = this;
    this.measure();
    countSurface(surface, model.rows.length, model.columns.length);
    surface.setData(
      model.rows.map((_row, row) => model.columns.map((_column, column) => model.cell(row, column).text)),
      model.columns.length,
    );
  }

  private repaintRendered(): void {
    const { top, left, bottom, right } = this.surface.rendered();
    for (let row = top; row <= bottom; row += 1) {
      for (let column = left; column <= right; column += 1) {
        const element = this.surface.cellAt(row, column);
        if (element) this.paint(element, row, column);
      }
    }
  }

  private paint(element: HTMLTableCellElement, rowIndex: number, columnIndex: number): void {
    const { model } = this;
    const row = model.rows[rowIndex];
    const column = model.columns[columnIndex];
    if (!row || !column) return;
    paintCell(element, { row, rowIndex, column, columnIndex, cell: model.cell(rowIndex, columnIndex) }, this.id);
  }

  private onPainted(): void {
    // The library paints once while it starts, before there is a surface.
    if (!this.surface) return;
    markSelection(this.surface, this.id);
    this.placeRowButton();
    this.editing.place();
  }

  private placeRowButton(): void {
    const { surface, rowButton } = this;
    const selection = this.selection();
    const row = surface.selection()?.anchor.row ?? -1;
    const cell = surface.cellAt(row, surface.rendered().left);
    if (!selection || !cell || this.options.events.actions(selection).length === 0) rowButton.hide();
    else {
      const view = surface.holder.getBoundingClientRect();
      rowButton.showIn(cell, view, view.top + surface.head.offsetHeight);
    }
  }

  // Selection

  private place(): Corner {
    return this.surface.selection()?.anchor ?? this.lastPlace;
  }

  private select(row: number, column: number): void {
    const { rows, columns } = this.model;
    if (rows.length === 0 || columns.length === 0) return;
    const atRow = Math.min(row, rows.length - 1);
    const atColumn = Math.min(column, columns.length - 1);
    const place = { row: atRow, column: atColumn };
    this.surface.select(place, place, true);
    this.reveal(place);
  }

  /** Scrolls the page too, where the sheet reaches beyond it. */
  private reveal({ row, column }: Corner): void {
    this.surface.cellAt(row, column)?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }

  /** Keeps the selection on its rows, by id; by place on a spare row that has just been typed into. */
  private reselect(
    { anchor, head }: SurfaceSelection,
    rows: readonly SheetRow[],
    columns: readonly SheetColumn[],
  ): void {
    const { model } = this;
    if (model.rows.length === 0) {
      this.letGo();
      return;
    }
    const spare = this.spareTyped && rows[anchor.row]?.level === 'spare' ? this.spareTyped : null;
    const rowNow = (index: number): number => {
      if (spare) return Math.min(index + (spare === 'down' ? 1 : 0), model.rows.length - 1);
      const found = model.indexOfRow(rows[index]?.id ?? '');
      return found >= 0 ? found : Math.min(index, model.rows.length - 1);
    };
    const columnNow = (index: number): number => {
      const found = model.indexOfColumn(columns[index]?.id ?? '');
      return found >= 0 ? found : Math.min(index, model.columns.length - 1);
    };
    this.surface.select(
      { row: rowNow(anchor.row), column: columnNow(anchor.column) },
      { row: rowNow(head.row), column: columnNow(head.column) },
      spare === 'down',
    );
  }

  private onSelected(): void {
    if (!this.surface) return;
    if (current !== this) {
      current?.letGo();
      current = this;
    }
    markSelection(this.surface, this.id);
    this.placeRowButton();
    const selection = this.selection();
    const key = JSON.stringify(selection);
    if (!selection || key === this.lastSelection) return;
    this.lastSelection = key;
    this.options.events.select(selection);
    this.hintAtSelection();
  }

  private selection(): SheetSelection | null {
    const { model } = this;
    const found = this.surface.selection();
    const row = found && model.rows[found.anchor.row];
    const column = found && model.columns[found.anchor.column];
    if (!found || !row || !column) return null;
    const { block } = found;
    return {
      row: row.id,
      column: column.id,
      rows: model.rows.slice(block.top, block.bottom + 1).map(({ id }) => id),
      columns: model.columns.slice(block.left, block.right + 1).map(({ id }) => id),
    };
  }

  private hintAtSelection(): void {
    const { row, column } = this.place();
    const element = this.surface.cellAt(row, column);
    const words = element ? wordsFor(element) : '';
    if (words && element && this.onCells() && !this.editing.active) this.hint.show(element, words);
    else this.hint.hide();
  }

  private edit(edits: readonly SheetEdit[], source: EditSource): void {
    const spare = this.model.rows.at(-1);
    if (spare?.level === 'spare' && edits.some(({ row }) => row === spare.id)) this.spareTyped = 'stay';
    this.options.events.edit(edits, source);
  }

  // Keyboard, mouse, focus

  /** The keyboard is on the cells, not in an editor's field or a menu. */
  private onCells(): boolean {
    return this.surface.holder.matches(':focus');
  }

  private listen(): void {
    const { frame, surface, gestures } = this;
    const { holder } = surface;
    const { signal } = this.life;
    const on = <Name extends keyof HTMLElementEventMap>(
      element: HTMLElement,
      name: Name,
      handle: (event: HTMLElementEventMap[Name]) => void,
    ): void => element.addEventListener(name, handle, { signal });
    on(holder, 'keydown', (event) => this.onKey(event));
    on(holder, 'focus', () => this.onFocus());
    on(holder, 'scroll', () => this.onScroll());
    on(frame, 'focusout', (event) => this.onFocusOut(event));
    on(frame, 'mousedown', (event) => this.onPress(event));
    on(frame, 'mouseup', (event) => this.onRelease(event));
    on(frame, 'dblclick', (event) => this.onDoubleClick(event));
    on(frame, 'contextmenu', (event) => this.onContextMenu(event));
    on(frame, 'mouseover', (event) => this.onHover(event));
    on(frame, 'mouseleave', (event) => {
      if (!this.hint.owns(event.relatedTarget)) this.hint.hide();
    });
    listenToClipboard({
      frame,
      signal,
      onCells: () => this.onCells(),
      copied: () => gestures.copy(),
      cut: () => gestures.clear('cut'),
      pasted: (cells) => gestures.paste(cells),
    });
    resizeByGrip({
      frame,
      signal,
      columnOf: (heading) => Number(heading.getAttribute('aria-colindex')) - 1,
      widthOf: (column) => this.fitted[column]!,
      resize: (column, width) => {
        this.dragged.set(this.model.columns[column]!.id, width);
        this.refresh();
      },
    });
  }

  private onScroll(): void {
    // Another cell may lie under the pointer now; the one under the keyboard is known.
    this.hintAtSelection();
    this.placeRowButton();
    this.editing.place();
  }

  private onKey(event: KeyboardEvent): void {
    const command = commandFor(event);
    if (!command || !this.run(command, event)) return;
    event.preventDefault();
    event.stopPropagation();
  }

  /** Does what a key asks; `false` leaves the key to the browser and the page. */
  private run(command: Command, event: KeyboardEvent): boolean {
    const { events } = this.options;
    const selection = this.surface.selection();
    const leaves = this.tabLeaves;
    this.spareTyped = null;
    this.tabLeaves = command.do === 'step' && leaves;
    if (command.do === 'undo' || command.do === 'redo') {
      events[command.do]();
      return true;
    }
    if (!selection) return false;
    switch (command.do) {
      case 'edit': {
        const { row, column } = selection.anchor;
        const readOnlyEnter = event.key === 'Enter' && !this.model.canEdit(row, column);
        if (readOnlyEnter) return this.run({ do: 'move', rows: 1, columns: 0, extend: false }, event);
        this.hint.hide();
        this.editing.begin(row, column, command.begin, command.list);
        // A character goes on into the field that has just taken the focus.
        return command.begin === null || !this.editing.active;
      }
      case 'clear':
        this.gestures.clear('clear');
        return true;
      case 'fill-down':
        this.gestures.fillDown();
        return true;
      case 'menu':
        return this.openMenu(null);
      case 'escape':
        return this.onEscape(leaves);
      default: {
        if (command.do === 'step' && leaves) return false;
        const target = targetOf(command, selection, {
          rows: this.model.rows.length,
          columns: this.model.columns.length,
          page: this.surface.pageRows(),
        });
        if (!target) return false;
        this.surface.select(target.anchor, target.head, command.do !== 'select');
        if (command.do !== 'select') this.reveal(target.head);
        const block = this.surface.selection()?.block;
        if (block && target.anchor !== target.head) events.announce(`${sizeOf(block)} selected.`);
        return true;
      }
    }
  }

  /** First puts the hint away, then lets the next Tab out of the sheet, then is the page's own key. */
  private onEscape(leaving: boolean): boolean {
    if (this.hint.shown) {
      this.hint.hide();
      return true;
    }
    if (leaving) return false;
    this.tabLeaves = true;
    this.options.events.announce('Tab now leaves the sheet.');
    return true;
  }

  private afterEntry(after: AfterEntry): void {
    const { surface } = this;
    surface.holder.focus({ preventScroll: true });
    const selection = surface.selection();
    const command = commandAfter(after);
    if (!selection || !command) return;
    const target = targetOf(command, selection, {
      rows: this.model.rows.length,
      columns: this.model.columns.length,
      page: 1,
    });
    if (target) {
      surface.select(target.anchor, target.head, true);
      this.reveal(target.head);
    }
    // The new row below comes with the owner's next update, if it has not come yet.
    if (after === 'down' && this.spareTyped) this.spareTyped = 'down';
  }

  private onFocus(): void {
    this.tabLeaves = false;
    if (!this.surface.selection()) this.select(this.lastPlace.row, this.lastPlace.column);
    this.hintAtSelection();
  }

  private onFocusOut(event: FocusEvent): void {
    const to = event.relatedTarget as Node | null;
    // The window lost the focus, not the sheet.
    if (!to && !document.hasFocus()) return;
    if (to && (this.frame.contains(to) || this.options.popups.contains(to))) return;
    this.tabLeaves = false;
    this.hint.hide();
    this.editing.finish(true);
  }

  private onPress(event: MouseEvent): void {
    this.hint.hide();
    if (this.editing.owns(event.composedPath())) return;
    this.surface.holder.focus({ preventScroll: true });
  }

  private onDoubleClick(event: MouseEvent): void {
    const place = this.surface.selection()?.anchor;
    if (place && event.target instanceof Element && event.target.closest('tbody td')) {
      this.editing.begin(place.row, place.column, null, true);
    }
  }

  private onRelease(event: MouseEvent): void {
    const block = this.surface.selection()?.block;
    if (event.button === 0 && block && this.onCells() && (block.top !== block.bottom || block.left !== block.right)) {
      this.options.events.announce(`${sizeOf(block)} selected.`);
    }
  }

  private onHover(event: MouseEvent): void {
    const element = event.target instanceof Element ? event.target.closest('td, th') : null;
    const words = element ? wordsFor(element) : '';
    if (element && words && !this.editing.active && event.buttons === 0) this.hint.showSoon(element, words);
    else this.hint.hide();
  }

  // Row menu

  private onContextMenu(event: MouseEvent): void {
    if (this.editing.owns(event.composedPath())) return;
    event.preventDefault();
    if (this.menu) return;
    const byMouse = event.button === 2 || event.clientX > 0 || event.clientY > 0;
    this.openMenu(byMouse ? { x: event.clientX, y: event.clientY } : null);
  }

  private openMenu(at: { x: number; y: number } | null): boolean {
    const { events, popups } = this.options;
    const selection = this.selection();
    const actions = selection ? events.actions(selection) : [];
    if (!selection || actions.length === 0) return false;
    const { row, column } = this.place();
    const box = this.surface.cellAt(row, column)?.getBoundingClientRect();
    this.hint.hide();
    this.menu?.close(false);
    this.menu = new RowMenu({
      popups,
      label: this.model.rows[row]!.label || this.options.label,
      actions,
      x: at?.x ?? box?.left ?? 0,
      y: at?.y ?? box?.bottom ?? 0,
      act: (action) => events.act(action, selection),
      closed: (refocus) => {
        this.menu = null;
        if (refocus) this.surface.holder.focus({ preventScroll: true });
      },
    });
    return true;
  }
}
