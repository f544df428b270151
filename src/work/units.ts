import type { Operation } from '../documents/catalogue.js';
import type { OperationLine } from '../documents/lines.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import type { PricedLine } from '../pricing/priced-estimate.js';
import type { ApprovedWork } from './approved.js';

/** An approved operation, or what of it is done at one position. */
export interface Unit {
  readonly line: OperationLine;
  readonly operation: Operation;
  readonly positions: readonly string[];
  /** The first unit of its line tells what belongs to the line as a whole. */
  readonly first: boolean;
  /** Keys of the steps that must be open. */
  readonly needs: ReadonlySet<string>;
}

/** A step at its position, as a key: the same for all that need this very piece of teardown. */
export function stepKey(step: string, position: string | null, index: CatalogueIndex): string {
  return index.steps.get(step)!.step.per === 'vehicle' ? step : `${step}@${position ?? ''}`;
}

/** What a key was made from. */
export function readStepKey(key: string): { step: string; position: string | null } {
  const at = key.indexOf('@');
  if (at < 0) return { step: key, position: null };
  return { step: key.slice(0, at), position: key.slice(at + 1) || null };
}

/** The keys of the steps that a step needs directly, where it is done. */
export function neededBefore(key: string, index: CatalogueIndex): string[] {
  const { step, position } = readStepKey(key);
  return index.steps.get(step)!.step.needs.map((need) => stepKey(need, position, index));
}

/** The units of all approved operations that can be worked out, in the order of the sheet; not those that others include. */
export function unitsOf({ estimate, index, priced }: ApprovedWork): Unit[] {
  const pricedLines = new Map(priced.lines.map((line) => [line.id, line]));
  return estimate.lines.flatMap((line) => {
    const figures = pricedLines.get(line.id);
    if (line.kind !== 'operation' || !figures?.priced || figures.includedIn !== null) return [];
    return unitsOfLine(line, figures, index);
  });
}

function unitsOfLine(line: OperationLine, { uses }: PricedLine, index: CatalogueIndex): Unit[] {
  const operation = index.operations.get(line.operation)!;
  const needsAt = (wanted: (position: string | null) => boolean): Set<string> =>
    new Set(uses.filter((use) => wanted(use.position)).map((use) => stepKey(use.step, use.position, index)));
  if (operation.per === 'vehicle' || line.positions.length === 0) {
    return [{ line, operation, positions: line.positions, first: true, needs: needsAt(() => true) }];
  }
  return line.positions.map((position, i) => ({
    line,
    operation,
    positions: [position],
    first: i === 0,
    needs: needsAt((at) => at === null || at === position),
  }));
}
