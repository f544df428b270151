import type { Supplies } from '../documents/rates.js';
import { type Decimal, decimal, max, min, ONE, percentOf, ZERO } from '../number/decimal.js';
import { roundMoney } from '../number/money.js';
import type { Charge } from './charge.js';
import type { RateIndex } from './rate-index.js';

/**
 * Rule 9: shop supplies, a percentage of the charges of the named kinds before discount, at least the minimum and at
 * most the maximum; none where there is nothing to take a percentage of.
 *
 * @param base what the charges of the named kinds add up to
 */
export function suppliesCharge(supplies: Supplies, base: Decimal, rates: RateIndex): Charge[] {
  if (base.lte(ZERO)) return [];
  let amount = roundMoney(percentOf(base, decimal(supplies.percent)), rates.money);
  if (supplies.minimum !== null) amount = max(amount, decimal(supplies.minimum));
  if (supplies.maximum !== null) amount = min(amount, decimal(supplies.maximum));
  amount = roundMoney(amount, rates.money);
  if (amount.isZero()) return [];
  return [
    {
      id: 'supplies',
      line: null,
      kind: 'supplies',
      title: supplies.title,
      qty: ONE,
      unit: amount,
      amount,
      taxes: supplies.taxes ?? rates.taxesOf.supplies,
    },
  ];
}
