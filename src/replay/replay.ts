import type { Catalogue } from '../documents/catalogue.js';
import { type Estimate, parseEstimate } from '../documents/estimate.js';
import { error, hasErrors, type Problem } from '../documents/problem.js';
import { DECIMAL_PATTERN, decimal, type DecimalString } from '../number/decimal.js';
import type { MoneyRule } from '../number/money.js';
import { reckon } from '../pricing/reckon.js';
import { type Sales, salesOf } from '../pricing/sales.js';
import { ChangeCounter, type Changes } from './changes.js';
import { differenceOf, type Figures, type PrintedFigures, printFigures, SalesSums } from './figures.js';
import { type LeftOutBy, LeftOutCounter, type LeftOutReport } from './left-out.js';
import { type MovedEstimate, MostMoved } from './most-moved.js';
import { type IndexedSide, type IndexedSides, indexSides, type ReplaySide } from './sides.js';
import { type Estimates, forEachEstimate, type StreamOptions } from './stream.js';

export interface ReplayOptions extends StreamOptions {
  /** What the shop pays for an hour that it charges, so that gross profit counts it; without it wages are left out. */
  readonly wage?: DecimalString | null;
  /** How many of the estimates that move most are listed; 20 without it. */
  readonly mostMoved?: number;
}

/** What a change of rates would have done to past estimates. Money in the digits of the money step. */
export interface ReplayResult {
  readonly currency: string;
  /** The sums over all estimates that both sides can price; `FIGURES` says what each is. */
  readonly before: PrintedFigures;
  readonly after: PrintedFigures;
  /** After − before, worked out from the exact figures and then rounded. */
  readonly difference: PrintedFigures;
  readonly counts: {
    readonly read: number;
    /** In the figures. */
    readonly priced: number;
    readonly leftOut: number;
    /** Parts and sublet lines sold without a known cost, before: their whole price counts as margin. */
    readonly withoutCost: number;
  };
  readonly leftOut: LeftOutReport;
  /** By the change of the total with tax, largest first. */
  readonly moved: readonly MovedEstimate[];
  /** Of the totals with tax. */
  readonly changes: Changes;
}

export type ReplayAnswer =
  { readonly ok: true; readonly result: ReplayResult } | { readonly ok: false; readonly problems: readonly Problem[] };

/**
 * Prices past estimates under an old and a new rate card (and, where a side brings one, under a catalogue of its own):
 * what the change would have done. Lines are priced by their decisions as they stand: declined and deferred ones are out.
 *
 * Estimates are streamed: none is kept, so the memory needed does not grow with their number. One that cannot be read,
 * or not be priced completely with both cards, is left out of both sides, counted and told with its problems.
 * Rejects only where the signal cancels or the iterable itself fails.
 *
 * @param estimates an iterable or async iterable
 * @param catalogue what both sides are priced with, unless one brings its own
 * @returns `ok: false` where a card or a catalogue cannot be used, with paths that begin with `before`, `after` or `catalogue`
 */
export async function replay(
  estimates: Estimates,
  catalogue: Catalogue,
  before: ReplaySide,
  after: ReplaySide,
  options: ReplayOptions = {},
): Promise<ReplayAnswer> {
  const read = indexSides(catalogue, before, after);
  if (!read.ok) return { ok: false, problems: read.problems };
  const problems = checkWage(options.wage);
  if (problems.length > 0) return { ok: false, problems };
  const run = new Replay(read.sides, options);
  await forEachEstimate(estimates, (estimate, at) => run.add(estimate, at), options);
  return { ok: true, result: run.result() };
}

export function checkWage(wage: DecimalString | null | undefined): Problem[] {
  if (wage == null || DECIMAL_PATTERN.test(wage)) return [];
  return [error('no-figure', 'wage', `The wage "${wage}" is not a figure.`, 'Write it like "38.50".')];
}

/** The sums of a replay while it goes on. */
export class Replay {
  private readonly before: SalesSums;
  private readonly after: SalesSums;
  private readonly leftOut = new LeftOutCounter();
  private readonly moved: MostMoved;
  private readonly changes: ChangeCounter;
  private readonly money: MoneyRule;
  private read = 0;

  constructor(
    private readonly sides: IndexedSides,
    { wage = null, mostMoved = 20 }: Pick<ReplayOptions, 'wage' | 'mostMoved'> = {},
  ) {
    this.money = finer(sides.before.rates.money, sides.after.rates.money);
    this.before = new SalesSums(wage === null ? null : decimal(wage));
    this.after = new SalesSums(wage === null ? null : decimal(wage));
    this.moved = new MostMoved(mostMoved, this.money);
    this.changes = new ChangeCounter(this.money);
  }

  /** @returns whether it is part of the figures */
  add(json: unknown, at: number): boolean {
    this.read += 1;
    const parsed = json instanceof Error ? notHad(json) : parseEstimate(json);
    if (!parsed.ok) return this.leave(at, null, 'reading', parsed.problems);
    const estimate = parsed.value;
    const before = salesWith(estimate, this.sides.before);
    const after = salesWith(estimate, this.sides.after);
    const [noneBefore, noneAfter] = [hasErrors(before.problems), hasErrors(after.problems)];
    if (noneBefore || noneAfter) {
      const by = noneBefore && noneAfter ? 'both' : noneBefore ? 'before' : 'after';
      return this.leave(at, estimate, by, noneBefore ? before.problems : after.problems);
    }
    if (before.sales.linesPriced === 0) return this.leave(at, estimate, 'nothing-priced', []);
    this.before.add(before.sales);
    this.after.add(after.sales);
    this.moved.add(at, estimate, before.sales.total, after.sales.total);
    this.changes.add(after.sales.total.minus(before.sales.total));
    return true;
  }

  /** The exact figures as they stand. */
  figures(): { readonly before: Figures; readonly after: Figures } {
    return { before: this.before.figures(), after: this.after.figures() };
  }

  result(): ReplayResult {
    const { before, after } = this.figures();
    const leftOut = this.leftOut.report();
    return {
      currency: this.sides.before.rates.rates.currency,
      before: printFigures(before, this.money),
      after: printFigures(after, this.money),
      difference: printFigures(differenceOf(before, after), this.money),
      counts: { read: this.read, priced: this.before.count, leftOut: leftOut.count, withoutCost: this.before.withoutCost },
      leftOut,
      moved: this.moved.list(),
      changes: this.changes.changes(),
    };
  }

  private leave(at: number, estimate: Estimate | null, by: LeftOutBy, problems: readonly Problem[]): false {
    const errors = problems.filter(({ severity }) => severity === 'error');
    this.leftOut.add({ at, id: estimate?.id ?? '', number: estimate?.number ?? '', by, problems: errors });
    return false;
  }
}

function notHad({ message }: Error): { ok: false; problems: Problem[] } {
  return {
    ok: false,
    problems: [error('unreachable', '', `The estimate cannot be read (${message}).`, 'Look whether the file is still there.')],
  };
}

/** What an estimate brings with one side's documents; meaningless where the problems have an error. */
export function salesWith(estimate: Estimate, { index, rates }: IndexedSide): { sales: Sales; problems: readonly Problem[] } {
  const reckoning = reckon(estimate, index, rates);
  return { sales: salesOf(reckoning), problems: reckoning.problems };
}

/** Figures of two sides are shown in the smaller of their money steps. */
function finer(a: MoneyRule, b: MoneyRule): MoneyRule {
  return b.step.lt(a.step) ? b : a;
}
