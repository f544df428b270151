/**
 * The order of the rules without what makes an edit of a long sheet quick: a copy has one estimate, and only the answers
 * change. Every figure is made by the engine's own rules. Cautions of the work and warnings are for the shop; a copy
 * has none of the first, and shows none of the others.
 */
import type { Estimate } from '../../../src/documents/estimate.js';
import type { Line } from '../../../src/documents/lines.js';
import { hasErrors } from '../../../src/documents/problem.js';
import type { Decimal } from '../../../src/number/decimal.js';
import { printMoney } from '../../../src/number/money.js';
import type { CatalogueIndex } from '../../../src/overlap/catalogue-index.js';
import { type Sharing, shareWork } from '../../../src/overlap/share-work.js';
import { chargeOnce } from '../../../src/pricing/charge-once.js';
import { type Draft, draftLine } from '../../../src/pricing/draft.js';
import { isPriced } from '../../../src/pricing/is-priced.js';
import { type LineResult, priceLine } from '../../../src/pricing/line-result.js';
import type { PricedEstimate } from '../../../src/pricing/priced-estimate.js';
import { printPairs, printSteps } from '../../../src/pricing/print.js';
import type { RateIndex } from '../../../src/pricing/rate-index.js';
import { remembered } from '../../../src/pricing/remembered.js';
import { Tally } from '../../../src/pricing/tally.js';
import { taxRule } from '../../../src/pricing/taxes.js';
import { type Settled, settle } from '../../../src/pricing/totals.js';

/** For estimates that are taxed alike. */
export class Pricer {
  private readonly draft: (line: Line) => Draft;
  private sharing: Sharing | undefined;
  /** The last results, by line. A line that shares as before costs what it did. */
  private readonly results = new Map<string, LineResult>();

  constructor(
    private readonly index: CatalogueIndex,
    private readonly rates: RateIndex,
  ) {
    this.draft = remembered((line) => draftLine(line, index, rates));
  }

  price(estimate: Estimate, only?: ReadonlySet<string>): PricedEstimate {
    const { results, sharing, settled } = this.run(estimate, only);
    const { rates, money } = this.rates;
    const problems = results.flatMap((result, i) => result.problems.map((each) => ({ ...each, path: `lines[${i}].${each.path}` })));
    return {
      currency: rates.currency,
      moneyStep: printMoney(money.step, money),
      pricesIncludeTax: rates.pricesIncludeTax,
      complete: !hasErrors(problems),
      lines: results.map(({ printed }) => printed),
      charges: settled.charges,
      overlap: { ...settled.saved, steps: printSteps(sharing.steps, this.index), pairs: printPairs(sharing.deductions) },
      totals: settled.totals,
      cautions: [],
      problems,
    };
  }

  total(estimate: Estimate, only: ReadonlySet<string>): Decimal {
    return this.run(estimate, only).settled.total;
  }

  private run(estimate: Estimate, only?: ReadonlySet<string>): { results: LineResult[]; sharing: Sharing; settled: Settled } {
    const { index, rates } = this;
    const taxes = taxRule(rates, estimate.customer.taxExempt);
    const drafts = estimate.lines.map((line) => ({ draft: this.draft(line), priced: isPriced(this.draft(line), only) }));
    const works = drafts.flatMap(({ draft, priced }) => (priced && draft.work !== null ? [draft.work] : []));
    const sharing = (this.sharing = shareWork(works, index, this.sharing));
    const results = drafts.map(({ draft, priced }) => {
      const { id } = draft.line;
      const share = (priced && sharing.shares.get(id)) || null;
      const last = this.results.get(id);
      if (last?.draft === draft && last.share === share && last.priced === priced) return last;
      const result = priceLine(draft, share, priced, index, rates, taxes);
      this.results.set(id, result);
      return result;
    });

    const tally = new Tally();
    for (const result of results) tally.add(result.tally);
    const once = chargeOnce(tally, rates, taxes);
    const charges = results.flatMap((result) => result.charges);
    const printed = results.flatMap((result) => result.printedCharges);
    const settled = settle({ charges, printed, once, tally, discounts: estimate.discounts, taxes, rates, lastDiscounted: null });
    return { results, sharing, settled };
  }
}
