import type { Problem } from '../documents/problem.js';
import { sum, ZERO } from '../number/decimal.js';
import { roundMoney } from '../number/money.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import type { Share } from '../overlap/share-work.js';
import type { Charge } from './charge.js';
import type { Draft } from './draft.js';
import { unitFees } from './fees.js';
import { labourCharge } from './labour.js';
import { inclusionProblems } from './line-problems.js';
import { operationParts } from './parts.js';
import type { PricedCharge, PricedLine } from './priced-estimate.js';
import { printCharge, printLine } from './print.js';
import type { RateIndex } from './rate-index.js';
import { Tally } from './tally.js';
import type { TaxRule } from './taxes.js';

/** A line with its charges, what they add up to, and what is printed of it before any discount. */
export interface LineResult {
  readonly draft: Draft;
  readonly share: Share | null;
  readonly priced: boolean;
  readonly charges: readonly Charge[];
  readonly tally: Tally;
  readonly printed: PricedLine;
  readonly printedCharges: readonly PricedCharge[];
  readonly problems: readonly Problem[];
}

/** Rules 7 to 9 for one line. */
export function priceLine(
  draft: Draft,
  share: Share | null,
  priced: boolean,
  index: CatalogueIndex,
  rates: RateIndex,
  taxes: TaxRule,
): LineResult {
  const charges = priced ? chargesOf(draft, share, index, rates) : [];
  return {
    draft,
    share,
    priced,
    charges,
    tally: tallyOf(draft, share, priced, charges, rates, taxes),
    printed: printLine(draft, share, charges, priced, rates.money),
    printedCharges: charges.map((charge) => printCharge(charge, ZERO, rates.money)),
    problems: [...draft.problems, ...inclusionProblems(draft, share?.includedIn ?? null)],
  };
}

export function chargesOf(draft: Draft, share: Share | null, index: CatalogueIndex, rates: RateIndex): readonly Charge[] {
  const { line } = draft;
  if (line.kind !== 'operation' || share === null) return draft.charges;
  return [
    ...labourCharge(line.id, draft.title, share.chargedHours, draft.rate, line.taxes, rates),
    ...operationParts(line, share, index, rates),
    ...unitFees(share.work, line.taxes, rates),
  ];
}

function tallyOf(draft: Draft, share: Share | null, priced: boolean, charges: readonly Charge[], rates: RateIndex, taxes: TaxRule): Tally {
  const tally = new Tally();
  if (priced) addLine(tally, draft, share, charges, rates, taxes);
  return tally;
}

/** Adds a line that is priced to what others come to. */
export function addLine(
  tally: Tally,
  draft: Draft,
  share: Share | null,
  charges: readonly Charge[],
  rates: RateIndex,
  taxes: TaxRule,
): void {
  for (const charge of charges) tally.addCharge(charge, charge.amount, taxes);
  for (const id of draft.work?.operation.fees ?? []) tally.askFee(id);
  tally.bookMoney = tally.bookMoney.plus(roundMoney(draft.bookHours.times(draft.rate), rates.money));
  const labour = charges.filter((charge) => charge.kind === 'labour').map((charge) => charge.amount);
  tally.labourMoney = tally.labourMoney.plus(sum(labour));
  tally.sharedHours = tally.sharedHours.plus(share?.sharedHours ?? ZERO);
}
