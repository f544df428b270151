import type { SubletLine } from '../documents/lines.js';
import { type Decimal, decimal, ONE, percentOf } from '../number/decimal.js';
import { roundMoney } from '../number/money.js';
import type { Charge } from './charge.js';
import type { RateIndex } from './rate-index.js';

/** Work that another shop does: at the price typed, else at its cost and the card's percentage on top. */
export function subletCharge(line: SubletLine, rates: RateIndex): Charge {
  const amount = roundMoney(line.price === null ? subletPrice(decimal(line.cost), rates) : decimal(line.price), rates.money);
  return {
    id: `${line.id}.sublet`,
    line: line.id,
    kind: 'sublet',
    title: line.title,
    qty: ONE,
    unit: amount,
    amount,
    taxes: line.taxes ?? rates.taxesOf.sublet,
    cost: decimal(line.cost),
  };
}

function subletPrice(cost: Decimal, rates: RateIndex): Decimal {
  return cost.plus(percentOf(cost, decimal(rates.rates.sublet?.percent ?? '0')));
}
