import type { Estimate } from '../documents/estimate.js';
import { type DecimalString } from '../number/decimal.js';
import { printMoney } from '../number/money.js';
import { type Documents, prepare } from './documents.js';
import type { PricedEstimate } from './priced-estimate.js';
import { Pricer } from './pricer.js';
import type { RateIndex } from './rate-index.js';

/** What a line costs when it is done with the others, what it costs alone later on, and the difference. */
export interface DeferralCost {
  readonly now: DecimalString;
  readonly later: DecimalString;
  readonly extra: DecimalString;
}

/**
 * Rule 14 for every line that can be priced: `now` is what the total falls by without the line (for a line that is not
 * priced at present: what it would rise by), `later` the total of the line alone, `extra` the teardown paid twice.
 * Amounts include tax and whatever else hangs on the total. Documents that cannot be used give no entries.
 */
export function deferralCosts(documents: Documents): Record<string, DeferralCost> {
  const read = prepare(documents);
  if (!read.ok) return {};
  const { estimate, index, rates } = read.prepared;
  const pricer = new Pricer(index, rates);
  const priced = pricer.price(estimate);
  const costs: [string, DeferralCost][] = [];
  for (const id of deferrable(priced)) costs.push([id, deferralCost(id, estimate, priced, pricer, rates)]);
  return Object.fromEntries(costs);
}

/** The lines that can be put off: all but notes and those with an error. */
export function deferrable(priced: PricedEstimate): string[] {
  const faulty = new Set(
    priced.problems.flatMap(({ severity, path }) => {
      const at = severity === 'error' ? /^lines\[(\d+)\]/.exec(path) : null;
      return at === null ? [] : [Number(at[1])];
    }),
  );
  return priced.lines.flatMap((line, i) => (line.kind === 'note' || faulty.has(i) ? [] : [line.id]));
}

/** Rule 14 for one line. */
export function deferralCost(
  id: string,
  estimate: Estimate,
  priced: PricedEstimate,
  pricer: Pricer,
  rates: RateIndex,
): DeferralCost {
  const others = new Set(priced.lines.filter((line) => line.priced && line.id !== id).map((line) => line.id));
  const without = pricer.total(estimate, others);
  const together = pricer.total(estimate, new Set([...others, id]));
  const later = pricer.total(estimate, new Set([id]));
  const now = together.minus(without);
  return {
    now: printMoney(now, rates.money),
    later: printMoney(later, rates.money),
    extra: printMoney(later.minus(now), rates.money),
  };
}
