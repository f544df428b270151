import type { DecimalString } from '../../src/number/decimal.js';
import type { PricedLine, PricedStep } from '../../src/pricing/priced-estimate.js';
import { formatHours } from '../look/format.js';
import type { TeardownPlan } from './teardown.js';

/** Something in the picture that can be reached: what it says, the row that it stands in, and its line. */
export interface TeardownStop {
  readonly key: string;
  readonly row: number;
  readonly line: string;
  readonly name: string;
  /** Lines that have to do with it. */
  readonly lines: readonly string[];
}

/** Everything that can be reached, row by row: the steps that a row carries, its own work, what it includes, its joints. */
export function teardownStops(plan: TeardownPlan, locale: string): TeardownStop[] {
  const hours = (figure: DecimalString) => formatHours(figure, locale);
  return plan.rows.flatMap((row, at): TeardownStop[] => {
    const { line } = row;
    const stop = (key: string, of: PricedLine, name: string, lines: readonly string[] = [of.id]): TeardownStop => ({
      key,
      row: at,
      line: of.id,
      name,
      lines,
    });
    const steps = plan.steps.filter(({ step }) => step.carriedBy === line.id);
    const joints = plan.joints.filter(({ spared }) => spared.id === line.id);
    const less = row.deductedWidth === 0 ? '' : `, ${hours(row.deducted)} less for a declared overlap`;
    return [
      ...steps.map(({ mark, title, step }) => {
        const needed = step.lines.length === 1 ? 'needed by 1 line' : `needed by ${step.lines.length} lines`;
        const name = `${mark}: ${title}, ${hours(step.hours)}, ${needed}, carried by ${line.title}`;
        return stop(stepKey(step), line, name, step.lines);
      }),
      stop(
        `own ${line.id}`,
        line,
        `${line.title}, own work ${hours(row.own)}${less}, charged ${hours(line.chargedHours)} of ${hours(line.bookHours)}`,
      ),
      ...row.included.map(({ line: part }) =>
        stop(`included ${part.id}`, part, `${part.title}, included in ${line.title}, no hours charged`, [part.id, line.id]),
      ),
      ...joints.map((joint) => {
        const name = `Declared overlap, ${hours(joint.hours)}, paid by ${joint.payer.title}, not again by ${line.title}`;
        return stop(`joint ${joint.payer.id} ${line.id}`, line, name, [joint.payer.id, line.id]);
      }),
    ];
  });
}

/** Names a step's block, the same after the sheet has changed. */
export function stepKey({ step, position }: PricedStep): string {
  return `step ${step} ${position ?? ''}`;
}
