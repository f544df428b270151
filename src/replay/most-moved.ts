import type { Estimate } from '../documents/estimate.js';
import type { Decimal, DecimalString } from '../number/decimal.js';
import { type MoneyRule, printMoney } from '../number/money.js';

/** An estimate whose total would have been another one. */
export interface MovedEstimate {
  /** Its place among those that were replayed, the first at 0. */
  readonly at: number;
  readonly id: string;
  readonly number: string;
  /** The vehicle, in the shop's words. */
  readonly label: string;
  /** Totals with tax. */
  readonly before: DecimalString;
  readonly after: DecimalString;
  readonly change: DecimalString;
}

interface Entry {
  readonly size: Decimal;
  readonly moved: MovedEstimate;
}

/** A list of the estimates that move most, by money, whichever way; it never holds more than `most`. */
export class MostMoved {
  private entries: Entry[] = [];

  constructor(
    private readonly most: number,
    private readonly money: MoneyRule,
  ) {}

  add(at: number, estimate: Estimate, before: Decimal, after: Decimal): void {
    const change = after.minus(before);
    const size = change.abs();
    if (size.isZero()) return;
    const place = this.entries.findIndex((entry) => size.gt(entry.size));
    if (place === -1 && this.entries.length >= this.most) return;
    const print = (amount: Decimal): DecimalString => printMoney(amount, this.money);
    const moved: MovedEstimate = {
      at,
      id: estimate.id,
      number: estimate.number,
      label: estimate.vehicle.label,
      before: print(before),
      after: print(after),
      change: print(change),
    };
    this.entries.splice(place === -1 ? this.entries.length : place, 0, { size, moved });
    this.entries.length = Math.min(this.entries.length, this.most);
  }

  list(): MovedEstimate[] {
    return this.entries.map(({ moved }) => moved);
  }
}
