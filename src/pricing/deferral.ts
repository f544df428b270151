import type { Estimate } from '../documents/estimate.js';
import type { Decimal, DecimalString } from '../number/decimal.js';
import { printMoney } from '../number/money.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
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
  const deferral = new Deferral(estimate, new Pricer(index, rates).price(estimate), index, rates);
  return Object.fromEntries(deferral.lines.map((id) => [id, deferral.cost(id)]));
}

/** Rule 14, line by line, for one estimate. */
export class Deferral {
  /** The lines that can be put off: all but notes and those with an error. */
  readonly lines: readonly string[];
  private readonly priced: ReadonlySet<string>;
  private readonly together: Pricer;
  private readonly alone: Pricer;
  private readonly total: Decimal;

  constructor(
    private readonly estimate: Estimate,
    priced: PricedEstimate,
    index: CatalogueIndex,
    private readonly rates: RateIndex,
  ) {
    this.lines = deferrable(priced);
    this.priced = new Set(priced.lines.filter((line) => line.priced).map((line) => line.id));
    this.together = new Pricer(index, rates);
    this.alone = new Pricer(index, rates);
    this.total = this.together.total(estimate, this.priced);
  }

  cost(id: string): DeferralCost {
    const now = this.priced.has(id) ? this.total.minus(this.totalWithout(id)) : this.totalWith(id).minus(this.total);
    const later = this.totalAlone(id);
    const print = (amount: Decimal): string => printMoney(amount, this.rates.money);
    return { now: print(now), later: print(later), extra: print(later.minus(now)) };
  }

  private totalWithout(id: string): Decimal {
    const others = new Set(this.priced);
    others.delete(id);
    return this.together.total(this.estimate, others);
  }

  private totalWith(id: string): Decimal {
    return this.together.total(this.estimate, new Set(this.priced).add(id));
  }

  private totalAlone(id: string): Decimal {
    const lines = this.estimate.lines.filter((line) => line.id === id);
    return this.alone.total({ ...this.estimate, lines }, new Set([id]));
  }
}

function deferrable(priced: PricedEstimate): string[] {
  const faulty = new Set(
    priced.problems.flatMap(({ severity, path }) => {
      const at = severity === 'error' ? /^lines\[(\d+)\]/.exec(path) : null;
      return at === null ? [] : [Number(at[1])];
    }),
  );
  return priced.lines.flatMap((line, i) => (line.kind === 'note' || faulty.has(i) ? [] : [line.id]));
}
