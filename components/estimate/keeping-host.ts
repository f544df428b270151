import type { ReactiveControllerHost } from 'lit';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import type { Command, SheetState } from '../../src/store/commands.js';
import type { KeptSheet } from './keeping-text.js';

/** The sheet, as far as its keeping has to do with it. */
export interface KeptSheetHost extends ReactiveControllerHost, HTMLElement {
  /** The id of the estimate to open. */
  estimateId: string;
  /** Whether the address names the estimate that is open. */
  idInHash: boolean;
}

/** What the keeping asks of the sheet. */
export interface KeepingTasks {
  state(): SheetState | null;
  priced(): PricedEstimate | null;
  /** Puts a kept sheet in place of the one on the screen: a new history of undo. */
  show(kept: Pick<KeptSheet, 'estimate' | 'pending'>): void;
  /** Puts an empty estimate on the screen. */
  begin(): void;
  commit(commands: readonly Command[], what: string): void;
  /** Enters a text into a cell as if it had been typed there; false where there is no such cell. */
  enter(grid: string, row: string, column: string, text: string): boolean;
  announce(text: string): void;
}
