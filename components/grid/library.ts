/**
 * The one place that imports the grid library: handsontable 6.2.2, the last release under the MIT licence.
 *
 * It is asked for what it is good at: virtual rows and columns, a header that stays, selection by mouse and the
 * fill handle. Keys, editors, clipboard, menu, undo, column widths and the words for a screen reader are ours,
 * because the library's own reach for `document` and do not survive a shadow root. Only its core and one plugin
 * are imported, past its entry module, which would bring every cell type and a set of global polyfills.
 */
import Core from 'handsontable/es/core.js';
import { hasCaptionProblem } from 'handsontable/es/helpers/feature.js';
import 'handsontable/es/plugins/autofill/autofill.js';
import type { Block } from './model.js';

export interface SurfaceOptions {
  /** Becomes the library's own; nothing else may be put into it. */
  readonly root: HTMLElement;
  readonly columnCount: number;
  columnWidth(column: number): number;
  rowHeight(): number;
  paintCell(cell: HTMLTableCellElement, row: number, column: number): void;
  paintHeading(heading: HTMLTableCellElement, column: number): void;
  /** The selection moved, by mouse or by `select`. */
  selected(): void;
  /** The visible cells were painted again: other rows may be on the screen now. */
  painted(): void;
  /** The fill handle was drawn from the selected block over `target`. */
  filled(target: Block): void;
}

export interface Corner {
  readonly row: number;
  readonly column: number;
}

/** A block with a direction: `anchor` is the active cell, `head` the corner that Shift and an arrow move. */
export interface SurfaceSelection {
  readonly anchor: Corner;
  readonly head: Corner;
  readonly block: Block;
}

export interface Surface {
  /** The scrolling box, which takes the keyboard. */
  readonly holder: HTMLElement;
  readonly head: HTMLElement;
  readonly body: HTMLElement;
  readonly table: HTMLElement;
  /** Copies of the heading row that the library lays over the table. */
  readonly clones: readonly HTMLElement[];
  /** Tells how many rows and columns there are and paints them all; `texts` serve the fill handle only. */
  setData(texts: readonly (readonly string[])[], columnCount: number): void;
  repaint(): void;
  selection(): SurfaceSelection | null;
  /** Selects the block between two cells, and with `scroll` brings it into sight. */
  select(anchor: Corner, head: Corner, scroll: boolean): void;
  deselect(): void;
  cellAt(row: number, column: number): HTMLTableCellElement | null;
  rendered(): Block;
  pageRows(): number;
  destroy(): void;
}

export function startSurface(options: SurfaceOptions): Surface {
  askAboutCaptions();
  const data: (readonly string[])[] = [];
  /** Asked for before anything was painted, which the library cannot do: made good with the first painting. */
  let waiting: { anchor: Corner; head: Corner; scroll: boolean } | null = null;
  let columnCount = options.columnCount;
  const hot = new Core(options.root, {
    data,
    columns: emptyColumns(columnCount),
    colHeaders: true,
    // The line below the headings comes on top.
    modifyColumnHeaderHeight: () => options.rowHeight() - 1,
    colWidths: (column: number) => options.columnWidth(column),
    rowHeights: () => options.rowHeight(),
    renderer: (_hot: unknown, cell: HTMLTableCellElement, row: number, column: number) => options.paintCell(cell, row, column),
    // Replaces the library's own heading, which goes through innerHTML.
    afterGetColumnHeaderRenderers: (painters: unknown[]) => {
      painters.splice(0, painters.length, (column: number, heading: HTMLTableCellElement) => options.paintHeading(heading, column));
    },
    // The library never changes a cell by itself: a fill is reported, and its own change comes to nothing.
    editor: false,
    readOnly: true,
    fillHandle: { autoInsertRow: false },
    beforeAutofill: (start: Place, end: Place) => options.filled({ top: start.row, left: start.col, bottom: end.row, right: end.col }),
    selectionMode: 'range',
    outsideClickDeselects: false,
    viewportRowRenderingOffset: 8,
    viewportColumnRenderingOffset: 3,
    afterSelection: () => options.selected(),
    afterRender: () => options.painted(),
  });
  // The library would blur whatever has the focus, and from then on take every key that is pressed in the page.
  hot.listen = () => {};
  hot.init();
  quieten(hot);

  const { wtTable } = hot.view.wt;
  const select = (anchor: Corner, head: Corner, scroll: boolean): void => {
    waiting = hot.view.wt.drawn ? null : { anchor, head, scroll };
    if (!waiting) hot.selectCell(anchor.row, anchor.column, head.row, head.column, scroll, false);
    else options.selected();
  };
  const render = (): void => {
    hot.render();
    if (waiting && hot.view.wt.drawn) select(waiting.anchor, waiting.head, waiting.scroll);
  };
  return {
    holder: wtTable.holder,
    head: wtTable.THEAD,
    body: wtTable.TBODY,
    table: wtTable.TABLE,
    clones: [...options.root.querySelectorAll<HTMLElement>('[class*="ht_clone_"]')],
    setData(texts, columns) {
      data.splice(0, data.length, ...texts);
      hot.view.wt.wtViewport.containerWidth = null;
      if (columns !== columnCount) {
        columnCount = columns;
        hot.updateSettings({ columns: emptyColumns(columns) });
        quieten(hot);
      } else {
        render();
      }
    },
    repaint() {
      hot.view.wt.wtViewport.containerWidth = null;
      hot.view.wt.wtViewport.resetHasOversizedColumnHeadersMarked();
      render();
    },
    selection() {
      const range = hot.getSelectedRangeLast();
      if (waiting) return selectionOf(waiting.anchor, waiting.head);
      return range ? selectionOf({ row: range.from.row, column: range.from.col }, { row: range.to.row, column: range.to.col }) : null;
    },
    select,
    deselect() {
      waiting = null;
      hot.deselectCell();
    },
    cellAt(row, column) {
      if (!hot.view.wt.drawn) return null;
      const cell: unknown = hot.getCell(row, column);
      return cell instanceof HTMLTableCellElement ? cell : null;
    },
    rendered() {
      // Nothing was painted yet while the sheet is hidden.
      if (!hot.view.wt.drawn) return { top: 0, left: 0, bottom: -1, right: -1 };
      return {
        top: wtTable.getFirstRenderedRow(),
        left: wtTable.getFirstRenderedColumn(),
        bottom: wtTable.getLastRenderedRow(),
        right: wtTable.getLastRenderedColumn(),
      };
    },
    pageRows: () => Math.max(1, hot.countVisibleRows() - 1),
    destroy: () => hot.destroy(),
  };
}

/**
 * Before it measures anything the library asks, once for the page, whether the browser shares a fault of 2010
 * with table captions, and writes its test table through innerHTML, which Trusted Types forbid. Here it is asked
 * beforehand, with elements that take that text as plain text. We have no captions; any answer will do.
 */
function askAboutCaptions(): void {
  const own = Object.getOwnPropertyDescriptor(document, 'createElement');
  const create = document.createElement.bind(document);
  const createPlain = (name: string): HTMLElement =>
    Object.defineProperty(create(name), 'innerHTML', {
      set(this: HTMLElement, text: string) {
        this.textContent = text;
      },
    });
  Object.defineProperty(document, 'createElement', { value: createPlain, configurable: true });
  try {
    hasCaptionProblem();
  } finally {
    if (own) Object.defineProperty(document, 'createElement', own);
    else Reflect.deleteProperty(document, 'createElement');
  }
}

interface Place {
  readonly row: number;
  readonly col: number;
}

function selectionOf(anchor: Corner, head: Corner): SurfaceSelection {
  return {
    anchor,
    head,
    block: {
      top: Math.min(anchor.row, head.row),
      left: Math.min(anchor.column, head.column),
      bottom: Math.max(anchor.row, head.row),
      right: Math.max(anchor.column, head.column),
    },
  };
}

function emptyColumns(count: number): object[] {
  return Array.from({ length: count }, () => ({}));
}

/**
 * Takes away two things that the library listens to beyond its own elements. Its `mousedown` on the document
 * takes every press inside a shadow root for one outside the sheet, and paints anew for it. Its `wheel` stops
 * the page from scrolling while the pointer is over a sheet, on dense screens and outside Chromium.
 */
function quieten(hot: Core): void {
  remove(hot, (on, event) => on === document.documentElement && event === 'mousedown');
  remove(hot.view.wt, (_on, event) => event === 'wheel');
}

function remove(owner: Pick<Core, 'eventListeners'>, unwanted: (on: EventTarget, event: string) => boolean): void {
  owner.eventListeners = owner.eventListeners.filter(({ element, event, callbackProxy }) => {
    if (!unwanted(element, event)) return true;
    element.removeEventListener(event, callbackProxy);
    return false;
  });
}
