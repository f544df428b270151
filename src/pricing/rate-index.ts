import { closure } from '../documents/closure.js';
import type { ChargeKind } from '../documents/fields.js';
import type { Fee, MarkUp, Rates, Tax } from '../documents/rates.js';
import { byId } from '../documents/references.js';
import { type Decimal, decimal, HUNDRED, ONE } from '../number/decimal.js';
import { type MoneyRule, moneyRule } from '../number/money.js';

/** A mark-up tier in decimals: costs up to `upTo` (null: all) are sold at `factor` times the cost. */
export interface Tier {
  readonly upTo: Decimal | null;
  readonly factor: Decimal;
}

/** A tax with its percentage as a fraction. */
export interface IndexedTax {
  readonly tax: Tax;
  readonly rate: Decimal;
}

/** A checked rate card, prepared for many look-ups. */
export interface RateIndex {
  readonly rates: Rates;
  readonly money: MoneyRule;
  /** Labour rate by class. */
  readonly classes: ReadonlyMap<string, Decimal>;
  readonly tiers: readonly Tier[];
  readonly fees: ReadonlyMap<string, Fee>;
  readonly taxes: ReadonlyMap<string, IndexedTax>;
  /** Taxes so ordered that each comes after those that it is charged on. */
  readonly taxOrder: readonly IndexedTax[];
  /** What the kinds say: the taxes on each kind of charge, in the order of the card. */
  readonly taxesOf: Readonly<Record<ChargeKind, readonly string[]>>;
}

/** Prepares a rate card that `parseRates` has let through. */
export function indexRates(rates: Rates): RateIndex {
  const taxes = new Map(rates.taxes.map((tax) => [tax.id, { tax, rate: decimal(tax.percent).div(HUNDRED) }]));
  const on = (kind: ChargeKind): string[] => rates.taxes.filter((tax) => tax.on.includes(kind)).map((tax) => tax.id);
  return {
    rates,
    money: moneyRule(rates.currency, rates.moneyStep, rates.rounding),
    classes: new Map(rates.labourClasses.map((labourClass) => [labourClass.id, decimal(labourClass.rate)])),
    tiers: indexTiers(rates.parts),
    fees: byId(rates.fees),
    taxes,
    taxOrder: inOrder(rates.taxes).map((tax) => taxes.get(tax.id)!),
    taxesOf: {
      labour: on('labour'),
      part: on('part'),
      core: on('core'),
      sublet: on('sublet'),
      fee: on('fee'),
      supplies: on('supplies'),
    },
  };
}

export function indexTiers(markUp: MarkUp): Tier[] {
  return markUp.tiers.map((tier) => ({
    upTo: tier.upTo === null ? null : decimal(tier.upTo),
    factor: ONE.plus(decimal(tier.percent).div(HUNDRED)),
  }));
}

/** A tax comes after everything it is charged on, so the one that rests on fewer comes first. */
function inOrder(taxes: readonly Tax[]): Tax[] {
  const after = new Map(taxes.map((tax) => [tax.id, tax.after]));
  const depth = new Map(taxes.map((tax) => [tax.id, closure(tax.after, (id) => after.get(id) ?? []).size]));
  return [...taxes].sort((a, b) => depth.get(a.id)! - depth.get(b.id)!);
}
