import type { Estimate } from '../documents/estimate.js';
import type { Line } from '../documents/lines.js';
import { hasErrors, type Problem, warning } from '../documents/problem.js';
import type { Decimal } from '../number/decimal.js';
import { printMoney } from '../number/money.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import { difference, spliced } from '../overlap/difference.js';
import { sameWork } from '../overlap/same.js';
import { type Sharing, shareWork } from '../overlap/share-work.js';
import type { Work } from '../overlap/work.js';
import { addUp, type AllLines } from './all-lines.js';
import { chargeOnce } from './charge-once.js';
import type { Discounted } from './discounted.js';
import { type Draft, draftLine } from './draft.js';
import { isPriced } from './is-priced.js';
import { type LineResult, priceLine } from './line-result.js';
import type { PricedEstimate } from './priced-estimate.js';
import { printCautions, printPairs, printSteps } from './print.js';
import type { RateIndex } from './rate-index.js';
import { remembered } from './remembered.js';
import { type TaxRule, taxRule } from './taxes.js';
import { type Settled, settle } from './totals.js';

/** What a run leaves for the next one. Lists are in the order of the sheet. */
interface Run {
  readonly taxes: TaxRule;
  readonly exempt: string;
  /** Whether the decisions said what is priced. */
  readonly byDecision: boolean;
  readonly lines: readonly Line[];
  readonly sharing: Sharing;
  readonly results: readonly LineResult[];
  readonly all: AllLines;
}

/** A line whose charges are still to be worked out. */
type ToPrice = Pick<LineResult, 'draft' | 'priced'>;

/**
 * Prices estimates against one catalogue and one rate card, rule by rule, and remembers the last run: what depends
 * only on things that have not changed is taken over as it is. A line counts as unchanged when it is the same object,
 * so whoever edits an estimate makes new objects for what changes and keeps the others.
 *
 * The figures are the same as those of a first run, since every step is a pure function of what it is given and sums
 * of exact decimals do not depend on the order in which they were made.
 */
export class Pricer {
  private last: Run | null = null;
  private lastDiscounted: Discounted | null = null;
  private readonly printSteps = remembered((steps: Sharing['steps']) => printSteps(steps, this.index));
  private readonly printPairs = remembered(printPairs);
  private readonly printCautions = remembered((sharing: Sharing) => printCautions(sharing.works, this.index));

  constructor(
    private readonly index: CatalogueIndex,
    private readonly rates: RateIndex,
  ) {}

  /** @param only exactly the lines to price, whatever their decision; without it, the proposed and approved ones */
  price(estimate: Estimate, only?: ReadonlySet<string>): PricedEstimate {
    const run = this.run(estimate, only);
    const settled = this.settle(estimate, run);
    const problems = [...run.all.problems, ...this.exemptProblems(estimate)];
    return {
      currency: this.rates.rates.currency,
      moneyStep: printMoney(this.rates.money.step, this.rates.money),
      pricesIncludeTax: this.rates.rates.pricesIncludeTax,
      complete: !hasErrors(problems),
      lines: run.all.printed,
      charges: settled.charges,
      overlap: { ...settled.saved, steps: this.printSteps(run.sharing.steps), pairs: this.printPairs(run.sharing.deductions) },
      totals: settled.totals,
      cautions: this.printCautions(run.sharing),
      problems,
    };
  }

  /** Only what the priced lines come to, tax included. */
  total(estimate: Estimate, only: ReadonlySet<string>): Decimal {
    return this.settle(estimate, this.run(estimate, only)).total;
  }

  private run(estimate: Estimate, only: ReadonlySet<string> | undefined): Run {
    const exempt = estimate.customer.taxExempt.join(' ');
    const last = this.last?.exempt === exempt ? this.last : null;
    const taxes = last?.taxes ?? taxRule(this.rates, estimate.customer.taxExempt);

    const entries = this.entries(estimate.lines, only, last);
    const works: Work[] = [];
    for (const { draft, priced } of entries) if (priced && draft.work !== null) works.push(draft.work);
    const sharing = shareWork(works, this.index, last?.sharing);

    const results = entries.map((entry) => {
      if ('share' in entry && sharing === last?.sharing) return entry;
      const { draft, priced } = entry;
      const share = priced && draft.work !== null ? sharing.shares.get(draft.line.id)! : null;
      return 'share' in entry && entry.share === share ? entry : priceLine(draft, share, priced, this.index, this.rates, taxes);
    });
    this.last = {
      taxes,
      exempt,
      byDecision: only === undefined,
      lines: [...estimate.lines],
      sharing,
      results,
      all: addUp(results, last?.results, last?.all),
    };
    return this.last;
  }

  /** Each line with its last result, unless the line or whether it is priced has changed: then with what it is now. */
  private entries(lines: readonly Line[], only: ReadonlySet<string> | undefined, last: Run | null): (LineResult | ToPrice)[] {
    if (last === null) return lines.map((line) => this.entry(line, undefined, only));
    // A choice of lines may touch any of them.
    const byDecision = only === undefined && last.byDecision;
    const { start, removed, added } = byDecision ? difference(last.lines, lines) : { start: 0, removed: last.lines, added: lines };
    const before = resultsOf(added, last.results.slice(start, start + removed.length));
    const entries = added.map((line, i) => this.entry(line, before[i], only));
    return spliced<LineResult | ToPrice>(last.results, start, removed.length, entries);
  }

  private entry(line: Line, before: LineResult | undefined, only: ReadonlySet<string> | undefined): LineResult | ToPrice {
    const draft = this.draft(line, before?.draft);
    const priced = isPriced(draft, only);
    return before?.draft === draft && before.priced === priced ? before : { draft, priced };
  }

  private draft(line: Line, before: Draft | undefined): Draft {
    if (before?.line === line) return before;
    const draft = draftLine(line, this.index, this.rates);
    const keepsWork = before?.work != null && draft.work !== null && sameWork(before.work, draft.work);
    return keepsWork ? { ...draft, work: before.work } : draft;
  }

  /** What is charged once for the estimate, discounts, taxes and totals. */
  private settle(estimate: Estimate, run: Run): Settled {
    const tally = run.all.tally.copy();
    const once = chargeOnce(tally, this.rates, run.taxes);
    const settled = settle({
      charges: run.all.charges,
      printed: run.all.printedCharges,
      once,
      tally,
      discounts: estimate.discounts,
      taxes: run.taxes,
      rates: this.rates,
      lastDiscounted: this.lastDiscounted,
    });
    this.lastDiscounted = settled.discounted;
    return settled;
  }

  private exemptProblems(estimate: Estimate): Problem[] {
    return estimate.customer.taxExempt.flatMap((id, i) =>
      this.rates.taxes.has(id)
        ? []
        : [
            warning(
              'unknown-tax',
              `customer.taxExempt[${i}]`,
              `The rate card has no tax "${id}" to be exempt from.`,
              'Name one of the taxes of the card.',
            ),
          ],
    );
  }
}

/** The results of these lines, wherever they stood; the map is made only where lines have moved. */
function resultsOf(lines: readonly Line[], results: readonly LineResult[]): readonly (LineResult | undefined)[] {
  if (lines.length === results.length && lines.every((line, i) => line.id === results[i]!.draft.line.id)) return results;
  const byLine = new Map(results.map((result) => [result.draft.line.id, result]));
  return lines.map((line) => byLine.get(line.id));
}
