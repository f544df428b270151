import type { Proposal } from '../../src/findings/propose-lines.js';
import type { CatalogueIndex } from '../../src/overlap/catalogue-index.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import type { RateIndex } from '../../src/pricing/rate-index.js';
import { cellKey, type Command, type SheetState } from '../../src/store/commands.js';
import { reduce } from '../../src/store/reduce.js';
import type { SheetCell } from '../grid/sheet.js';

/** What entries are read against. */
export interface Reference {
  readonly catalogue: CatalogueIndex;
  readonly rates: RateIndex;
  readonly locale: string;
}

/** All that the rows of both grids are made from. */
export interface SheetView extends Reference {
  readonly state: SheetState;
  readonly priced: PricedEstimate;
  readonly proposal: Proposal;
}

/** A cell that only shows. */
export function shown(text: string, more: Partial<SheetCell> = {}): SheetCell {
  return { text, editor: 'none', ...more };
}

/** A cell with an entry of the person: what cannot be used stays in it, with the reason. */
export function entered(view: SheetView, row: string, column: string, cell: SheetCell): SheetCell {
  const pending = view.state.pending.get(cellKey(row, column));
  return pending === undefined ? cell : { ...cell, text: pending.text, edit: pending.text, invalid: pending.reason };
}

/** What one entry comes to: commands, or the reason why it cannot be used. */
export type Outcome = { readonly commands: readonly Command[] } | { readonly reason: string };

/**
 * Carries out the edits of one gesture one after the other, so that each sees what the ones before it did. An entry that
 * cannot be used is kept in its cell; one that can takes the place of what stood there before.
 */
export class Gesture {
  readonly commands: Command[] = [];
  /** Reasons why entries could not be used. */
  readonly refused: string[] = [];

  constructor(public state: SheetState) {}

  run(...commands: Command[]): void {
    for (const command of commands) {
      this.commands.push(command);
      this.state = reduce(this.state, command);
    }
  }

  enter(row: string, column: string, text: string, outcome: Outcome): void {
    const key = cellKey(row, column);
    if ('reason' in outcome) {
      this.refused.push(outcome.reason);
      this.run({ do: 'pend', key, entry: { text, reason: outcome.reason } });
      return;
    }
    if (this.state.pending.has(key)) this.run({ do: 'pend', key, entry: null });
    this.run(...outcome.commands);
  }
}
