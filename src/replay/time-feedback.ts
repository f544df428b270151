import type { Catalogue, Operation } from '../documents/catalogue.js';
import { type Decimal, decimal, type DecimalString, max, printPlain, sum, ZERO } from '../number/decimal.js';
import { roundToDigits } from '../number/rounding.js';
import { indexCatalogue } from '../overlap/catalogue-index.js';
import { type ChargedJobs, jobKey } from './charged-hours.js';
import type { BadRow, ClockedHours } from './clocked-hours.js';
import { quartile } from './quantile.js';

/** How long an operation takes here, beside what is charged for it. All in hours unless said otherwise. */
export interface OperationTime {
  readonly operation: string;
  readonly title: string;
  /** By the catalogue, on its own. */
  readonly bookHours: DecimalString;
  /** How often it was clocked. Rows of one operation in one estimate are one job. */
  readonly jobs: number;
  /** Of these, how many are set beside the catalogue's book hours, since no estimate says what was charged. */
  readonly byBook: number;
  readonly charged: DecimalString;
  readonly clocked: DecimalString;
  /** Charged ÷ clocked, to two places: below 1, more hours go in than are charged. */
  readonly ratio: DecimalString;
  /** Clocked − charged; below zero where hours are gained. */
  readonly lost: DecimalString;
  /** Of the clocked hours of a job, to a hundredth: the quartiles are by `quantile.ts`. */
  readonly spread: {
    readonly least: DecimalString;
    readonly lowerQuartile: DecimalString;
    readonly median: DecimalString;
    readonly upperQuartile: DecimalString;
    readonly most: DecimalString;
  };
  /** Null where there is nothing to propose. */
  readonly proposed: ProposedHours | null;
}

export interface ProposedHours {
  readonly bookHours: DecimalString;
  /** How many jobs it rests on. */
  readonly jobs: number;
  /** Whether the jobs were done in less than the catalogue's steps take, so that the steps' hours are proposed. */
  readonly heldBySteps: boolean;
}

export interface TimeFeedback {
  /** Those with the most jobs first. */
  readonly operations: readonly OperationTime[];
  /** At most ten, the one that loses most first. */
  readonly losing: readonly OperationTime[];
  /** Rows that could not be set beside anything. */
  readonly bad: readonly BadRow[];
}

/** Fewer jobs say too little. */
export const LEAST_JOBS = 5;
const MOST_LOSING = 10;

interface Job {
  readonly clocked: Decimal;
  readonly charged: Decimal;
  /** What it would have taken on its own, as far as that can be told. */
  readonly alone: Decimal | null;
  readonly byBook: boolean;
}

/**
 * Sets clocked hours beside charged ones, operation by operation, and proposes book hours. Nothing is changed.
 *
 * **What is proposed.** A job's hours on its own are its clocked hours plus the hours that were not charged since
 * another line paid for the same teardown. The proposal is their median, rounded half-up to a tenth of an hour, never
 * below the hours of the operation's steps, from at least `LEAST_JOBS` jobs; jobs at several positions, with extra
 * hours or with hours typed over the catalogue's say nothing about the book and are left aside.
 *
 * @param charged what estimates charge for these jobs; without it, and for rows that name no estimate that was found,
 *   the catalogue's book hours stand for it
 */
export function timeFeedback(rows: readonly ClockedHours[], catalogue: Catalogue, charged: ChargedJobs | null = null): TimeFeedback {
  const index = indexCatalogue(catalogue);
  const bad: BadRow[] = [];
  const jobs = new Map<string, Job[]>();
  for (const group of groupedRows(rows)) {
    const [{ operation: id, estimate, line }] = group as [ClockedHours];
    const operation = index.operations.get(id);
    if (operation === undefined) {
      bad.push({ line, reason: `The catalogue has no operation "${id}".` });
      continue;
    }
    const job = jobOf(sum(group.map(({ hours }) => decimal(hours))), operation, estimate, charged);
    if (job === null)
      bad.push(...group.map((row) => ({ line: row.line, reason: `Estimate "${estimate}" does not charge for "${operation.title}".` })));
    else if (jobs.has(id)) jobs.get(id)!.push(job);
    else jobs.set(id, [job]);
  }
  const operations = [...jobs]
    .map(([id, of]) => timeOf(index.operations.get(id)!, of, sum(index.stepsOf.get(id)!.map(({ hours }) => hours))))
    .sort((a, b) => b.jobs - a.jobs);
  const losing = operations
    .filter(({ lost }) => decimal(lost).gt(0))
    .sort((a, b) => decimal(b.lost).cmp(decimal(a.lost)))
    .slice(0, MOST_LOSING);
  return { operations, losing, bad: bad.sort((a, b) => a.line - b.line) };
}

/** The rows of each job: two people, or two days, may be clocked on for one. */
function groupedRows(rows: readonly ClockedHours[]): readonly (readonly ClockedHours[])[] {
  const groups = new Map<string, ClockedHours[]>();
  for (const [i, row] of rows.entries()) {
    const key = row.estimate === null ? `row ${i}` : `job ${jobKey(row.estimate, row.operation)}`;
    if (groups.has(key)) groups.get(key)!.push(row);
    else groups.set(key, [row]);
  }
  return [...groups.values()];
}

function jobOf(clocked: Decimal, operation: Operation, estimate: string | null, charged: ChargedJobs | null): Job | null {
  if (estimate === null || !charged?.estimates.has(estimate)) {
    return { clocked, charged: decimal(operation.bookHours), alone: clocked, byBook: true };
  }
  const job = charged.jobs.get(jobKey(estimate, operation.id));
  if (job === undefined) return null;
  const [book, paid] = [decimal(job.book), decimal(job.charged)];
  const tells = job.plain && paid.gt(ZERO);
  return { clocked, charged: paid, alone: tells ? clocked.plus(book).minus(paid) : null, byBook: false };
}

function timeOf(operation: Operation, jobs: readonly Job[], stepHours: Decimal): OperationTime {
  const charged = sum(jobs.map((job) => job.charged));
  const clocked = sum(jobs.map((job) => job.clocked));
  const sorted = rising(jobs.map((job) => job.clocked));
  return {
    operation: operation.id,
    title: operation.title,
    bookHours: operation.bookHours,
    jobs: jobs.length,
    byBook: jobs.filter((job) => job.byBook).length,
    charged: printPlain(charged),
    clocked: printPlain(clocked),
    ratio: charged.div(clocked).toFixed(2),
    lost: printPlain(clocked.minus(charged)),
    spread: {
      least: hundredths(sorted[0]!),
      lowerQuartile: hundredths(quartile(sorted, 1)),
      median: hundredths(quartile(sorted, 2)),
      upperQuartile: hundredths(quartile(sorted, 3)),
      most: hundredths(sorted.at(-1)!),
    },
    proposed: propose(operation, jobs, stepHours),
  };
}

function propose(operation: Operation, jobs: readonly Job[], stepHours: Decimal): ProposedHours | null {
  const alone = rising(jobs.flatMap((job) => (job.alone === null ? [] : [job.alone])));
  if (alone.length < LEAST_JOBS) return null;
  const median = roundToDigits(quartile(alone, 2), 1, 'half-up');
  const bookHours = max(median, stepHours);
  if (bookHours.eq(decimal(operation.bookHours))) return null;
  return { bookHours: printPlain(bookHours), jobs: alone.length, heldBySteps: stepHours.gt(median) };
}

function hundredths(hours: Decimal): DecimalString {
  return printPlain(roundToDigits(hours, 2, 'half-up'));
}

function rising(values: readonly Decimal[]): Decimal[] {
  return [...values].sort((a, b) => a.cmp(b));
}
