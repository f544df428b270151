import type { Tax } from '../documents/rates.js';
import { type Decimal, ONE, sum, ZERO } from '../number/decimal.js';
import { type MoneyRule, roundMoney } from '../number/money.js';
import type { IndexedTax, RateIndex } from './rate-index.js';

/** The taxes of a card for one customer: what is exempt has a rate of zero. */
export interface TaxRule {
  /** In the order of the card, for show. */
  readonly card: readonly Tax[];
  /** So ordered that each comes after those that it is charged on. */
  readonly taxes: readonly (IndexedTax & { readonly exempt: boolean })[];
  readonly byLine: boolean;
  readonly included: boolean;
  readonly money: MoneyRule;
}

/** What charges with the same taxes on them add up to, after discount. */
export interface TaxedSum {
  readonly taxes: readonly string[];
  readonly net: Decimal;
}

/** What one tax comes to. `base` is on the money step only where a rule put it there; it is printed rounded. */
export interface TaxAmount {
  readonly tax: Tax;
  readonly exempt: boolean;
  readonly base: Decimal;
  readonly amount: Decimal;
}

export function taxRule(rates: RateIndex, exempt: readonly string[]): TaxRule {
  return {
    card: rates.rates.taxes,
    taxes: rates.taxOrder.map((indexed) =>
      exempt.includes(indexed.tax.id) ? { ...indexed, rate: ZERO, exempt: true } : { ...indexed, exempt: false },
    ),
    byLine: rates.rates.taxRounding === 'line',
    included: rates.rates.pricesIncludeTax,
    money: rates.money,
  };
}

/**
 * Rule 11 where the card rounds tax line by line: the taxes of one charge.
 *
 * @param net the charge after discount
 * @returns amounts on the money step, by tax
 */
export function taxesOfCharge(net: Decimal, taxes: readonly string[], rule: TaxRule): Map<string, Decimal> {
  const amounts = new Map<string, Decimal>();
  if (rule.included) {
    const { shares, gross } = sharesOfPrice(taxes, rule);
    for (const [id, share] of shares) amounts.set(id, roundMoney(net.times(share).div(gross), rule.money));
    return amounts;
  }
  for (const { tax, rate } of rule.taxes) {
    const own = taxes.includes(tax.id) ? net : ZERO;
    const base = own.plus(sum(tax.after.map((id) => amounts.get(id)!)));
    amounts.set(tax.id, roundMoney(base.times(rate), rule.money));
  }
  return amounts;
}

/**
 * Rule 11: every tax of the card, on what the charges add up to.
 *
 * @param sums charges after discount, added up by the taxes that are on them
 * @param byCharge by tax, what `taxesOfCharge` gave for all charges together; only asked where the card rounds by line
 */
export function taxAmounts(sums: readonly TaxedSum[], byCharge: ReadonlyMap<string, Decimal>, rule: TaxRule): TaxAmount[] {
  const found = new Map<string, TaxAmount>();
  const groups = withShares(sums, rule);
  for (const { tax, rate, exempt } of rule.taxes) {
    const taxed = groups.filter((group) => group.taxes.includes(tax.id));
    const before = sum(tax.after.map((id) => found.get(id)!.amount));
    const base = netOf(taxed).plus(before);
    const amount = rule.byLine
      ? (byCharge.get(tax.id) ?? ZERO)
      : roundMoney(rule.included ? takenOut(tax.id, groups) : base.times(rate), rule.money);
    found.set(tax.id, { tax, exempt, base, amount });
  }
  return rule.card.map((tax) => found.get(tax.id)!);
}

/** What charges come to without the taxes that are in their prices; not rounded. */
export function withoutTax(sums: readonly TaxedSum[], rule: TaxRule): Decimal {
  return netOf(withShares(sums, rule));
}

/** A sum with what each tax has in it. */
interface SharedSum extends TaxedSum, Shares {}

const NO_SHARES: Shares = { shares: new Map(), gross: ONE };

function withShares(sums: readonly TaxedSum[], rule: TaxRule): SharedSum[] {
  return sums.map((group) => ({ ...group, ...(rule.included ? sharesOfPrice(group.taxes, rule) : NO_SHARES) }));
}

function netOf(groups: readonly SharedSum[]): Decimal {
  return addQuotients(groups.map(({ net, gross }) => [net, gross]));
}

/** One tax out of prices that hold it. */
function takenOut(id: string, groups: readonly SharedSum[]): Decimal {
  return addQuotients(groups.map(({ net, shares, gross }) => [net.times(shares.get(id)!), gross]));
}

/** Quotients added over a common denominator, so that no digit is lost before the one rounding. */
function addQuotients(quotients: readonly (readonly [numerator: Decimal, denominator: Decimal])[]): Decimal {
  let numerator = ZERO;
  let denominator = ONE;
  for (const [over, under] of quotients) {
    if (over.isZero()) continue;
    if (under.eq(denominator)) numerator = numerator.plus(over);
    else {
      numerator = numerator.times(under).plus(over.times(denominator));
      denominator = denominator.times(under);
    }
  }
  return numerator.div(denominator);
}

/** What each tax adds to a price of one, and the price with all of them. */
interface Shares {
  readonly shares: ReadonlyMap<string, Decimal>;
  readonly gross: Decimal;
}

function sharesOfPrice(taxes: readonly string[], rule: TaxRule): Shares {
  const shares = new Map<string, Decimal>();
  for (const { tax, rate } of rule.taxes) {
    const own = taxes.includes(tax.id) ? ONE : ZERO;
    shares.set(tax.id, rate.times(own.plus(sum(tax.after.map((id) => shares.get(id)!)))));
  }
  return { shares, gross: ONE.plus(sum(shares.values())) };
}
