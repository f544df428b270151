import type { Estimate } from '../documents/estimate.js';
import type { Line } from '../documents/lines.js';
import { hasErrors, type Problem, warning } from '../documents/problem.js';
import type { Decimal } from '../number/decimal.js';
import { printMoney } from '../number/money.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import { type Share, type Sharing, shareWork } from '../overlap/share-work.js';
import type { Work } from '../overlap/work.js';
import type { Charge } from './charge.js';
import { type Draft, draftLine } from './draft.js';
import { estimateFees } from './fees.js';
import { type LineResult, priceLine } from './line-result.js';
import type { PricedEstimate } from './priced-estimate.js';
import { printCautions, printOverlap } from './print.js';
import type { RateIndex } from './rate-index.js';
import { sameShare, sameWork } from './same.js';
import { suppliesCharge } from './supplies.js';
import { Tally } from './tally.js';
import { type TaxRule, taxRule } from './taxes.js';
import { type Settled, settle } from './totals.js';

/** The works of the priced lines, how they share, and what is printed of it: the same as long as no work changes. */
interface Overlap {
  readonly works: readonly Work[];
  readonly sharing: Sharing;
  readonly printed: ReturnType<typeof printOverlap>;
  readonly cautions: PricedEstimate['cautions'];
}

interface Run {
  readonly taxes: TaxRule;
  readonly exempt: string;
  readonly overlap: Overlap;
  readonly results: readonly LineResult[];
  readonly tally: Tally;
}

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

  constructor(
    private readonly index: CatalogueIndex,
    private readonly rates: RateIndex,
  ) {}

  /** @param only exactly the lines to price, whatever their decision; without it, the proposed and approved ones */
  price(estimate: Estimate, only?: ReadonlySet<string>): PricedEstimate {
    const run = this.run(estimate, only);
    const settled = this.settle(estimate, run);
    const problems = [...lineProblems(run.results), ...this.exemptProblems(estimate)];
    return {
      currency: this.rates.rates.currency,
      moneyStep: printMoney(this.rates.money.step, this.rates.money),
      pricesIncludeTax: this.rates.rates.pricesIncludeTax,
      complete: !hasErrors(problems),
      lines: run.results.map((result) => result.printed),
      charges: settled.charges,
      overlap: { ...settled.saved, ...run.overlap.printed },
      totals: settled.totals,
      cautions: run.overlap.cautions,
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

    const before = lastResults(last, estimate.lines);
    const drafts = estimate.lines.map((line, i) => this.draft(line, before[i]?.draft));
    const priced = drafts.map((draft) => isPriced(draft, only));
    const works: Work[] = [];
    drafts.forEach((draft, i) => {
      if (priced[i] && draft.work !== null) works.push(draft.work);
    });
    const overlap = this.overlap(works, last);

    const results = drafts.map((draft, i) => {
      const share = priced[i] && draft.work !== null ? overlap.sharing.shares.get(draft.line.id)! : null;
      const known = before[i];
      if (known?.draft === draft && known.share === share && known.priced === priced[i]) return known;
      return priceLine(draft, share, priced[i]!, this.index, this.rates, taxes);
    });
    this.last = { taxes, exempt, overlap, results, tally: addUp(results, last) };
    return this.last;
  }

  private draft(line: Line, before: Draft | undefined): Draft {
    if (before?.line === line) return before;
    const draft = draftLine(line, this.index, this.rates);
    const keepsWork = before?.work != null && draft.work !== null && sameWork(before.work, draft.work);
    return keepsWork ? { ...draft, work: before.work } : draft;
  }

  private overlap(works: readonly Work[], last: Run | null): Overlap {
    const before = last?.overlap;
    if (before !== undefined && sameList(works, before.works)) return before;
    const sharing = shareWork(works, this.index);
    const shares = new Map<string, Share>();
    for (const [id, share] of sharing.shares) {
      const known = before?.sharing.shares.get(id);
      shares.set(id, known !== undefined && sameShare(known, share) ? known : share);
    }
    return { works, sharing: { ...sharing, shares }, printed: printOverlap(sharing, works, this.index), cautions: printCautions(works, this.index) };
  }

  /** What is charged once for the estimate, discounts, taxes and totals. */
  private settle(estimate: Estimate, run: Run): Settled {
    const tally = run.tally.copy();
    const add = (charges: readonly Charge[]): readonly Charge[] => {
      for (const charge of charges) tally.addCharge(charge, charge.amount, run.taxes);
      return charges;
    };
    const { supplies } = this.rates.rates;
    const fees = add(estimateFees(run.tally.feesAsked(), this.rates));
    const extra = supplies === null ? [] : add(suppliesCharge(supplies, tally.ofKinds(supplies.of), this.rates));
    const once = [...fees, ...extra];
    return settle({ results: run.results, once, tally, discounts: estimate.discounts, taxes: run.taxes, rates: this.rates });
  }

  private exemptProblems(estimate: Estimate): Problem[] {
    return estimate.customer.taxExempt.flatMap((id, i) =>
      this.rates.taxes.has(id)
        ? []
        : [warning('unknown-tax', `customer.taxExempt[${i}]`, `The rate card has no tax "${id}" to be exempt from.`, 'Name one of the taxes of the card.')],
    );
  }
}

/** Rule 13: declined and deferred lines are left out; so are notes, and lines with an error. */
function isPriced(draft: Draft, only: ReadonlySet<string> | undefined): boolean {
  const { line } = draft;
  if (line.kind === 'note' || hasErrors(draft.problems)) return false;
  return only === undefined ? line.decision === 'proposed' || line.decision === 'approved' : only.has(line.id);
}

/** The last result of each line, wherever it stood; the map is made only where lines have moved. */
function lastResults(last: Run | null, lines: readonly Line[]): readonly (LineResult | undefined)[] {
  if (last === null) return [];
  const { results } = last;
  if (lines.length === results.length && lines.every((line, i) => line.id === results[i]!.draft.line.id)) return results;
  const byLine = new Map(results.map((result) => [result.draft.line.id, result]));
  return lines.map((line) => byLine.get(line.id));
}

/** The tally of all lines: the last one with what has changed exchanged, or made anew where much has. */
function addUp(results: readonly LineResult[], last: Run | null): Tally {
  if (last === null || last.results.length !== results.length) return addAll(results);
  const changed = [...results.keys()].filter((i) => results[i] !== last.results[i]);
  if (changed.length === 0) return last.tally;
  if (changed.length > results.length / 2) return addAll(results);
  const tally = last.tally.copy();
  for (const i of changed) {
    tally.add(last.results[i]!.tally, -1);
    tally.add(results[i]!.tally);
  }
  return tally;
}

function addAll(results: readonly LineResult[]): Tally {
  const tally = new Tally();
  for (const result of results) tally.add(result.tally);
  return tally;
}

function lineProblems(results: readonly LineResult[]): Problem[] {
  const problems: Problem[] = [];
  results.forEach((result, i) => {
    for (const problem of result.problems) problems.push({ ...problem, path: `lines[${i}].${problem.path}` });
  });
  return problems;
}

function sameList<T>(a: readonly T[], b: readonly T[]): boolean {
  return a.length === b.length && a.every((item, i) => item === b[i]);
}
