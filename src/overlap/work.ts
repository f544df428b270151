import type { Operation } from '../documents/catalogue.js';
import type { OperationLine } from '../documents/lines.js';
import { type Decimal, decimal, max, sum, ZERO } from '../number/decimal.js';
import type { CatalogueIndex, IndexedStep } from './catalogue-index.js';

/** One piece of teardown: a step, and the position that it is done at (null for the whole vehicle). */
export interface StepAt {
  /** The same for every line that needs this very piece of teardown. */
  readonly key: string;
  readonly indexed: IndexedStep;
  readonly position: string | null;
}

/** What one operation line needs done, before anything is shared (rules 1 to 3). */
export interface Work {
  readonly line: string;
  readonly operation: Operation;
  readonly positions: readonly string[];
  readonly rate: Decimal;
  /** How often the operation is done: once for the vehicle, or once for each position. */
  readonly units: number;
  /** On its own, all units and extra hours together. */
  readonly bookHours: Decimal;
  /** What no other line can pay for: book hours without the steps, and the extra hours. */
  readonly ownHours: Decimal;
  /** The teardown that it needs, each piece once. */
  readonly steps: readonly StepAt[];
  /** By key: how many of its units need the piece. */
  readonly needs: ReadonlyMap<string, number>;
  /** Whether hours typed over the catalogue's are below the hours of the steps. */
  readonly belowSteps: boolean;
}

/**
 * The work of an operation line.
 *
 * @param rate what an hour of it costs
 */
export function workOf(line: OperationLine, operation: Operation, rate: Decimal, index: CatalogueIndex): Work {
  const steps = index.stepsOf.get(operation.id)!;
  const units = unitsOf(line, operation);
  const stepHours = sum(steps.map((step) => step.hours));

  let bookHours = decimal(line.extraHours?.hours ?? '0');
  let ownHours = bookHours;
  const found = new Map<string, StepAt>();
  const needs = new Map<string, number>();
  for (const unit of units) {
    const own = max(unit.hours.minus(stepHours), ZERO);
    ownHours = ownHours.plus(own);
    bookHours = bookHours.plus(own).plus(stepHours);
    for (const indexed of steps) {
      const step = stepAt(indexed, unit.position);
      found.set(step.key, step);
      needs.set(step.key, (needs.get(step.key) ?? 0) + 1);
    }
  }
  const belowSteps = units.some((unit) => unit.hours.lt(stepHours));
  const positions = line.positions;
  return {
    line: line.id,
    operation,
    positions,
    rate,
    units: units.length,
    bookHours,
    ownHours,
    steps: [...found.values()],
    needs,
    belowSteps,
  };
}

/** Rule 1: an operation for the vehicle is one unit, one for each position as many as there are positions. */
function unitsOf(line: OperationLine, operation: Operation): { position: string | null; hours: Decimal }[] {
  const hours = decimal(line.bookHours ?? operation.bookHours);
  if (operation.per === 'position') {
    const positions = line.positions.length === 0 ? [null] : line.positions;
    return positions.map((position) => ({ position, hours }));
  }
  const further = Math.max(1, line.positions.length) - 1;
  return [{ position: null, hours: hours.plus(decimal(operation.additionalHours).times(further)) }];
}

/** Rule 2: a step for each position is a separate piece of work at each position. */
function stepAt(indexed: IndexedStep, unitPosition: string | null): StepAt {
  if (indexed.step.per === 'vehicle') return { key: indexed.step.id, indexed, position: null };
  return { key: `${indexed.step.id}@${unitPosition ?? ''}`, indexed, position: unitPosition };
}
