import { countSurface, dressSurface, markSelection } from './aria.js';
import { fitColumns, rowHeightFor, scrollBarSize } from './layout.js';
import { startSurface } from './library.js';
import type { Corner, Surface } from './library.js';
import type { Block, SheetModel } from './model.js';
import { paintCell, paintHeading } from './paint.js';
import type { SheetOptions, SheetSelection } from './sheet.js';

export interface ViewOptions extends Pick<SheetOptions, 'container' | 'label' | 'maxVisibleRows'> {
  readonly id: string;
  readonly model: SheetModel;
  selected(): void;
  painted(): void;
  filled(target: Block): void;
}

/** The painted sheet: its frame in the container, the library's tables in it, sizes, and what is selected. */
export class SheetView {
  readonly frame = document.createElement('div');
  readonly surface: Surface;
  private readonly root = document.createElement('div');
  private readonly dragged = new Map<string, number>();
  private fitted: number[] = [];
  private rowHeight = 28;
  private started = false;
  private lookAgain = 0;

  constructor(private readonly options: ViewOptions) {
    const { frame, root } = this;
    const { model, container } = options;
    frame.className = 'sheet-frame';
    root.className = 'sheet-root';
    frame.append(root);
    container.append(frame);
    this.measure();
    // The library paints once while it starts: nobody is told before there is a surface to ask.
    this.surface = startSurface({
      root,
      columnCount: model.columns.length,
      columnWidth: (column) => this.fitted[column] ?? 50,
      rowHeight: () => this.rowHeight,
      paintCell: (element, row, column) => this.paint(element, row, column),
      paintHeading: (element, column) => paintHeading(element, model.columns[column]!, column),
      selected: () => this.started && options.selected(),
      painted: () => this.started && options.painted(),
      filled: (target) => options.filled(target),
    });
    dressSurface(this.surface, options.label);
  }

  /** The first painting, after which the callbacks come. */
  start(): void {
    this.started = true;
    this.showAll();
  }

  /** Rows or columns came, went or moved. */
  showAll(): void {
    const { surface } = this;
    const { model } = this.options;
    // Hidden and shown again within one frame, the frame's size has not changed for whoever observes it: look once more.
    if (!this.measure()) this.lookAgain = requestAnimationFrame(() => this.refresh());
    countSurface(surface, model.rows.length, model.columns.length);
    surface.setData(
      model.rows.map((_row, row) => model.columns.map((_column, column) => model.cell(row, column).text)),
      model.columns.length,
    );
  }

  /** The same rows and columns hold other cells: paints only those that differ, of those that are rendered. */
  showChanged(): void {
    const { top, left, bottom, right } = this.surface.rendered();
    for (let row = top; row <= bottom; row += 1) {
      for (let column = left; column <= right; column += 1) {
        const element = this.surface.cellAt(row, column);
        if (element) this.paint(element, row, column);
      }
    }
  }

  /** Measures and paints again; does nothing while there is no room. */
  refresh(): void {
    if (this.measure()) this.surface.repaint();
  }

  markSelection(): void {
    markSelection(this.surface, this.options.id);
  }

  /** The selection by ids, as the owner knows it. */
  selection(): SheetSelection | null {
    const { model } = this.options;
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

  /** Selects the block between two cells and scrolls to `head`, the page too where the sheet reaches beyond it. */
  go(anchor: Corner, head: Corner): void {
    this.surface.select(anchor, head, true);
    this.surface.cellAt(head.row, head.column)?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }

  takeFocus(): void {
    this.surface.holder.focus({ preventScroll: true });
  }

  /** The keyboard is on the cells, not in an editor's field or a menu. */
  get hasFocus(): boolean {
    return this.surface.holder.matches(':focus');
  }

  widthOf(column: number): number {
    return this.fitted[column]!;
  }

  drag(column: number, width: number): void {
    this.dragged.set(this.options.model.columns[column]!.id, width);
    this.refresh();
  }

  draggedWidths(): Readonly<Record<string, number>> {
    return Object.fromEntries(this.dragged);
  }

  destroy(): void {
    cancelAnimationFrame(this.lookAgain);
    this.surface.destroy();
    this.frame.remove();
  }

  /** Row height and column widths for the room there is; `false` while there is none. */
  private measure(): boolean {
    const { frame, root } = this;
    const { model, maxVisibleRows: most = 18 } = this.options;
    if (frame.clientWidth === 0) return false;
    const fontSize = parseFloat(getComputedStyle(frame).fontSize);
    this.rowHeight = rowHeightFor(fontSize);
    frame.style.setProperty('--_row', `${this.rowHeight}px`);
    const bar = scrollBarSize(frame);
    const room = frame.clientWidth - (model.rows.length > most ? bar : 0);
    this.fitted = fitColumns(model.columns, this.dragged, room, fontSize);
    const tooWide = this.fitted.reduce((sum, width) => sum + width, 0) > room;
    const rows = 1 + Math.max(1, Math.min(model.rows.length, most));
    root.style.height = `${rows * this.rowHeight + 1 + (tooWide ? bar : 0)}px`;
    root.style.overflow = 'hidden';
    return true;
  }

  private paint(element: HTMLTableCellElement, rowIndex: number, columnIndex: number): void {
    const { model, id } = this.options;
    const row = model.rows[rowIndex];
    const column = model.columns[columnIndex];
    if (!row || !column) return;
    paintCell(element, { row, rowIndex, column, columnIndex, cell: model.cell(rowIndex, columnIndex) }, id);
  }
}
