import type { Catalogue } from '../documents/catalogue.js';
import { error, type Problem } from '../documents/problem.js';
import { parseEstimate } from '../documents/estimate.js';
import type { Rates } from '../documents/rates.js';
import { DECIMAL_PATTERN, type Decimal, decimal, type DecimalString, printPlain } from '../number/decimal.js';
import { indexRates } from '../pricing/rate-index.js';
import { bisect, type Tried } from './bisect.js';
import { type FigureName, FIGURES, printFigure, SalesSums } from './figures.js';
import { type Knob, missingKnob, turnKnob } from './knobs.js';
import { checkWage, Replay, salesWith } from './replay.js';
import { type IndexedSides, indexSides, type ReplaySide } from './sides.js';
import { type Estimates, forEachEstimate, type StreamOptions } from './stream.js';

/** What is asked: which value of a knob brings a figure to a target? */
export interface Goal {
  readonly knob: Knob;
  /** The values that may be answered: `from`, `from` + `step` … up to `to`. */
  readonly from: DecimalString;
  readonly to: DecimalString;
  readonly step: DecimalString;
  readonly figure: FigureName;
  /** In the figure's unit; `as before`: what it was with the card before. */
  readonly target: DecimalString | 'as before';
}

/** A value that was tried, and what a replay gave: the figure rounded for show. */
export interface GoalTrial {
  readonly value: DecimalString;
  readonly figure: DecimalString;
}

export interface GoalReport {
  readonly target: DecimalString;
  /** All replays that were made, by value. */
  readonly tried: readonly GoalTrial[];
  /** False where the figure was seen to rise and to fall: then there may be other answers, and the lowest that was met is given. */
  readonly monotone: boolean;
  /** How many estimates the answer rests on. */
  readonly priced: number;
  readonly leftOut: number;
}

export type GoalAnswer =
  | (GoalReport & {
      readonly ok: true;
      /** The value with which a replay comes to the target or above it … */
      readonly reached: GoalTrial;
      /** … while its neighbour one step away falls short of it; null where nothing that was tried does. */
      readonly short: GoalTrial | null;
      /** The card after, with the answer on it. */
      readonly rates: Rates;
    })
  | (Partial<GoalReport> & { readonly ok: false; readonly problems: readonly Problem[] });

export interface GoalOptions extends StreamOptions {
  readonly wage?: DecimalString | null;
  /** Called whenever another replay begins, with how many are done and about how many there will be. */
  readonly onTrial?: (done: number, about: number) => void;
}

/** More steps than this are a slip of the pen. */
const MOST_STEPS = 1_000_000;

/**
 * Goal seek: turns one knob of the card `after` until a figure of the replay comes to a target. Every value that is
 * tried is a replay of all estimates, the answer and its neighbour included, so the answer is checked by construction.
 *
 * @param estimates makes the iterable anew: it is gone through once for each trial (about log2 of the number of steps)
 * @returns `ok: false` with the reason where no value in the range does it, with what the ends give
 */
export async function seekGoal(
  estimates: () => Estimates,
  catalogue: Catalogue,
  before: ReplaySide,
  after: ReplaySide,
  goal: Goal,
  options: GoalOptions = {},
): Promise<GoalAnswer> {
  const read = indexSides(catalogue, before, after);
  if (!read.ok) return { ok: false, problems: read.problems };
  const { sides } = read;
  const problems = checkGoal(goal, sides.after.rates.rates, options);
  if (problems.length > 0) return { ok: false, problems };
  return seek(estimates, sides, goal, options);
}

async function seek(estimates: () => Estimates, sides: IndexedSides, goal: Goal, options: GoalOptions): Promise<GoalAnswer> {
  const { figure, knob } = goal;
  const [from, to, step] = [decimal(goal.from), decimal(goal.to), decimal(goal.step)];
  const { rates, money } = sides.after.rates;
  const about = 6 + Math.ceil(Math.log2(Math.max(1, to.minus(from).div(step).toNumber() / 4)));
  let trials = 0;
  const through = async (take: (estimate: unknown, at: number) => void): Promise<void> => {
    options.onTrial?.(trials, about);
    await forEachEstimate(estimates(), take, options);
    trials += 1;
  };

  // What cannot be priced with both cards is left out of every trial: no value of a knob changes that.
  const replay = new Replay(sides, options);
  const out = new Set<number>();
  await through((estimate, at) => {
    if (!replay.add(estimate, at)) out.add(at);
  });
  const { counts } = replay.result();
  const target = goal.target === 'as before' ? replay.figures().before[figure] : decimal(goal.target);
  if (target === null || replay.figures().after[figure] === null) return { ok: false, problems: [noFigure(counts.priced)] };

  const wage = options.wage == null ? null : decimal(options.wage);
  const measure = async (value: Decimal): Promise<Decimal> => {
    const side = { ...sides.after, rates: indexRates(turnKnob(rates, knob, value)) };
    const sums = new SalesSums(wage);
    await through((json, at) => {
      if (out.has(at)) return;
      const parsed = parseEstimate(json);
      if (parsed.ok) sums.add(salesWith(parsed.value, side).sales);
    });
    return sums.figures()[figure]!;
  };
  const { between, tried, monotone } = await bisect(from, to, step, target, measure);
  const print = (each: Tried): GoalTrial => ({ value: printPlain(each.value), figure: printFigure(figure, each.figure, money)! });
  const report: GoalReport = {
    target: printFigure(figure, target, money)!,
    tried: tried.map(print),
    monotone,
    priced: counts.priced,
    leftOut: counts.leftOut,
  };
  if (between === null) return { ...report, ok: false, problems: [outOfReach(report)] };
  const { reached, short } = between;
  return {
    ...report,
    ok: true,
    reached: print(reached),
    short: short === null ? null : print(short),
    rates: turnKnob(rates, knob, reached.value),
  };
}

function checkGoal({ knob, from, to, step, figure, target }: Goal, rates: Rates, { wage }: GoalOptions): Problem[] {
  const missing = missingKnob(rates, knob);
  if (missing !== null) return [error('no-knob', 'goal.knob', missing, 'Choose something that is on the card.')];
  const problems: Problem[] = [];
  const check = (name: string, text: unknown): void => {
    if (typeof text === 'string' && DECIMAL_PATTERN.test(text)) return;
    problems.push(error('no-figure', `goal.${name}`, `"${String(text)}" is not a figure.`, 'Write it like "140.00".'));
  };
  check('from', from);
  check('to', to);
  check('step', step);
  if (target !== 'as before') check('target', target);
  problems.push(...checkWage(wage));
  if (!(figure in FIGURES)) problems.push(error('no-figure', 'goal.figure', `A replay gives no figure "${String(figure)}".`));
  return problems.length > 0 ? problems : checkRange(knob, decimal(from), decimal(to), decimal(step));
}

function checkRange(knob: Knob, from: Decimal, to: Decimal, step: Decimal): Problem[] {
  const below = knob.turn !== 'labour-percent' && knob.turn !== 'mark-up-shift' ? 0 : knob.turn === 'labour-percent' ? -100 : null;
  if (below !== null && from.lt(below)) {
    return [error('below-zero', 'goal.from', `The range begins at ${printPlain(from)}; ${below} is the least.`, 'Begin higher.')];
  }
  if (step.lte(0)) return [error('no-step', 'goal.step', 'The step is not above zero.', 'A money step is a good one: "0.01".')];
  if (from.gte(to)) return [error('no-range', 'goal.to', 'The range ends before it begins.', 'Let it end above its beginning.')];
  if (to.minus(from).div(step).gt(MOST_STEPS)) {
    return [error('too-many-steps', 'goal.step', `The range has more than ${MOST_STEPS} steps.`, 'Take a wider step.')];
  }
  return [];
}

function noFigure(priced: number): Problem {
  const why = priced === 0 ? 'None of the estimates can be priced with both cards' : 'They charge nothing that it could be worked out from';
  return error(
    'nothing-to-measure',
    'goal.figure',
    `The estimates have no such figure. ${why}.`,
    'Choose another figure or other estimates.',
  );
}

function outOfReach({ target, tried, monotone }: GoalReport): Problem {
  const [first, last] = [tried[0]!, tried.at(-1)!];
  const between = monotone ? '' : ' The figure rises and falls in between, but was never seen on both sides of the target.';
  const message = `No value from ${first.value} to ${last.value} does it: the target is ${target}, ${first.value} gives ${first.figure} and ${last.value} gives ${last.figure}.${between}`;
  return error('out-of-reach', 'goal', message, 'Widen the range, or choose another target.');
}
