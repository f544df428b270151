import { type Difference, difference } from '../consent/revision.js';
import { linesNow } from '../consent/record.js';
import type { Catalogue } from '../documents/catalogue.js';
import type { Estimate } from '../documents/estimate.js';
import type { Rates } from '../documents/rates.js';
import { type DecimalString, decimal } from '../number/decimal.js';
import { fractionDigits } from '../number/money.js';
import { indexCatalogue } from '../overlap/catalogue-index.js';
import type { PricedEstimate } from '../pricing/priced-estimate.js';
import { Pricer } from '../pricing/pricer.js';
import { indexRates } from '../pricing/rate-index.js';

/** What an estimate is priced under. */
export interface Terms {
  readonly rates: Rates;
  readonly catalogue: Catalogue;
}

/** What pricing an estimate again under other terms would do to it. */
export interface PricedAgain {
  readonly before: PricedEstimate;
  readonly after: PricedEstimate;
  readonly difference: Difference;
  /** The total after less the total before; null between two currencies. */
  readonly more: DecimalString | null;
}

/** Prices an estimate under two cards and catalogues and tells the difference. Changes nothing. */
export function priceAgain(estimate: Estimate, from: Terms, to: Terms): PricedAgain {
  const price = ({ rates, catalogue }: Terms): PricedEstimate => new Pricer(indexCatalogue(catalogue), indexRates(rates)).price(estimate);
  const [before, after] = [price(from), price(to)];
  const comparable = before.currency === after.currency;
  return {
    before,
    after,
    difference: difference(linesNow(before), after),
    more: comparable ? minus(after.totals.total, before.totals.total) : null,
  };
}

function minus(a: DecimalString, b: DecimalString): DecimalString {
  return decimal(a)
    .minus(decimal(b))
    .toFixed(Math.max(fractionDigits(a), fractionDigits(b)));
}
