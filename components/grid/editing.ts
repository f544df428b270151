import { CellEditor } from './editor.js';
import type { AfterEntry } from './editor.js';
import type { Surface } from './library.js';
import type { SheetModel } from './model.js';
import type { EditSource, SheetEdit, SheetEvents } from './sheet.js';

export interface EditingOptions {
  readonly id: string;
  readonly frame: HTMLElement;
  readonly popups: HTMLElement;
  readonly model: SheetModel;
  readonly surface: Surface;
  readonly events: Pick<SheetEvents, 'announce' | 'choices'>;
  edit(edits: readonly SheetEdit[], source: EditSource): void;
  /** An entry was made with Control and Enter: it goes into every selected cell. */
  enterAll(text: string): void;
  /** The editor is closed and the entry handed on. */
  done(after: AfterEntry): void;
}

/** The one open editor of a sheet: which cell it belongs to, whatever happens to the rows around it. */
export class Editing {
  private open: { readonly editor: CellEditor; readonly row: string; readonly column: string } | null = null;

  private scrollers: readonly EventTarget[] = [];

  constructor(private readonly options: EditingOptions) {}

  get active(): boolean {
    return this.open !== null;
  }

  owns(path: readonly EventTarget[]): boolean {
    return !!this.open?.editor.owns(path);
  }

  /** Opens over a cell; `list` shows all choices of a type-ahead cell at once. */
  begin(row: number, column: number, begin: '' | null, list: boolean): void {
    const { frame, id, model, popups, events } = this.options;
    const { editor: kind } = model.cell(row, column);
    if (kind === 'none') {
      events.announce(`${model.nameOf(row, column)} cannot be changed here.`);
      return;
    }
    this.finish(true);
    const rowId = model.rows[row]!.id;
    const { id: columnId, align } = model.columns[column]!;
    const editor = new CellEditor({
      frame,
      popups,
      id,
      label: model.nameOf(row, column),
      align: align ?? 'start',
      entry: model.entry(row, column),
      begin,
      ...(kind === 'choice' && { choices: (typed: string) => events.choices(rowId, columnId, typed) }),
      cellBox: () => this.boxOf(rowId, columnId),
      entered: (text, after) => this.entered(text, after),
      escaped: () => {
        this.finish(false);
        this.options.done('stay');
      },
    });
    // For whoever sees to it that a text which is being typed is not lost.
    Object.assign(editor.field.dataset, { row: rowId, column: columnId });
    this.open = { editor, row: rowId, column: columnId };
    frame.classList.add('sheet-editing');
    document.addEventListener('mousedown', this.onPress, true);
    // A scroll event does not come out of the shadow root that it happens in.
    this.scrollers = [window, frame.getRootNode()];
    for (const scroller of this.scrollers) scroller.addEventListener('scroll', this.onScroll, true);
    if (list) editor.listAll();
  }

  /** Closes the editor. With `keep` what stands in its field becomes an edit, if it differs from the cell. */
  finish(keep: boolean): void {
    const { open } = this;
    if (!open) return;
    const text = open.editor.field.value;
    this.drop();
    if (keep) this.keep(open.row, open.column, text);
  }

  /** The rows changed: stays with its row, and says so if that is gone. */
  follow(): void {
    const { open, options } = this;
    if (!open) return;
    if (options.model.indexOfRow(open.row) >= 0 && options.model.indexOfColumn(open.column) >= 0) {
      open.editor.place();
      return;
    }
    const text = open.editor.field.value;
    this.finish(false);
    options.done('stay');
    options.events.announce(`The row being changed is gone. What was typed: ${text}`);
  }

  place(): void {
    this.open?.editor.place();
  }

  private entered(text: string, after: AfterEntry): void {
    const { open, options } = this;
    if (!open) return;
    this.drop(options.surface.holder);
    if (after === 'all') options.enterAll(text);
    else this.keep(open.row, open.column, text);
    options.done(after);
  }

  private drop(refocus?: HTMLElement): void {
    const { open, options } = this;
    this.open = null;
    document.removeEventListener('mousedown', this.onPress, true);
    for (const scroller of this.scrollers) scroller.removeEventListener('scroll', this.onScroll, true);
    options.frame.classList.remove('sheet-editing');
    // First the focus, then the field: else the focus falls to the page for a moment.
    refocus?.focus({ preventScroll: true });
    open?.editor.close();
  }

  private keep(row: string, column: string, text: string): void {
    const { model } = this.options;
    const rowIndex = model.indexOfRow(row);
    const columnIndex = model.indexOfColumn(column);
    if (rowIndex < 0 || columnIndex < 0 || model.entry(rowIndex, columnIndex) === text) return;
    this.options.edit([{ row, column, text }], 'type');
  }

  /**
   * A press anywhere else ends the editing and keeps what was typed, even where it moves no focus. A sheet takes a press
   * on its cells first: the entry may bring or move rows, and what was pressed is the row that was there before.
   */
  private readonly onPress = (event: Event): void => {
    const path = event.composedPath();
    if (this.owns(path)) return;
    const onCell = path[0] instanceof Element && path[0].closest('td') !== null;
    const sheet = onCell ? path.find((element) => element instanceof Element && element.matches('.sheet-frame')) : undefined;
    if (sheet) sheet.addEventListener('mousedown', () => this.finish(true), { once: true });
    else this.finish(true);
  };

  /** The page or the sheet scrolled: the list of choices, which stands in the viewport, goes along. */
  private readonly onScroll = (event: Event): void => {
    if (!this.owns(event.composedPath())) this.place();
  };

  private boxOf(row: string, column: string): { left: number; top: number; width: number; height: number } | null {
    const { frame, model, surface } = this.options;
    const cell = surface.cellAt(model.indexOfRow(row), model.indexOfColumn(column));
    if (!cell?.isConnected) return null;
    const box = cell.getBoundingClientRect();
    const view = surface.holder.getBoundingClientRect();
    const headBottom = surface.head.offsetHeight + view.top;
    if (box.bottom <= headBottom + 2 || box.top >= view.bottom - 2 || box.left >= view.right || box.right <= view.left) {
      return null;
    }
    const origin = frame.getBoundingClientRect();
    const left = Math.max(box.left, view.left);
    const right = Math.min(box.right, view.right);
    return {
      left: left - origin.left - frame.clientLeft - 1,
      top: box.top - origin.top - frame.clientTop - 1,
      width: right - left + 1,
      height: box.height + 1,
    };
  }
}
