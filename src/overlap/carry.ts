import { compareWorks } from './precedence.js';
import type { StepAt, Work } from './work.js';

/** One piece of teardown that is done, who needs it and who pays for it. */
export interface SharedStep {
  readonly step: StepAt;
  readonly carriedBy: Work;
  /** In the order of the sheet. */
  readonly neededBy: readonly Work[];
  /** How many units need it, over all lines. */
  readonly units: number;
}

/** Teardown by the key of each piece. */
export type Carried = ReadonlyMap<string, SharedStep>;

/** The keys of all teardown that some works need. */
export function stepKeys(works: readonly Work[]): Set<string> {
  const keys = new Set<string>();
  for (const work of works) for (const step of work.steps) keys.add(step.key);
  return keys;
}

/**
 * Rule 4: every piece of teardown is charged once, to the first line by precedence that needs it.
 *
 * @param works works that are not included in others, in the order of the sheet
 * @param keys the pieces to look at; the others are as they were
 * @param before who carried what before
 */
export function carrySteps(works: readonly Work[], keys: ReadonlySet<string>, before: Carried): Carried {
  const carried = new Map(before);
  for (const key of keys) carried.delete(key);
  for (const [key, step] of findCarriers(works, keys)) carried.set(key, step);
  return carried;
}

function findCarriers(works: readonly Work[], keys: ReadonlySet<string>): Carried {
  const found = new Map<string, { step: StepAt; carriedBy: Work; neededBy: Work[]; units: number }>();
  for (const work of works) {
    for (const step of work.steps) {
      if (!keys.has(step.key)) continue;
      const units = work.needs.get(step.key)!;
      const known = found.get(step.key);
      if (known === undefined) {
        found.set(step.key, { step, carriedBy: work, neededBy: [work], units });
        continue;
      }
      known.neededBy.push(work);
      known.units += units;
      if (compareWorks(work, known.carriedBy) < 0) known.carriedBy = work;
    }
  }
  return found;
}
