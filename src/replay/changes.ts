import { type Decimal, type DecimalString, max, min, printPlain } from '../number/decimal.js';
import { type MoneyRule, printMoney } from '../number/money.js';

/** How the totals of estimates have changed, in classes of one round width. */
export interface Changes {
  readonly width: DecimalString;
  /** From the smallest change to the largest, without a gap; `from` ≤ change < `to`. Unchanged estimates are in none. */
  readonly classes: readonly { readonly from: DecimalString; readonly to: DecimalString; readonly count: number }[];
  readonly unchanged: number;
  readonly up: number;
  readonly down: number;
  /** Null where nothing was compared. */
  readonly smallest: DecimalString | null;
  readonly largest: DecimalString | null;
}

/** Classes are made ten times wider when a change lies beyond so many of them. */
const FARTHEST = 500;
/** As many as can be told apart in a picture. */
const MOST_SHOWN = 24;

/**
 * Counts changes without keeping them: classes that begin one money step wide and become ten times wider whenever a
 * change falls too far out, ten old ones making one new one. Room for it is fixed, whatever comes.
 */
export class ChangeCounter {
  private width: Decimal;
  private counts = new Map<number, number>();
  private unchanged = 0;
  private up = 0;
  private down = 0;
  private smallest: Decimal | null = null;
  private largest: Decimal | null = null;

  constructor(private readonly money: MoneyRule) {
    this.width = money.step;
  }

  add(change: Decimal): void {
    this.smallest = this.smallest === null ? change : min(this.smallest, change);
    this.largest = this.largest === null ? change : max(this.largest, change);
    if (change.isZero()) {
      this.unchanged += 1;
      return;
    }
    if (change.isNegative()) this.down += 1;
    else this.up += 1;
    while (change.abs().gte(this.width.times(FARTHEST))) this.widen();
    const place = change.div(this.width).floor().toNumber();
    this.counts.set(place, (this.counts.get(place) ?? 0) + 1);
  }

  changes(): Changes {
    const times = this.shownTimes();
    const counts = coarser(this.counts, times);
    const width = this.width.times(times);
    const places = [...counts.keys()];
    const [first, last] = places.length === 0 ? [0, -1] : [Math.min(...places), Math.max(...places)];
    const limit = (place: number): DecimalString => printMoney(width.times(place), this.money);
    const print = (value: Decimal | null): DecimalString | null => (value === null ? null : printMoney(value, this.money));
    return {
      width: printPlain(width),
      classes: Array.from({ length: last - first + 1 }, (_, i) => ({
        from: limit(first + i),
        to: limit(first + i + 1),
        count: counts.get(first + i) ?? 0,
      })),
      unchanged: this.unchanged,
      up: this.up,
      down: this.down,
      smallest: print(this.smallest),
      largest: print(this.largest),
    };
  }

  private widen(): void {
    this.counts = coarser(this.counts, 10);
    this.width = this.width.times(10);
  }

  /** How many classes become one, so that few enough are shown: 1, 2, 5, 10, 20 … */
  private shownTimes(): number {
    for (let power = 1; ; power *= 10) {
      for (const times of [power, 2 * power, 5 * power]) {
        const places = [...coarser(this.counts, times).keys()];
        if (places.length === 0 || Math.max(...places) - Math.min(...places) < MOST_SHOWN) return times;
      }
    }
  }
}

function coarser(counts: ReadonlyMap<number, number>, times: number): Map<number, number> {
  const wider = new Map<number, number>();
  for (const [place, count] of counts) {
    const at = Math.floor(place / times);
    wider.set(at, (wider.get(at) ?? 0) + count);
  }
  return wider;
}
