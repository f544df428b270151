import type { Discount } from '../documents/estimate.js';
import type { ChargeKind } from '../documents/fields.js';
import { type Decimal, printPlain, sum, ZERO } from '../number/decimal.js';
import { cashAmount, printMoney, roundMoney } from '../number/money.js';
import type { Charge } from './charge.js';
import { takeDiscounts } from './discounts.js';
import type { LineResult } from './line-result.js';
import type { PricedCharge, PricedOverlap, PricedTotals } from './priced-estimate.js';
import { printCharge, printTax } from './print.js';
import type { RateIndex } from './rate-index.js';
import type { Tally } from './tally.js';
import { taxAmounts, type TaxRule } from './taxes.js';

interface ToSettle {
  readonly results: readonly LineResult[];
  /** The charges of these, as printed without discounts. */
  readonly printed: readonly PricedCharge[];
  /** What is charged once for the estimate: fees, then supplies. */
  readonly once: readonly Charge[];
  /** All of these charges, before discount. */
  readonly tally: Tally;
  readonly discounts: readonly Discount[];
  readonly taxes: TaxRule;
  readonly rates: RateIndex;
}

export interface Settled {
  readonly charges: readonly PricedCharge[];
  readonly totals: PricedTotals;
  readonly saved: Pick<PricedOverlap, 'hours' | 'money'>;
  readonly total: Decimal;
}

/** The end of the sum: discounts, taxes, totals. */
export function settle({ results, printed, once, tally, discounts, taxes, rates }: ToSettle): Settled {
  const { money } = rates;
  const undiscounted = printed.concat(once.map((charge) => printCharge(charge, ZERO, money)));
  const discounted = applyDiscounts(results, once, undiscounted, tally, discounts, taxes, rates);
  const net = discounted?.tally ?? tally;
  const discount = sum(discounted?.amounts ?? []);
  const charges = discounted?.charges ?? undiscounted;

  const due = taxAmounts(net.taxedSums(), net.taxesByCharge(), taxes);
  const tax = sum(due.map((each) => each.amount));
  const kind = (name: ChargeKind): Decimal => tally.ofKinds([name]);
  const kinds = { labour: kind('labour'), part: kind('part'), core: kind('core'), sublet: kind('sublet'), fee: kind('fee'), supplies: kind('supplies') };
  const subtotal = sum(Object.values(kinds));
  const total = subtotal.minus(discount).plus(taxes.included ? ZERO : tax);
  const print = (amount: Decimal): string => printMoney(amount, money);

  return {
    charges,
    total,
    saved: { hours: printPlain(tally.sharedHours), money: print(tally.bookMoney.minus(tally.labourMoney)) },
    totals: {
      labour: print(kinds.labour),
      part: print(kinds.part),
      core: print(kinds.core),
      sublet: print(kinds.sublet),
      fee: print(kinds.fee),
      supplies: print(kinds.supplies),
      subtotal: print(subtotal),
      discount: print(discount),
      discounts: discounts.map(({ id, title }, i) => ({ id, title, amount: print(discounted!.amounts[i]!) })),
      taxes: due.map((each) => printTax(each, money, (value) => roundMoney(value, money))),
      tax: print(tax),
      total: print(total),
      cash: print(cashAmount(total, rates.rates.cashStep, money)),
    },
  };
}

/** Rule 10 over all charges; null where there is no discount, so that nothing need be added up again. */
function applyDiscounts(
  results: readonly LineResult[],
  once: readonly Charge[],
  undiscounted: readonly PricedCharge[],
  tally: Tally,
  discounts: readonly Discount[],
  taxes: TaxRule,
  rates: RateIndex,
): { tally: Tally; amounts: readonly Decimal[]; charges: PricedCharge[] } | null {
  if (discounts.length === 0) return null;
  const all = [...results.flatMap((result) => result.charges), ...once];
  const charges = [...undiscounted];
  const { parts, amounts } = takeDiscounts(all, discounts, rates.money);
  const net = tally.copy();
  all.forEach((charge, i) => {
    const part = parts[i]!;
    if (part.isZero()) return;
    net.addCharge(charge, charge.amount, taxes, -1);
    net.addCharge(charge, charge.amount.minus(part), taxes);
    charges[i] = { ...charges[i]!, discount: printMoney(part, rates.money) };
  });
  return { tally: net, amounts, charges };
}
