import type { Problem } from '../documents/problem.js';
import { type Documents, prepare } from './documents.js';
import type { PricedEstimate } from './priced-estimate.js';
import { Pricer } from './pricer.js';

export interface PriceOptions {
  /** Ids of exactly the lines to price, whatever their decision; without it, the proposed and approved ones. */
  readonly only?: Iterable<string>;
}

/**
 * Prices an estimate: every line, charge, shared hour, tax and total as a decimal string. Never throws: documents that
 * cannot be used give an empty priced estimate with `complete: false` and the reasons in `problems`, their paths
 * beginning with `estimate`, `catalogue` or `rates`.
 */
export function priceEstimate(documents: Documents, options: PriceOptions = {}): PricedEstimate {
  const read = prepare(documents);
  if (!read.ok) return unpriced(read.problems);
  const { estimate, index, rates } = read.prepared;
  return new Pricer(index, rates).price(estimate, options.only === undefined ? undefined : new Set(options.only));
}

/** ISO 4217 keeps XXX for "no currency". */
function unpriced(problems: Problem[]): PricedEstimate {
  return {
    currency: 'XXX',
    moneyStep: '1',
    pricesIncludeTax: false,
    complete: false,
    lines: [],
    charges: [],
    overlap: { hours: '0', money: '0', steps: [], pairs: [] },
    totals: {
      labour: '0',
      part: '0',
      core: '0',
      sublet: '0',
      fee: '0',
      supplies: '0',
      subtotal: '0',
      discount: '0',
      discounts: [],
      taxes: [],
      tax: '0',
      total: '0',
      cash: '0',
    },
    cautions: [],
    problems,
  };
}
