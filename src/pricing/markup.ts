import type { MarkUp } from '../documents/rates.js';
import { type Decimal, ZERO, min } from '../number/decimal.js';
import { type MoneyRule, roundMoney } from '../number/money.js';
import type { RateIndex, Tier } from './rate-index.js';

/**
 * Rule 8: what a part sells for by the card. A list price is taken as it stands where the card goes by list prices;
 * a price computed from the cost is rounded to the money step.
 */
export function sellPrice(cost: Decimal, list: Decimal | null, rates: RateIndex): Decimal {
  if (rates.rates.parts.basis === 'list' && list !== null) return list;
  return markedUp(cost, rates.rates.parts.mode, rates.tiers, rates.money);
}

/** A cost with its mark-up, on the money step. */
export function markedUp(cost: Decimal, mode: MarkUp['mode'], tiers: readonly Tier[], money: MoneyRule): Decimal {
  return roundMoney(mode === 'whole' ? wholeMarkUp(cost, tiers) : progressiveMarkUp(cost, tiers), money);
}

/** The whole cost at the factor of the first tier that reaches it. */
function wholeMarkUp(cost: Decimal, tiers: readonly Tier[]): Decimal {
  const tier = tiers.find(({ upTo }) => upTo === null || cost.lte(upTo))!;
  return cost.times(tier.factor);
}

/** Each slice of the cost at the factor of its own tier, so that a dearer part never sells for less. */
function progressiveMarkUp(cost: Decimal, tiers: readonly Tier[]): Decimal {
  let price = ZERO;
  let from = ZERO;
  for (const { upTo, factor } of tiers) {
    const to = upTo === null ? cost : min(cost, upTo);
    if (to.lte(from)) break;
    price = price.plus(to.minus(from).times(factor));
    from = to;
  }
  return price;
}
