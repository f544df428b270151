import type { Decimal } from '../number/decimal.js';
import { roundMoney } from '../number/money.js';
import type { Charge } from './charge.js';
import type { RateIndex } from './rate-index.js';

/** Rule 7: charged hours at the line's labour rate, rounded once; none where no hours are charged. */
export function labourCharge(
  line: string,
  title: string,
  hours: Decimal,
  rate: Decimal,
  taxes: readonly string[] | null,
  rates: RateIndex,
): Charge[] {
  if (hours.isZero()) return [];
  return [
    {
      id: `${line}.labour`,
      line,
      kind: 'labour',
      title,
      qty: hours,
      unit: rate,
      amount: roundMoney(hours.times(rate), rates.money),
      taxes: taxes ?? rates.taxesOf.labour,
    },
  ];
}
