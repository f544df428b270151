import { decimal, printPlain, sum, ZERO } from '../number/decimal.js';
import type { GatheredPart } from '../pricing/parts-run.js';
import { type ApprovedWork, atPositions, lineWords } from './approved.js';
import type { PartUse } from './parts-plan.js';
import { sheetParts, type SheetParts } from './sheet-parts.js';
import { stepKey, unitsOf } from './units.js';

/** What parts are needed for. One line is charged for a shared step, but all that need the step need its parts. */
export class PartUses {
  private readonly placed: SheetParts;
  private readonly titles: ReadonlyMap<string, string>;

  constructor(private readonly work: ApprovedWork) {
    this.placed = sheetParts(unitsOf(work), work.priced, work.index);
    this.titles = new Map(work.estimate.lines.map((line) => [line.id, lineWords(line, work.index)]));
  }

  of(gathered: GatheredPart): PartUse[] {
    return [...gathered.lines].flatMap(([line, qty]) => {
      const steps = this.stepsOf(line, gathered);
      const own = qty.minus(sum(steps.map((use) => decimal(use.qty))));
      return own.isZero() ? steps : [{ title: this.titles.get(line)!, qty: printPlain(own), lines: [] }, ...steps];
    });
  }

  /** The steps that a line carries and that renew the part. */
  private stepsOf(line: string, { first }: GatheredPart): PartUse[] {
    const { priced, index } = this.work;
    return priced.overlap.steps.flatMap(({ step, position, title, carriedBy, lines }) => {
      if (carriedBy !== line) return [];
      const renewed = this.placed
        .renewedWith(stepKey(step, position, index))
        .filter(({ part, condition }) => part === first.part.id && condition === first.part.condition);
      const qty = sum(renewed.map((part) => decimal(part.qty)));
      if (qty.eq(ZERO)) return [];
      return [
        {
          title: atPositions(title, position === null ? [] : [position]),
          qty: printPlain(qty),
          lines: lines.map((id) => this.titles.get(id)!),
        },
      ];
    });
  }
}
