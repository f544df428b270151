/** What a proof is, and how its cases are tried: in few by `npm test`, in many by `npm run prove`. */
import fc from 'fast-check';
import { type Drawing, drawing, drawingLongFigures, SHRINK_FOR } from '../support/arbitraries.js';

/** Counts what a case has met: each thing once for a case. */
export type Count = (what: string) => void;

/** Does a piece of work and takes its time. */
export type Timed = <T>(what: string, work: () => T) => T;

export interface Proof {
  /** As it is called on the command line. */
  readonly name: string;
  /** What is tried, in words. */
  readonly what: string;
  /** How many cases in the long form, and how many in `npm test`. */
  readonly cases: number;
  readonly few: number;
  /** Figures as long as the formats allow. */
  readonly long?: boolean;
  /** Tries one case and throws where it fails. */
  try(d: Drawing, count: Count, timed: Timed): void | Promise<void>;
  /** What more than so many of a hundred cases must meet, or the proof proves nothing of it. */
  readonly reach?: ReadonlyMap<string, number>;
}

/** A piece of work that took longer than a page may stand still. */
export interface SlowWork {
  /** In which case. */
  readonly at: number;
  readonly what: string;
  readonly milliseconds: number;
}

export interface Outcome {
  /** Cases that were tried; fewer than asked for where one failed. */
  readonly tried: number;
  readonly counts: ReadonlyMap<string, number>;
  /** What the smallest case that fails says, or null. */
  readonly fault: string | null;
  readonly slow: readonly SlowWork[];
}

/** No piece of work may take longer: milliseconds of processor time, which other work on the machine does not lengthen much. */
export const SLOWEST = 1000;

export interface Trial {
  readonly seed: number;
  readonly cases: number;
  /** Called before each case, with its place; what it returns is waited for. */
  readonly onCase?: (at: number) => void | Promise<void>;
}

/** Tries cases one after the other. The first that fails is made smaller for a while and ends it. */
export async function tryCases(proof: Proof, { seed, cases, onCase }: Trial): Promise<Outcome> {
  const draw = proof.long === true ? drawingLongFigures : drawing;
  const counts = new Map<string, number>();
  const slow: SlowWork[] = [];
  let tried = 0;
  let failedAt = Infinity;
  let fault: string | null = null;
  const property = fc.asyncProperty(fc.gen(), async (g) => {
    if (Date.now() - failedAt > SHRINK_FOR) return;
    const isSmaller = fault !== null;
    if (!isSmaller) await onCase?.(tried);
    const met = new Set<string>();
    const late: SlowWork[] = [];
    const timed: Timed = (what, work) =>
      watched(work, (milliseconds) => milliseconds > SLOWEST && late.push({ at: tried, what, milliseconds }));
    try {
      await proof.try(draw(g), (what) => met.add(what), timed);
    } catch (thrown) {
      failedAt = Math.min(failedAt, Date.now());
      fault = thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown);
      throw thrown;
    }
    if (isSmaller) return;
    slow.push(...late);
    tried += 1;
    for (const what of met) counts.set(what, (counts.get(what) ?? 0) + 1);
  });
  await fc.check(property, { numRuns: cases, seed });
  return { tried, counts, fault, slow };
}

/** Asking for processor time is dear, so it is only taken, with the work done again, where the clock looks bad. */
function watched<T>(work: () => T, told: (milliseconds: number) => void): T {
  const start = performance.now();
  const isLate = (): boolean => performance.now() - start > SLOWEST;
  const result = work();
  if (!(result instanceof Promise)) {
    if (isLate()) {
      const before = process.cpuUsage();
      work();
      told(since(before));
    }
    return result;
  }
  const again = async (): Promise<void> => {
    if (!isLate()) return;
    const before = process.cpuUsage();
    await work();
    told(since(before));
  };
  return result.finally(again) as T;
}

function since(before: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(before);
  return Math.round((user + system) / 1000);
}

/** A seed of its own for each stretch of the cases, so that one can be brought back alone. */
export function seedOfStretch(seed: number, stretch: number): number {
  return (seed + Math.imul(stretch, 0x9e3779b1)) | 0;
}
