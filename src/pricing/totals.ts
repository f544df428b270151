import type { Discount } from '../documents/estimate.js';
import type { ChargeKind } from '../documents/fields.js';
import { type Decimal, printPlain, sum, ZERO } from '../number/decimal.js';
import { cashAmount, printMoney, roundMoney } from '../number/money.js';
import type { Charge } from './charge.js';
import { type Discounted, discountCharges } from './discounted.js';
import type { PricedCharge, PricedOverlap, PricedTotals } from './priced-estimate.js';
import { printCharge, printTax } from './print.js';
import type { RateIndex } from './rate-index.js';
import type { TakenOff } from './take-off.js';
import type { Tally } from './tally.js';
import { type TaxAmount, taxAmounts, type TaxRule } from './taxes.js';

interface ToSettle {
  /** The charges of all lines. */
  readonly charges: readonly Charge[];
  /** The same, as printed without discounts. */
  readonly printed: readonly PricedCharge[];
  /** What is charged once for the estimate: fees, then supplies. */
  readonly once: readonly Charge[];
  /** All of these charges, before discount. */
  readonly tally: Tally;
  readonly discounts: readonly Discount[];
  readonly taxes: TaxRule;
  readonly rates: RateIndex;
  /** What came of discounts the last time. */
  readonly lastDiscounted: Discounted | null;
}

export interface Settled {
  readonly charges: readonly PricedCharge[];
  readonly totals: PricedTotals;
  readonly saved: Pick<PricedOverlap, 'hours' | 'money'>;
  readonly total: Decimal;
  /** Null where there is no discount. */
  readonly discounted: Discounted | null;
}

/** The end of the sum: discounts, taxes, totals. */
export function settle({ charges, printed, once, tally, discounts, taxes, rates, lastDiscounted }: ToSettle): Settled {
  const { money } = rates;
  const undiscounted = printed.concat(once.map((charge) => printCharge(charge, ZERO, money)));
  const discounted = discounts.length === 0 ? null : discountCharges(charges.concat(once), undiscounted, discounts, taxes, lastDiscounted);
  const { kinds, subtotal, discount, due, tax, total } = sumUp(tally, discounted, taxes);
  const print = (amount: Decimal): string => printMoney(amount, money);

  return {
    charges: discounted?.printed ?? undiscounted,
    discounted,
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

/** What an estimate comes to in the end. */
export interface Sum {
  /** Before discount. */
  readonly kinds: Readonly<Record<ChargeKind, Decimal>>;
  readonly subtotal: Decimal;
  readonly discount: Decimal;
  /** All charges after discount. */
  readonly net: Tally;
  readonly due: readonly TaxAmount[];
  readonly tax: Decimal;
  readonly total: Decimal;
}

/**
 * Rules 10 and 11 once everything is charged.
 *
 * @param tally all charges before discount
 */
export function sumUp(tally: Tally, off: TakenOff | null, taxes: TaxRule): Sum {
  const net = off === null ? tally : tally.copy();
  if (off !== null) net.add(off.taken);
  const discount = sum(off?.amounts ?? []);
  const due = taxAmounts(net.taxedSums(), net.taxesByCharge(), taxes);
  const tax = sum(due.map((each) => each.amount));
  const kind = (name: ChargeKind): Decimal => tally.ofKinds([name]);
  const kinds = {
    labour: kind('labour'),
    part: kind('part'),
    core: kind('core'),
    sublet: kind('sublet'),
    fee: kind('fee'),
    supplies: kind('supplies'),
  };
  const subtotal = sum(Object.values(kinds));
  return { kinds, subtotal, discount, net, due, tax, total: subtotal.minus(discount).plus(taxes.included ? ZERO : tax) };
}
