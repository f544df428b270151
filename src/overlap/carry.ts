import { compareWorks } from './precedence.js';
import { sameSteps } from './same.js';
import type { StepAt, Work } from './work.js';

/** One piece of teardown that is done, the lines that need it and the one that pays for it. */
export interface SharedStep {
  readonly step: StepAt;
  readonly carriedBy: string;
  /** In the order of the sheet. */
  readonly neededBy: readonly string[];
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
 * Rule 4: every piece of teardown is charged once, to the first line by precedence that needs it. What comes to the same as
 * before stays the same object.
 *
 * @param works works that are not included in others, in the order of the sheet
 * @param keys the pieces to look at; the others are as they were
 * @param before who carried what before
 */
export function carrySteps(works: readonly Work[], keys: ReadonlySet<string>, before: Carried): Carried {
  const found = findCarriers(works, keys);
  const changed = [...keys].filter((key) => !sameSteps(found.get(key), before.get(key)));
  if (changed.length === 0) return before;
  const carried = new Map(before);
  for (const key of changed) {
    const step = found.get(key);
    if (step === undefined) carried.delete(key);
    else carried.set(key, step);
  }
  return carried;
}

function findCarriers(works: readonly Work[], keys: ReadonlySet<string>): Carried {
  const found = new Map<string, { step: StepAt; carriedBy: string; neededBy: string[]; units: number }>();
  const carriers = new Map<string, Work>();
  for (const work of works) {
    for (const step of work.steps) {
      if (!keys.has(step.key)) continue;
      const units = work.needs.get(step.key)!;
      const known = found.get(step.key);
      if (known === undefined) {
        found.set(step.key, { step, carriedBy: work.line, neededBy: [work.line], units });
        carriers.set(step.key, work);
        continue;
      }
      known.neededBy.push(work.line);
      known.units += units;
      if (compareWorks(work, carriers.get(step.key)!) >= 0) continue;
      known.carriedBy = work.line;
      carriers.set(step.key, work);
    }
  }
  return found;
}
