import type { ChargeKind, Condition } from '../documents/fields.js';
import type { Decimal } from '../number/decimal.js';

/** What a part charge says about the part besides its price. Never its cost. */
export interface ChargedPart {
  /** The catalogue's id, or null for a part that was typed. */
  readonly id: string | null;
  readonly number: string;
  readonly condition: Condition;
}

/** One priced item, before discounts. `amount` is on the money step. */
export interface Charge {
  readonly id: string;
  /** The line that it belongs to; null for what is charged once for the estimate. */
  readonly line: string | null;
  readonly kind: ChargeKind;
  readonly title: string;
  readonly qty: Decimal;
  readonly unit: Decimal;
  readonly amount: Decimal;
  /** Ids of the taxes on it. */
  readonly taxes: readonly string[];
  readonly part?: ChargedPart;
  /** What the shop pays for a part or for sublet work, all of it together, not rounded. Never printed: customers see charges. */
  readonly cost?: Decimal;
}
