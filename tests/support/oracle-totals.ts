/** Rules 10 and 11 a second time: discounts by largest remainder, taxes on and in the price. */
import type { DiscountDoc, RatesDoc, TaxDoc } from './oracle-documents.js';
import { Fraction, ONE, ZERO, least, percentOf, sum } from './oracle-fraction.js';
import { type OracleCharge, moneyStepOf, roundMoney } from './oracle-charges.js';

export interface OracleTax {
  id: string;
  base: Fraction;
  amount: Fraction;
}

const net = (charge: OracleCharge): Fraction => charge.amount.minus(charge.discount);

/**
 * Shares `amount` (whole steps) in proportion to `weights`: every share rounded down to the step, then the steps
 * left over one each to the largest remainders, the first where they tie.
 */
export function largestRemainder(amount: Fraction, weights: Fraction[], step: Fraction): Fraction[] {
  const whole = sum(weights);
  const exact = weights.map((weight) => amount.times(weight).over(whole).over(step));
  const shares = exact.map((share) => share.floor());
  const remainders = exact.map((share, i) => share.minus(new Fraction(shares[i]!)));
  let left = amount.over(step).floor() - shares.reduce((a, b) => a + b, 0n);
  const order = remainders.map((_, i) => i).sort((a, b) => remainders[b]!.compare(remainders[a]!) || a - b);
  for (const i of order) {
    if (left === 0n) break;
    shares[i]! += 1n;
    left -= 1n;
  }
  return shares.map((share) => new Fraction(share).times(step));
}

/** Takes the discounts off the charges, in order. */
export function discountCharges(charges: OracleCharge[], discounts: DiscountDoc[], rates: RatesDoc): void {
  for (const discount of discounts) {
    const named = charges.filter(
      ({ kind, line }) => discount.on.includes(kind) && (discount.lines.length === 0 || (line !== null && discount.lines.includes(line))),
    );
    const base = sum(named.map(net));
    if (base.sign <= 0) continue;
    const wanted = discount.percent === null ? Fraction.of(discount.amount!) : percentOf(discount.percent, base);
    const amount = least(roundMoney(wanted, rates), base);
    const shares = largestRemainder(amount, named.map(net), moneyStepOf(rates));
    named.forEach((charge, i) => {
      charge.discount = charge.discount.plus(shares[i]!);
    });
  }
}

/** The taxes so that each stands after those in its `after`. */
function inOrder(taxes: TaxDoc[]): TaxDoc[] {
  const ordered: TaxDoc[] = [];
  const visit = (tax: TaxDoc): void => {
    if (ordered.includes(tax)) return;
    tax.after.forEach((id) => visit(taxes.find((other) => other.id === id)!));
    ordered.push(tax);
  };
  taxes.forEach(visit);
  return ordered;
}

const has = (charge: OracleCharge, tax: TaxDoc): boolean => charge.taxes.includes(tax.id);

function taxesOnTop(charges: OracleCharge[], rates: RatesDoc, exempt: string[]): OracleTax[] {
  const done = new Map<string, OracleTax & { byCharge: Fraction[] }>();
  for (const tax of inOrder(rates.taxes)) {
    const before = tax.after.map((id) => done.get(id)!);
    const bases = charges.map((charge, i) => sum([has(charge, tax) ? net(charge) : ZERO, ...before.map(({ byCharge }) => byCharge[i]!)]));
    const free = exempt.includes(tax.id);
    if (rates.taxRounding === 'line') {
      const byCharge = bases.map((base) => (free ? ZERO : roundMoney(percentOf(tax.percent, base), rates)));
      done.set(tax.id, { id: tax.id, base: sum(bases), amount: sum(byCharge), byCharge });
    } else {
      const taxed = charges.filter((charge) => has(charge, tax)).map(net);
      const base = sum([...taxed, ...before.map(({ amount }) => amount)]);
      const amount = free ? ZERO : roundMoney(percentOf(tax.percent, base), rates);
      done.set(tax.id, { id: tax.id, base, amount, byCharge: charges.map(() => ZERO) });
    }
  }
  return rates.taxes.map(({ id }) => done.get(id)!);
}

function taxesInThePrice(charges: OracleCharge[], rates: RatesDoc, exempt: string[]): OracleTax[] {
  const ordered = inOrder(rates.taxes);
  const shares = charges.map((charge) => {
    const effective = new Map<string, Fraction>();
    for (const tax of ordered) {
      const on = sum([has(charge, tax) ? ONE : ZERO, ...tax.after.map((id) => effective.get(id)!)]);
      effective.set(tax.id, exempt.includes(tax.id) ? ZERO : percentOf(tax.percent, on));
    }
    const taxFree = net(charge).over(ONE.plus(sum(effective.values())));
    return { taxFree, part: (tax: TaxDoc): Fraction => taxFree.times(effective.get(tax.id)!) };
  });
  const amounts = new Map(
    ordered.map((tax) => {
      const parts = shares.map(({ part }) => part(tax));
      const amount = rates.taxRounding === 'line' ? sum(parts.map((part) => roundMoney(part, rates))) : roundMoney(sum(parts), rates);
      return [tax.id, amount];
    }),
  );
  return rates.taxes.map((tax) => {
    const taxed = shares.filter((_, i) => has(charges[i]!, tax)).map(({ taxFree }) => taxFree);
    const base = sum([...taxed, ...tax.after.map((id) => amounts.get(id)!)]);
    return { id: tax.id, base: roundMoney(base, rates), amount: amounts.get(tax.id)! };
  });
}

/** Each tax of the card with its base and amount, in card order. */
export function oracleTaxes(charges: OracleCharge[], rates: RatesDoc, exempt: string[]): OracleTax[] {
  return rates.pricesIncludeTax ? taxesInThePrice(charges, rates, exempt) : taxesOnTop(charges, rates, exempt);
}
