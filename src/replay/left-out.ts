import type { Problem } from '../documents/problem.js';

/** Which card an estimate cannot be priced with; `reading` where it is no estimate at all. */
export type LeftOutBy = 'reading' | 'before' | 'after' | 'both' | 'nothing-priced';

/** An estimate that has no part in the figures of either side. */
export interface LeftOut {
  /** Its place among those that were replayed, the first at 0. */
  readonly at: number;
  /** Empty where it could not be read. */
  readonly id: string;
  readonly number: string;
  readonly by: LeftOutBy;
  /** The errors behind it, the first few. */
  readonly problems: readonly Problem[];
}

export interface LeftOutReport {
  readonly count: number;
  /** How many by which card and for which kind of problem, the most frequent first. */
  readonly reasons: readonly { readonly by: LeftOutBy; readonly code: string; readonly count: number }[];
  /** The first of them. */
  readonly listed: readonly LeftOut[];
}

const MOST_LISTED = 50;
const MOST_PROBLEMS = 5;

/** Counts what is left out, and keeps the first few for show. */
export class LeftOutCounter {
  private count = 0;
  private readonly reasons = new Map<string, { by: LeftOutBy; code: string; count: number }>();
  private readonly listed: LeftOut[] = [];

  add(entry: LeftOut): void {
    this.count += 1;
    const code = entry.problems[0]?.code ?? entry.by;
    const reason = this.reasons.get(`${entry.by} ${code}`);
    if (reason === undefined) this.reasons.set(`${entry.by} ${code}`, { by: entry.by, code, count: 1 });
    else reason.count += 1;
    if (this.listed.length < MOST_LISTED) this.listed.push({ ...entry, problems: entry.problems.slice(0, MOST_PROBLEMS) });
  }

  report(): LeftOutReport {
    const reasons = [...this.reasons.values()].sort((a, b) => b.count - a.count);
    return { count: this.count, reasons: reasons.map((reason) => ({ ...reason })), listed: [...this.listed] };
  }
}
