import type { ChargeKind } from '../documents/fields.js';
import { type Decimal, ZERO } from '../number/decimal.js';
import type { Charge } from './charge.js';
import { type TaxedSum, taxesOfCharge, type TaxRule } from './taxes.js';

interface Group {
  readonly kind: ChargeKind;
  readonly taxes: readonly string[];
  readonly net: Decimal;
}

/**
 * What charges add up to, by kind and by the taxes on them. All that the estimate as a whole needs can be read from
 * it. Since the arithmetic is exact, a tally may be kept up to date by taking one line's old figures out and adding
 * its new ones, however often: nothing drifts.
 */
export class Tally {
  private readonly groups = new Map<string, Group>();
  private readonly taxes = new Map<string, Decimal>();
  private readonly fees = new Map<string, number>();
  /** Labour at book prices, labour as charged, and the hours between them. */
  bookMoney = ZERO;
  labourMoney = ZERO;
  sharedHours = ZERO;

  /** Adds a charge at `net`, its amount after discount, or takes one out again that was added at it. */
  addCharge(charge: Charge, net: Decimal, rule: TaxRule, sign: 1 | -1 = 1): void {
    const signed = (value: Decimal): Decimal => (sign === 1 ? value : value.neg());
    this.addGroup(`${charge.kind} ${charge.taxes.join(' ')}`, { kind: charge.kind, taxes: charge.taxes, net: signed(net) });
    if (rule.byLine) {
      for (const [id, amount] of taxesOfCharge(net, charge.taxes, rule)) this.addTax(id, signed(amount));
    }
  }

  /** Notes that a line asks for a fee that is charged once for the estimate. */
  askFee(id: string, times = 1): void {
    this.fees.set(id, (this.fees.get(id) ?? 0) + times);
  }

  add(other: Tally, sign: 1 | -1 = 1): void {
    const signed = (value: Decimal): Decimal => (sign === 1 ? value : value.neg());
    for (const [key, group] of other.groups) this.addGroup(key, { ...group, net: signed(group.net) });
    for (const [id, amount] of other.taxes) this.addTax(id, signed(amount));
    for (const [id, times] of other.fees) this.askFee(id, sign * times);
    this.bookMoney = this.bookMoney.plus(signed(other.bookMoney));
    this.labourMoney = this.labourMoney.plus(signed(other.labourMoney));
    this.sharedHours = this.sharedHours.plus(signed(other.sharedHours));
  }

  copy(): Tally {
    const copy = new Tally();
    copy.add(this);
    return copy;
  }

  ofKinds(kinds: readonly ChargeKind[]): Decimal {
    let total = ZERO;
    for (const group of this.groups.values()) if (kinds.includes(group.kind)) total = total.plus(group.net);
    return total;
  }

  /** @param kind only charges of this kind */
  taxedSums(kind?: ChargeKind): TaxedSum[] {
    const groups = [...this.groups.values()];
    return kind === undefined ? groups : groups.filter((group) => group.kind === kind);
  }

  /** By tax, the amounts of all charges together; empty unless the card rounds tax by line. */
  taxesByCharge(): ReadonlyMap<string, Decimal> {
    return this.taxes;
  }

  feesAsked(): { has(id: string): boolean } {
    return { has: (id) => (this.fees.get(id) ?? 0) > 0 };
  }

  private addGroup(key: string, group: Group): void {
    const known = this.groups.get(key);
    this.groups.set(key, known === undefined ? group : { ...known, net: known.net.plus(group.net) });
  }

  private addTax(id: string, amount: Decimal): void {
    this.taxes.set(id, (this.taxes.get(id) ?? ZERO).plus(amount));
  }
}
