import { type Decimal, sum, ZERO } from '../number/decimal.js';
import { carrySteps, type SharedStep } from './carry.js';
import type { CatalogueIndex } from './catalogue-index.js';
import { type Deduction, declaredDeductions } from './declared.js';
import { inclusions } from './includes.js';
import { byPrecedence } from './precedence.js';
import type { StepAt, Work } from './work.js';

/** What one line is charged for, and why not for all its book hours. `charged = book − shared`, always. */
export interface Share {
  readonly work: Work;
  readonly chargedHours: Decimal;
  readonly sharedHours: Decimal;
  /** The work of the line that this one is part of, or null. */
  readonly includedIn: Work | null;
  readonly carries: readonly StepAt[];
  readonly uses: readonly { readonly step: StepAt; readonly carriedBy: string }[];
}

/** How the works of an estimate share their teardown. */
export interface Sharing {
  /** By line id. */
  readonly shares: ReadonlyMap<string, Share>;
  readonly steps: readonly SharedStep[];
  readonly deductions: readonly Deduction[];
}

/**
 * Rules 4 to 6 put together: includes, carried steps, declared overlaps → charged hours.
 *
 * @param works one for each priced operation line, in the order of the sheet
 */
export function shareWork(works: readonly Work[], index: CatalogueIndex): Sharing {
  const ranked = byPrecedence(works);
  const included = inclusions(ranked, index);
  const charged = ranked.filter((work) => !included.has(work.operation.id));
  const carried = carrySteps(charged);
  const deductions = declaredDeductions(charged, index);
  const deducted = new Map(deductions.map((deduction) => [deduction.child.line, deduction.hours]));

  const shares = new Map<string, Share>();
  for (const work of works) {
    const outer = included.get(work.operation.id);
    shares.set(
      work.line,
      outer === undefined ? shareOf(work, carried, deducted.get(work.line) ?? ZERO) : includedShare(work, outer),
    );
  }
  return { shares, steps: [...carried.values()], deductions };
}

function shareOf(work: Work, carried: ReadonlyMap<string, SharedStep>, deducted: Decimal): Share {
  const uses = work.steps.map((step) => ({ step, carriedBy: carried.get(step.key)!.carriedBy.line }));
  const carries = uses.filter((use) => use.carriedBy === work.line).map((use) => use.step);
  const chargedHours = work.ownHours.plus(sum(carries.map((step) => step.indexed.hours))).minus(deducted);
  return { work, chargedHours, sharedHours: work.bookHours.minus(chargedHours), includedIn: null, carries, uses };
}

function includedShare(work: Work, outer: Work): Share {
  return { work, chargedHours: ZERO, sharedHours: work.bookHours, includedIn: outer, carries: [], uses: [] };
}
