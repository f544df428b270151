import type { Estimate } from '../documents/estimate.js';
import type { Problem } from '../documents/problem.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import { type Share, shareWork } from '../overlap/share-work.js';
import type { Charge } from './charge.js';
import { chargeOnce } from './charge-once.js';
import { type Draft, draftLine } from './draft.js';
import { addLine, chargesOf } from './line-result.js';
import { isPriced } from './is-priced.js';
import type { RateIndex } from './rate-index.js';
import { takeOff } from './take-off.js';
import { Tally } from './tally.js';
import { type TaxRule, taxRule } from './taxes.js';
import { type Sum, sumUp } from './totals.js';

/** A line that is priced, with its charges before discount. */
export interface ReckonedLine {
  readonly draft: Draft;
  readonly share: Share | null;
  readonly charges: readonly Charge[];
}

/** An estimate priced by its decisions, in decimals. */
export interface Reckoning {
  /** In the order of the sheet, without those that are not priced. */
  readonly lines: readonly ReckonedLine[];
  readonly sum: Sum;
  /** Book hours that other lines pay for are in it. */
  readonly tally: Tally;
  readonly taxes: TaxRule;
  /** Of single lines; paths begin inside the estimate. */
  readonly problems: readonly Problem[];
}

/**
 * Prices one estimate once, by the same rules as `Pricer`, and prints nothing: for those who want the sum of thousands
 * of estimates and need not keep anything for the next keystroke.
 */
export function reckon(estimate: Estimate, index: CatalogueIndex, rates: RateIndex): Reckoning {
  const taxes = taxRule(rates, estimate.customer.taxExempt);
  const drafts = estimate.lines.map((line) => draftLine(line, index, rates));
  const priced = drafts.filter((draft) => isPriced(draft, undefined));
  const { shares } = shareWork(
    priced.flatMap(({ work }) => (work === null ? [] : [work])),
    index,
  );
  const tally = new Tally();
  const lines = priced.map((draft): ReckonedLine => {
    const share = shares.get(draft.line.id) ?? null;
    const charges = chargesOf(draft, share, index, rates);
    addLine(tally, draft, share, charges, rates, taxes);
    return { draft, share, charges };
  });
  const once = chargeOnce(tally, rates, taxes);
  const { discounts } = estimate;
  const off = discounts.length === 0 ? null : takeOff([...lines.flatMap(({ charges }) => charges), ...once], discounts, taxes);
  const problems = drafts.flatMap(({ problems: own }, i) => own.map((problem) => ({ ...problem, path: `lines[${i}].${problem.path}` })));
  return { lines, sum: sumUp(tally, off, taxes), tally, taxes, problems };
}
