/**
 * As much of the grid library (release 6.2.2) as `library.ts` uses. The library's own declarations cover its
 * full build only; we import its modules one by one, which leaves three quarters of it out of the bundle.
 */
declare module 'handsontable/es/core.js' {
  interface Coords {
    row: number;
    col: number;
  }

  interface Range {
    readonly from: Coords;
    readonly to: Coords;
    readonly highlight: Coords;
  }

  interface Listener {
    readonly element: EventTarget;
    readonly event: string;
    readonly callbackProxy: EventListener;
  }

  interface Listeners {
    eventListeners: Listener[];
  }

  interface Painter extends Listeners {
    readonly drawn: boolean;
    readonly wtTable: {
      readonly holder: HTMLElement;
      readonly THEAD: HTMLElement;
      readonly TBODY: HTMLElement;
      readonly TABLE: HTMLElement;
      getFirstRenderedRow(): number;
      getLastRenderedRow(): number;
      getFirstRenderedColumn(): number;
      getLastRenderedColumn(): number;
      getCoords(cell: Element): Coords | null;
    };
    readonly wtViewport: { containerWidth: number | null; resetHasOversizedColumnHeadersMarked(): void };
    update(setting: string, value: unknown): void;
  }

  export default class Core implements Listeners {
    constructor(root: HTMLElement, settings: Record<string, unknown>);
    eventListeners: Listener[];
    forceFullRender: boolean;
    listen: () => void;
    readonly view: { readonly wt: Painter };
    init(): void;
    render(): void;
    destroy(): void;
    deselectCell(): void;
    countVisibleRows(): number;
    getCell(row: number, column: number): HTMLTableCellElement | null | undefined;
    getSelectedRangeLast(): Range | undefined;
    selectCell(row: number, column: number, endRow: number, endColumn: number, scroll: boolean, listen: boolean): boolean;
    scrollViewportTo(row: number, column: number): boolean;
    updateSettings(settings: Record<string, unknown>): void;
  }
}

declare module 'handsontable/es/plugins/autofill/autofill.js';

declare module 'handsontable/es/helpers/feature.js' {
  export function hasCaptionProblem(): boolean;
}
