import { type Decimal, decimal, ZERO } from '../../src/number/decimal.js';
import { type MoneyRule, roundMoney } from '../../src/number/money.js';
import { markedUp } from '../../src/pricing/markup.js';
import type { RateIndex, Tier } from '../../src/pricing/rate-index.js';
import type { Flat, FlatPart } from './flat.js';

/**
 * Only the decimal arithmetic of the sum, every figure read and every carrying line known beforehand: what is left of
 * the engine's cost when it need not look anything up, share anything, or print anything.
 */
export interface DecimalSheet {
  readonly lines: readonly DecimalLine[];
  readonly fee: Decimal;
}

interface DecimalLine {
  readonly hours: Decimal;
  readonly rate: Decimal;
  /** Hours of the steps that another line carries. */
  readonly shared: readonly Decimal[];
  readonly parts: readonly DecimalPart[];
}

interface DecimalPart {
  readonly qty: Decimal;
  readonly cost: Decimal;
  readonly unit: Decimal | null;
  readonly core: Decimal;
}

export function decimalSheet({ lines, steps, precedence }: Flat): DecimalSheet {
  const carriers = new Map<number, number>();
  for (const i of precedence) for (const step of lines[i]!.steps) if (!carriers.has(step)) carriers.set(step, i);
  return {
    lines: lines.map((line, i) => {
      const carried = line.steps.filter((step) => carriers.get(step) === i);
      const shared = line.steps.filter((step) => carriers.get(step) !== i);
      return {
        hours: decimal(line.hours),
        rate: decimal(line.rate),
        shared: shared.map((step) => decimal(steps[step]!.hours)),
        parts: [...line.parts, ...carried.flatMap((step) => steps[step]!.parts)].map(decimalPart),
      };
    }),
    fee: decimal(lines.some((line) => line.asksFee) ? '6.50' : '0'),
  };
}

function decimalPart({ qty, cost, unit, core }: FlatPart): DecimalPart {
  return { qty: decimal(qty), cost: decimal(cost), unit: unit === null ? null : decimal(unit), core: decimal(core) };
}

const SUPPLIES = decimal('0.06');
const TAXES = [decimal('0.0425'), decimal('0.015')];

export function decimalTotal({ lines, fee }: DecimalSheet, { tiers, money }: RateIndex): Decimal {
  let [labour, goods] = [ZERO, ZERO];
  for (const { hours, rate, shared, parts } of lines) {
    let charged = hours;
    for (const step of shared) charged = charged.minus(step);
    labour = labour.plus(roundMoney(charged.times(rate), money));
    for (const part of parts) goods = goods.plus(goodsOf(part, tiers, money));
  }
  const supplies = roundMoney(labour.times(SUPPLIES), money);
  const taxed = goods.plus(supplies);
  let total = labour.plus(goods).plus(fee).plus(supplies);
  for (const tax of TAXES) total = total.plus(roundMoney(taxed.times(tax), money));
  return total;
}

function goodsOf({ qty, cost, unit, core }: DecimalPart, tiers: readonly Tier[], money: MoneyRule): Decimal {
  const price = unit ?? markedUp(cost, 'progressive', tiers, money);
  const amount = roundMoney(qty.times(price), money);
  return core.isZero() ? amount : amount.plus(roundMoney(qty.times(core), money));
}
