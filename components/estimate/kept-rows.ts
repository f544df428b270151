import type { SheetRow } from '../grid/sheet.js';
import type { SheetView } from './context.js';
import { type LineParts, rowsOfLine } from './line-rows.js';

interface Kept {
  readonly parts: LineParts;
  readonly rows: readonly SheetRow[];
}

/**
 * Makes the rows of a line, or hands back those of the last time where nothing that they show has changed: the pricer
 * keeps what it printed of an unchanged line, so looking at the objects is enough.
 */
export class KeptRows {
  private kept = new Map<string, Kept>();
  private made: Pick<SheetView, 'rates' | 'catalogue' | 'state'> | null = null;

  readonly of = (parts: LineParts, view: SheetView): readonly SheetRow[] => {
    const before = this.kept.get(parts.line.id);
    if (before !== undefined && sameParts(before.parts, parts)) return before.rows;
    const rows = rowsOfLine(parts, view);
    this.kept.set(parts.line.id, { parts, rows });
    return rows;
  };

  /** To be called before each round: forgets what hangs on more than the line. */
  begin(view: SheetView): void {
    const { made } = this;
    const same =
      made !== null && made.rates === view.rates && made.catalogue === view.catalogue && made.state.pending === view.state.pending;
    if (!same) this.kept = new Map();
    this.made = view;
  }
}

function sameParts(a: LineParts, b: LineParts): boolean {
  return (
    a.line === b.line &&
    a.priced === b.priced &&
    a.note === b.note &&
    a.charges.length === b.charges.length &&
    a.charges.every((charge, i) => charge === b.charges[i])
  );
}
