import type { Block, SheetModel } from './model.js';
import type { SheetEdit } from './sheet.js';

/** The longest text that a cell takes. Longer ones are cut, and the person is told. */
export const longestCell = 10_000;

/** The most rows that one paste may bring. */
export const mostPastedRows = 5_000;

/** What a gesture over a block comes to, and what had to be left out of it. */
export interface BlockEdits {
  readonly edits: readonly SheetEdit[];
  /** Cells that cannot be changed and so were passed over. */
  readonly skipped: number;
  /** Cells whose text was cut to `longestCell`. */
  readonly cut: number;
}

export interface PasteEdits extends BlockEdits {
  /** Where the pasted block lies, to be selected afterwards. */
  readonly area: Block;
  /** Columns beyond the right edge and rows beyond `mostPastedRows`, which were dropped. */
  readonly droppedColumns: number;
  readonly droppedRows: number;
}

class Collector {
  readonly edits: SheetEdit[] = [];
  skipped = 0;
  cut = 0;

  constructor(private readonly model: SheetModel) {}

  add(row: number, column: number, text: string): void {
    const { model } = this;
    const id = model.columns[column]!.id;
    const extra = row - model.rows.length;
    // A row that does not exist yet takes what the spare row takes: it is made from it.
    const like = extra >= 0 && model.rows.at(-1)?.level === 'spare' ? model.rows.length - 1 : row;
    if (like < model.rows.length && !model.canEdit(like, column)) {
      this.skipped += 1;
      return;
    }
    if (text.length > longestCell) this.cut += 1;
    const kept = text.slice(0, longestCell);
    this.edits.push(extra >= 0 ? { row: null, extra, column: id, text: kept } : { row: model.rows[row]!.id, column: id, text: kept });
  }
}

/** Empties the cells of a block that can be changed and are not empty already. */
export function clearEdits(model: SheetModel, block: Block): BlockEdits {
  const found = new Collector(model);
  eachCell(block, (row, column) => {
    if (!model.canEdit(row, column) || model.entry(row, column) !== '') found.add(row, column, '');
  });
  return found;
}

/** The same text in every cell of a block. */
export function sameEdits(model: SheetModel, block: Block, text: string): BlockEdits {
  const found = new Collector(model);
  eachCell(block, (row, column) => found.add(row, column, text));
  return found;
}

/**
 * Lays `cells` over the sheet from the block's first cell on. A block that is a whole number of copies high and
 * wide is filled with copies (one cell fills any block). Rows that run over the end become new rows.
 */
export function pasteEdits(model: SheetModel, block: Block, cells: readonly (readonly string[])[]): PasteEdits {
  const height = Math.min(cells.length, mostPastedRows);
  const width = Math.max(...cells.map((row) => row.length));
  const blockHeight = block.bottom - block.top + 1;
  const blockWidth = block.right - block.left + 1;
  const copies = blockHeight % height === 0 && blockWidth % width === 0;
  const area = {
    top: block.top,
    left: block.left,
    bottom: copies ? block.bottom : block.top + height - 1,
    right: Math.min(copies ? block.right : block.left + width - 1, model.columns.length - 1),
  };
  const found = new Collector(model);
  eachCell(area, (row, column) => {
    // A short line leaves the cells beyond it alone.
    const text = cells[(row - area.top) % height]![(column - area.left) % width];
    if (text !== undefined) found.add(row, column, text);
  });
  return {
    edits: found.edits,
    skipped: found.skipped,
    cut: found.cut,
    area,
    droppedColumns: copies ? 0 : Math.max(0, block.left + width - model.columns.length),
    droppedRows: cells.length - height,
  };
}

/** Repeats the entries of `source` over `target`, which lies beside, above or below it. */
export function fillEdits(model: SheetModel, source: Block, target: Block): BlockEdits {
  const found = new Collector(model);
  eachCell(target, (row, column) => {
    const from = model.entry(repeated(row, source.top, source.bottom), repeated(column, source.left, source.right));
    found.add(row, column, from);
  });
  return found;
}

/** The index between `first` and `last` that comes to lie on `index` when the stretch is laid end to end. */
function repeated(index: number, first: number, last: number): number {
  const length = last - first + 1;
  return first + ((((index - first) % length) + length) % length);
}

/** Fill down without a mouse: a block repeats its first row; a single row takes the row above it. */
export function fillDownEdits(model: SheetModel, block: Block): BlockEdits {
  const single = block.top === block.bottom;
  const from = single ? block.top - 1 : block.top;
  if (from < 0) return { edits: [], skipped: 0, cut: 0 };
  const source = { ...block, top: from, bottom: from };
  return fillEdits(model, source, { ...block, top: from + 1 });
}

function eachCell(block: Block, visit: (row: number, column: number) => void): void {
  for (let row = block.top; row <= block.bottom; row += 1) {
    for (let column = block.left; column <= block.right; column += 1) visit(row, column);
  }
}
