import type { StepAt, Work } from './work.js';

/** One piece of teardown that is done, who needs it and who pays for it. */
export interface SharedStep {
  readonly step: StepAt;
  readonly carriedBy: Work;
  readonly neededBy: readonly Work[];
  /** How many units need it, over all lines. */
  readonly units: number;
}

/**
 * Rule 4: every piece of teardown is charged once, to the first line by precedence that needs it.
 *
 * @param ranked works that are not included in others, in order of precedence
 */
export function carrySteps(ranked: readonly Work[]): Map<string, SharedStep> {
  const found = new Map<string, { step: StepAt; carriedBy: Work; neededBy: Work[]; units: number }>();
  for (const work of ranked) {
    for (const step of work.steps) {
      const units = work.needs.get(step.key)!;
      const known = found.get(step.key);
      if (known === undefined) found.set(step.key, { step, carriedBy: work, neededBy: [work], units });
      else {
        known.neededBy.push(work);
        known.units += units;
      }
    }
  }
  return found;
}
