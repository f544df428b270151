import type { MarkUp } from '../documents/rates.js';
import { type Decimal, decimal, HUNDRED, min, printPlain, ZERO } from '../number/decimal.js';
import { type MoneyRule, printMoney } from '../number/money.js';
import { round } from '../number/rounding.js';
import { markedUp } from './markup.js';
import { indexTiers } from './rate-index.js';

/**
 * Ways out of a mark-up cliff. A tier's percentage on the whole cost makes the price fall wherever the percentage falls.
 *
 * 1. Progressive tiers: the same limits and percentages, each on its slice of the cost. The price never falls; every part
 *    above the first limit sells for more than before.
 * 2. Held mark-up: from a limit on, a part brings the mark-up in money that it brings at the limit, until the next
 *    percentage alone brings as much. In between a dearer part sells for exactly as much more as it costs more; everywhere
 *    else prices stay as they are. Written with progressive tiers at 0 percent between.
 */
export interface CliffWay {
  readonly id: 'progressive' | 'held';
  readonly parts: MarkUp;
  /** Where the second way holds the mark-up: from a cost to another (null: for good), and what is held. */
  readonly held: readonly { readonly from: string; readonly to: string | null; readonly markUp: string }[];
}

/** Both ways out for these tiers; none where nothing falls, the second only where no percentage rises. */
export function cliffWays(parts: MarkUp, money: MoneyRule): CliffWay[] {
  const percents = parts.tiers.map(({ percent }) => decimal(percent));
  const falls = percents.some((percent, i) => i > 0 && percent.lt(percents[i - 1]!));
  const rises = percents.some((percent, i) => i > 0 && percent.gt(percents[i - 1]!));
  if (parts.mode !== 'whole' || !falls) return [];
  const progressive: CliffWay = { id: 'progressive', parts: { ...parts, mode: 'progressive' }, held: [] };
  return rises ? [progressive] : [progressive, heldMarkUp(parts, money)];
}

function heldMarkUp(parts: MarkUp, money: MoneyRule): CliffWay {
  const tiers: MarkUp['tiers'] = [];
  const held: { from: string; to: string | null; markUp: string }[] = [];
  const slice = (upTo: string | null, percent: string): void => {
    // A mark-up that is held over a whole tier goes on being held.
    if (tiers.at(-1)?.percent === percent) tiers.pop();
    tiers.push({ upTo, percent });
  };
  let markUp = ZERO;
  let from = ZERO;
  for (const { upTo, percent } of parts.tiers) {
    const limit = upTo === null ? null : decimal(upTo);
    const level = levelCost(markUp, decimal(percent), money);
    if (level === null || level.gt(from)) {
      const whole = level === null || (limit !== null && level.gte(limit));
      slice(whole ? upTo : printMoney(level, money), '0');
      hold(held, from, whole ? limit : level, markUp, money);
    }
    if (level !== null && (limit === null || level.lt(limit))) {
      slice(upTo, percent);
      // What the mark-up really comes to by these slices, so that nothing adds up from limit to limit.
      const start = level.gt(from) ? level : from;
      if (limit !== null) markUp = markUp.plus(limit.minus(start).times(decimal(percent)).div(HUNDRED));
    }
    if (limit !== null) from = limit;
  }
  return { id: 'held', parts: { ...parts, mode: 'progressive', tiers }, held };
}

/** The cost at which a percentage brings a mark-up by itself, on the money step below; null: never. */
function levelCost(markUp: Decimal, percent: Decimal, { step }: MoneyRule): Decimal | null {
  if (percent.isZero()) return markUp.isZero() ? ZERO : null;
  return markUp.times(HUNDRED).div(percent).div(step).floor().times(step);
}

function hold(
  held: { from: string; to: string | null; markUp: string }[],
  from: Decimal,
  to: Decimal | null,
  markUp: Decimal,
  money: MoneyRule,
): void {
  const before = held.at(-1);
  const until = to === null ? null : printMoney(to, money);
  if (before !== undefined && before.to === printMoney(from, money)) held[held.length - 1] = { ...before, to: until };
  else held.push({ from: printMoney(from, money), to: until, markUp: printMoney(round(markUp, money.step, money.rounding), money) });
}

/** A cost with the prices that it has by several ways of marking up. */
export interface PricesAt {
  readonly cost: string;
  readonly prices: readonly string[];
}

/**
 * What parts sell for by several ways, at the costs where something can be seen: each limit of the first, one money step
 * above it, and half and double the ends.
 */
export function compareMarkUps(ways: readonly MarkUp[], money: MoneyRule): PricesAt[] {
  const limits = ways.flatMap(({ tiers }) => tiers.flatMap(({ upTo }) => (upTo === null ? [] : [decimal(upTo)])));
  const first = ways[0]!.tiers.flatMap(({ upTo }) => (upTo === null ? [] : [decimal(upTo)]));
  if (first.length === 0) return [];
  const costs = [
    first[0]!.div(2),
    ...limits,
    ...first.map((limit) => limit.plus(money.step)),
    first.at(-1)!.times(2),
    first.at(-1)!.times(5),
  ];
  const onStep = costs.map((cost) => round(cost, money.step, money.rounding)).filter((cost) => cost.gt(ZERO));
  const sorted = onStep.toSorted((a, b) => a.cmp(b)).filter((cost, i, all) => i === 0 || !cost.eq(all[i - 1]!));
  const indexed = ways.map((way) => ({ mode: way.mode, tiers: indexTiers(way) }));
  return sorted.map((cost) => ({
    cost: printMoney(cost, money),
    prices: indexed.map(({ mode, tiers }) => printMoney(markedUp(cost, mode, tiers, money), money)),
  }));
}

/** The unrounded sell price as a line: its corners, two at a limit where it falls or leaps. */
export function priceCorners(parts: MarkUp, to: string): { readonly cost: string; readonly price: string }[] {
  const end = decimal(to);
  const corners = [{ cost: '0', price: '0' }];
  let from = ZERO;
  let price = ZERO;
  for (const { upTo, factor } of indexTiers(parts)) {
    const until = upTo === null ? end : min(upTo, end);
    if (until.lte(from)) continue;
    if (parts.mode === 'whole') {
      corners.push({ cost: printPlain(from), price: printPlain(from.times(factor)) });
      price = until.times(factor);
    } else {
      price = price.plus(until.minus(from).times(factor));
    }
    corners.push({ cost: printPlain(until), price: printPlain(price) });
    from = until;
    if (from.gte(end)) break;
  }
  return corners;
}

/** How far a picture of the tiers reaches: twice the last limit. */
export function pictureEnd(parts: MarkUp): string {
  const last = parts.tiers.findLast(({ upTo }) => upTo !== null);
  return last === undefined ? '100' : printPlain(decimal(last.upTo!).times(2));
}
