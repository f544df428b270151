import { Decimal, decimal, type DecimalString, max, min, ONE, printPlain, ZERO } from '../../../src/number/decimal.js';

/** Where figures stand along one side of a picture. Only places on the screen are JavaScript numbers, never the figures. */
export interface Scale {
  /** Both ends; they are ticks. */
  readonly from: DecimalString;
  readonly to: DecimalString;
  /** Round figures from end to end. */
  readonly ticks: readonly DecimalString[];
  /** Where a figure stands: 0 at `from`, 1 at `to`, beyond them outside. */
  at(figure: DecimalString): number;
}

/**
 * A scale that holds all of `figures` and begins and ends on a round figure, with ticks 1, 2 or 5 times a power of ten apart.
 *
 * @param figures what must find room; add `'0'` for a scale that begins at zero
 * @param about how many steps from tick to tick there is room for
 */
export function scaleFor(figures: readonly DecimalString[], about = 5): Scale {
  const all = figures.map(decimal);
  const least = all.length === 0 ? ZERO : all.reduce(min);
  const most = all.length === 0 ? ONE : all.reduce(max);
  const step = roundStep(most.eq(least) ? max(most.abs(), ONE) : most.minus(least).div(about));
  const from = least.div(step).floor().times(step);
  const to = max(most.div(step).ceil().times(step), from.plus(step));
  const ticks: DecimalString[] = [];
  for (let tick = from; tick.lte(to); tick = tick.plus(step)) ticks.push(printPlain(tick));
  const span = to.minus(from);
  return {
    from: printPlain(from),
    to: printPlain(to),
    ticks,
    at: (figure) => decimal(figure).minus(from).div(span).toNumber(),
  };
}

/** The least of 1, 2, 5 times a power of ten that is not below `least` (above zero). */
export function roundStep(least: Decimal): Decimal {
  const power = new Decimal(10).pow(least.e);
  const found = [1, 2, 5].map((times) => power.times(times)).find((step) => step.gte(least));
  return found ?? power.times(10);
}
