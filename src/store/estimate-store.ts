import type { Estimate } from '../documents/estimate.js';
import type { Command, PendingEntry, SheetState } from './commands.js';
import { reduce } from './reduce.js';
import { UndoStore } from './undo-store.js';

/**
 * Who owns what. The store owns the estimate while it is on the screen, and the entries that are not fit to be part of
 * it. It knows nothing of grids, prices or pages: grids send commands and paint what they are given; the pricer reads
 * the estimate; the page is told by events. One gesture (a typed cell, a pasted block) is one dispatch and one step of
 * undo, whichever grid it came from, so both grids and the job's head share one history.
 */
export class EstimateStore extends UndoStore<SheetState, Command> {
  constructor(estimate: Estimate, pending: ReadonlyMap<string, PendingEntry> = new Map()) {
    super({ estimate, pending }, reduce);
  }

  /** Another estimate from outside: a new history. */
  replace(estimate: Estimate, pending: ReadonlyMap<string, PendingEntry> = new Map()): void {
    this.begin({ estimate, pending });
  }
}
