import type { ChargeKind } from '../documents/fields.js';
import { type Decimal, sum, ZERO } from '../number/decimal.js';
import { roundMoney } from '../number/money.js';
import type { Reckoning } from './reckon.js';
import { withoutTax } from './taxes.js';

/** What one estimate brings a shop. Sales are after discount and without tax. */
export interface Sales {
  /** What the customer pays, tax included. */
  readonly total: Decimal;
  readonly tax: Decimal;
  readonly discount: Decimal;
  /** On the money step; where prices include tax, each is rounded by itself once the tax is out of it. */
  readonly byKind: Readonly<Record<ChargeKind, Decimal>>;
  /** What the shop pays for the parts, and for the work that others did; not rounded. */
  readonly partsCost: Decimal;
  readonly subletCost: Decimal;
  /** Parts and sublet work that are sold without a cost being known: their whole price counts as margin. */
  readonly withoutCost: number;
  readonly hoursCharged: Decimal;
  /** Book hours that other lines pay for. */
  readonly hoursShared: Decimal;
  readonly linesPriced: number;
}

export function salesOf({ lines, sum: { total, tax, discount, net }, tally, taxes: rule }: Reckoning): Sales {
  const kind = (name: ChargeKind): Decimal =>
    rule.included ? roundMoney(withoutTax(net.taxedSums(name), rule), rule.money) : net.ofKinds([name]);
  const costs = { part: ZERO, sublet: ZERO };
  let withoutCost = 0;
  for (const { charges } of lines) {
    for (const { kind: of, cost, amount } of charges) {
      if (cost === undefined || (of !== 'part' && of !== 'sublet')) continue;
      costs[of] = costs[of].plus(cost);
      if (cost.isZero() && !amount.isZero()) withoutCost += 1;
    }
  }
  return {
    total,
    tax,
    discount,
    byKind: {
      labour: kind('labour'),
      part: kind('part'),
      core: kind('core'),
      sublet: kind('sublet'),
      fee: kind('fee'),
      supplies: kind('supplies'),
    },
    partsCost: costs.part,
    subletCost: costs.sublet,
    withoutCost,
    hoursCharged: sum(lines.map(({ draft, share }) => share?.chargedHours ?? draft.bookHours)),
    hoursShared: tally.sharedHours,
    linesPriced: lines.length,
  };
}
