import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { createSheet, type Sheet, type SheetColumn, type SheetEvents, type SheetRow, type SheetSelection } from '../grid/index.js';

export interface GridOptions {
  /** Ids of the elements in the host's shadow root. */
  readonly container: string;
  readonly popups: string;
  readonly label: string;
  readonly columns: readonly SheetColumn[];
  readonly maxVisibleRows: number;
  readonly events: Omit<SheetEvents, 'select'>;
  /** The rows to paint now, the same list while nothing has changed; null while there is nothing to show. */
  rows(): readonly SheetRow[] | null;
}

/**
 * Keeps one grid in the host's shadow root: makes it when there is something to show, paints it after each update of
 * the host, takes it down with the host and makes it anew when the host comes back, wherever that is.
 */
export class GridController implements ReactiveController {
  /** Where the person is in this grid. */
  selection: SheetSelection | null = null;
  private sheet: Sheet | null = null;
  private painted: readonly SheetRow[] | null = null;

  constructor(
    private readonly host: ReactiveControllerHost & HTMLElement,
    private readonly options: GridOptions,
  ) {
    host.addController(this);
  }

  hostUpdated(): void {
    const here = this.host.isConnected && this.host.ownerDocument === document;
    const rows = here ? this.options.rows() : null;
    if (rows === null) this.takeDown();
    else if (this.sheet === null) this.make(rows);
    else if (rows !== this.painted) this.sheet.update(rows);
    this.painted = rows;
  }

  hostConnected(): void {
    // When a host comes back its template is there already, and nothing else would ask for an update.
    this.host.requestUpdate();
  }

  hostDisconnected(): void {
    this.takeDown();
  }

  focus(row: string, column?: string): void {
    this.sheet?.focus(row, column);
  }

  /** Enters a text into a cell as if it had been typed; false where there is no such row. */
  enter(row: string, column: string, text: string): boolean {
    if (!this.options.rows()?.some(({ id }) => id === row)) return false;
    this.focus(row, column);
    this.options.events.edit([{ row, column, text }], 'type');
    return true;
  }

  private make(rows: readonly SheetRow[]): void {
    const { container, popups, label, columns, maxVisibleRows, events } = this.options;
    const root = this.host.shadowRoot!;
    this.sheet = createSheet({
      container: root.getElementById(container)!,
      popups: root.getElementById(popups)!,
      label,
      columns,
      rows,
      maxVisibleRows,
      events: {
        ...events,
        select: (selection) => {
          this.selection = selection;
          this.host.requestUpdate();
        },
      },
    });
  }

  private takeDown(): void {
    this.sheet?.destroy();
    this.sheet = null;
    this.selection = null;
  }
}
