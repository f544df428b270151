import { type Decimal, type DecimalString, HUNDRED, printPlain, ZERO } from '../number/decimal.js';
import { type MoneyRule, printMoney, roundMoney } from '../number/money.js';
import { roundToDigits } from '../number/rounding.js';
import type { Sales } from '../pricing/sales.js';

/** What the owner of a shop asks of many estimates together. All names are those of `FIGURES`. */
export type FigureName = keyof typeof FIGURES;

/**
 * Every figure and its unit: `money`, `hours`, `percent`, or `rate` (money for an hour). **Sales are after discount and
 * without tax.**
 */
export const FIGURES = {
  /** What customers pay, tax included. */
  total: 'money',
  tax: 'money',
  /** Revenue without tax: total − tax. */
  beforeTax: 'money',
  /** What discounts have taken off. */
  discount: 'money',
  labourSales: 'money',
  partsSales: 'money',
  /** Core charges, which are passed on at what they cost: no margin is counted on them. */
  coreSales: 'money',
  subletSales: 'money',
  feeSales: 'money',
  suppliesSales: 'money',
  /** Quantity × cost of the parts, by the catalogue or as typed. */
  partsCost: 'money',
  subletCost: 'money',
  /** Hours charged × the wage that was given; zero without one. */
  wages: 'money',
  /** Parts sales − parts cost. */
  partsMargin: 'money',
  /** Parts margin in hundredths of parts sales, to a tenth. */
  partsMarginPercent: 'percent',
  /** Revenue without tax − core charges − parts cost − sublet cost − wages. Without a wage, no work is paid from it yet. */
  grossProfit: 'money',
  /** Hours charged, over all priced lines. */
  hoursCharged: 'hours',
  /** Book hours that were not charged since another line pays for the same teardown. */
  hoursGivenBack: 'hours',
  /** Labour sales ÷ hours charged. */
  effectiveLabourRate: 'rate',
  /** Revenue without tax ÷ estimates. */
  averageEstimate: 'money',
} as const;

/** Exact; null where there is nothing to divide by. */
export type Figures = Readonly<Record<FigureName, Decimal | null>>;

/** Money in the digits of the money step, hours in plain decimals; null where there is nothing to divide by. */
export type PrintedFigures = Readonly<Record<FigureName, DecimalString | null>>;

/** The running sums of one side of a replay; nothing of a single estimate is kept. */
export class SalesSums {
  count = 0;
  /** Parts and sublet work that were sold without a cost being known. */
  withoutCost = 0;
  private readonly kinds = { labour: ZERO, part: ZERO, core: ZERO, sublet: ZERO, fee: ZERO, supplies: ZERO };
  private total = ZERO;
  private tax = ZERO;
  private discount = ZERO;
  private partsCost = ZERO;
  private subletCost = ZERO;
  private hoursCharged = ZERO;
  private hoursShared = ZERO;

  /** @param wage what the shop pays for an hour that it charges; null: wages are left out */
  constructor(private readonly wage: Decimal | null) {}

  add(sales: Sales): void {
    this.count += 1;
    this.withoutCost += sales.withoutCost;
    for (const kind of KINDS) this.kinds[kind] = this.kinds[kind].plus(sales.byKind[kind]);
    this.total = this.total.plus(sales.total);
    this.tax = this.tax.plus(sales.tax);
    this.discount = this.discount.plus(sales.discount);
    this.partsCost = this.partsCost.plus(sales.partsCost);
    this.subletCost = this.subletCost.plus(sales.subletCost);
    this.hoursCharged = this.hoursCharged.plus(sales.hoursCharged);
    this.hoursShared = this.hoursShared.plus(sales.hoursShared);
  }

  figures(): Figures {
    const { kinds, total, tax, discount, partsCost, subletCost, hoursCharged } = this;
    const beforeTax = total.minus(tax);
    const wages = this.wage === null ? ZERO : hoursCharged.times(this.wage);
    const partsMargin = kinds.part.minus(partsCost);
    return {
      total,
      tax,
      beforeTax,
      discount,
      labourSales: kinds.labour,
      partsSales: kinds.part,
      coreSales: kinds.core,
      subletSales: kinds.sublet,
      feeSales: kinds.fee,
      suppliesSales: kinds.supplies,
      partsCost,
      subletCost,
      wages,
      partsMargin,
      partsMarginPercent: quotient(partsMargin.times(HUNDRED), kinds.part),
      grossProfit: beforeTax.minus(kinds.core).minus(partsCost).minus(subletCost).minus(wages),
      hoursCharged,
      hoursGivenBack: this.hoursShared,
      effectiveLabourRate: quotient(kinds.labour, hoursCharged),
      averageEstimate: this.count === 0 ? null : beforeTax.div(this.count),
    };
  }
}

const KINDS = ['labour', 'part', 'core', 'sublet', 'fee', 'supplies'] as const;

function quotient(over: Decimal, under: Decimal): Decimal | null {
  return under.isZero() ? null : over.div(under);
}

/** `after` − `before`, figure by figure; null where either is. */
export function differenceOf(before: Figures, after: Figures): Figures {
  return mapFigures((name) => {
    const [from, to] = [before[name], after[name]];
    return from === null || to === null ? null : to.minus(from);
  });
}

/** Rounded for show only: nothing is worked out from printed figures. */
export function printFigures(figures: Figures, money: MoneyRule): PrintedFigures {
  return mapFigures((name) => printFigure(name, figures[name], money));
}

export function printFigure(name: FigureName, value: Decimal | null, money: MoneyRule): DecimalString | null {
  if (value === null) return null;
  switch (FIGURES[name]) {
    case 'hours':
      return printPlain(value);
    case 'percent':
      return roundToDigits(value, 1, money.rounding).toFixed(1);
    default:
      return printMoney(unsigned(roundMoney(value, money)), money);
  }
}

/** A negative amount that rounds to nothing is nothing. */
function unsigned(value: Decimal): Decimal {
  return value.isZero() ? ZERO : value;
}

function mapFigures<T>(figure: (name: FigureName) => T): Readonly<Record<FigureName, T>> {
  return Object.fromEntries(Object.keys(FIGURES).map((name) => [name, figure(name as FigureName)])) as Record<FigureName, T>;
}
