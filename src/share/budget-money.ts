import type { Discount } from '../documents/estimate.js';
import type { ChargeKind } from '../documents/fields.js';
import { type Decimal, decimal, HUNDRED, max, min, ONE, sum, ZERO } from '../number/decimal.js';
import { roundMoney } from '../number/money.js';
import type { RateIndex } from '../pricing/rate-index.js';
import { type TaxRule, taxRule } from '../pricing/taxes.js';

/** A charge that may come about, before it is rounded. */
export interface Likely {
  readonly line: string | null;
  readonly kind: ChargeKind;
  readonly amount: Decimal;
  readonly taxes: readonly string[];
}

const HALF = ONE.div(2);

/**
 * What charges add to a total at least: after the percentages of the discounts, with their taxes, and with whatever
 * the roundings on the way may take off.
 */
export class LeastMoney {
  private readonly rule: TaxRule;
  private readonly step: Decimal;
  /** By tax: the most that its rounding, and that of the taxes which it rests on, may move it by. */
  private readonly slack = new Map<string, Decimal>();
  private readonly seen: { readonly charge: Likely; readonly factor: Decimal }[] = [];

  constructor(
    private readonly rates: RateIndex,
    exempt: readonly string[],
    private readonly discounts: readonly Discount[],
  ) {
    this.rule = taxRule(rates, exempt);
    this.step = rates.money.step;
    for (const { tax, rate } of this.rule.taxes) {
      const before = sum(tax.after.map((id) => this.slack.get(id)!));
      this.slack.set(tax.id, rate.isZero() ? ZERO : this.step.times(HALF).plus(rate.times(before)));
    }
  }

  of(charge: Likely): Decimal {
    const factor = ONE.plus(this.rule.included ? ZERO : sum(this.shares(charge.taxes).values()));
    this.seen.push({ charge, factor });
    // A credit is taken in full: discounts make it smaller, if anything.
    const left = charge.amount.lt(ZERO) ? ONE : this.leftByPercentages(charge);
    const rounded = this.isOnStep(charge.amount) ? ZERO : this.step.times(HALF);
    return charge.amount.times(left).minus(rounded).times(factor).minus(this.slackOf(charge.taxes));
  }

  /** By how much the roundings of taxes may move one charge, where they are rounded charge by charge. */
  slackOf(taxes: readonly string[]): Decimal {
    if (!this.rule.byLine || this.rule.included) return ZERO;
    return sum([...this.shares(taxes)].map(([id, share]) => (share.isZero() ? ZERO : this.slack.get(id)!)));
  }

  /** The same before discounts and taxes. */
  before(charge: Likely): Decimal {
    return charge.amount.minus(this.isOnStep(charge.amount) ? ZERO : this.step.times(HALF));
  }

  /** What may be off the whole beyond the charges: fixed discounts, and the roundings of discounts and taxes. Asked once all charges are known. */
  offTheWhole(): Decimal {
    let off = this.rule.byLine || this.rule.included ? ZERO : sum(this.slack.values());
    for (const discount of this.discounts) {
      const named = this.seen.filter(({ charge }) => names(discount, charge));
      if (named.length === 0) continue;
      const factors = named.map(({ factor }) => factor);
      const most = factors.reduce(max);
      // Beside a credit a discount may take nearly all of the other charges, and give the credit as much back: what it
      // comes to is the same, but tax moves. So it does where a share is up to a step away from its proportion.
      const credits = sum(named.map(({ charge }) => max(ZERO, charge.amount.neg())));
      off = off.plus(credits.plus(this.step.times(named.length)).times(most.minus(factors.reduce(min))));
      const fixed = discount.percent === null ? roundMoney(decimal(discount.amount!), this.rates.money) : this.step.times(HALF);
      off = off.plus(fixed.times(most));
    }
    return off;
  }

  /** Whether two charges may change places without moving a discount from one rate of tax to another. */
  discountsAreEven(): boolean {
    return this.discounts.every((discount) => {
      const [first, ...others] = this.seen.filter(({ charge }) => names(discount, charge)).map(({ factor }) => factor);
      return others.every((factor) => factor.eq(first!));
    });
  }

  isOnStep(amount: Decimal): boolean {
    return amount.mod(this.step).isZero();
  }

  private leftByPercentages(charge: Likely): Decimal {
    let left = ONE;
    for (const discount of this.discounts) {
      if (discount.percent === null || !names(discount, charge)) continue;
      left = left.times(max(ZERO, ONE.minus(decimal(discount.percent).div(HUNDRED))));
    }
    return left;
  }

  /** What each tax adds to one of a charge with these taxes on it. */
  private shares(taxes: readonly string[]): Map<string, Decimal> {
    const shares = new Map<string, Decimal>();
    for (const { tax, rate } of this.rule.taxes) {
      const own = taxes.includes(tax.id) ? ONE : ZERO;
      shares.set(tax.id, rate.times(own.plus(sum(tax.after.map((id) => shares.get(id)!)))));
    }
    return shares;
  }
}

function names(discount: Discount, charge: Likely): boolean {
  if (!discount.on.includes(charge.kind)) return false;
  return discount.lines.length === 0 || (charge.line !== null && discount.lines.includes(charge.line));
}
