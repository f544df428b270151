import type { ChargeKind } from '../documents/fields.js';
import type { Decision, Line } from '../documents/lines.js';
import type { Problem } from '../documents/problem.js';
import type { DecimalString } from '../number/decimal.js';
import type { ChargedPart } from './charge.js';

/** A line of the estimate with its price. Money has the money step's digits, hours are plain decimals. */
export interface PricedLine {
  readonly id: string;
  readonly kind: Line['kind'];
  readonly title: string;
  readonly decision: Decision;
  /** False for what was declined or deferred, for notes, and for lines that cannot be priced. */
  readonly priced: boolean;
  readonly bookHours: DecimalString;
  readonly sharedHours: DecimalString;
  readonly chargedHours: DecimalString;
  readonly rate: DecimalString;
  readonly labour: DecimalString;
  /** All charges of the line, before discount and tax. */
  readonly amount: DecimalString;
  /** The line that this one is part of (rule 5). */
  readonly includedIn: string | null;
  /** Ids of the steps that the line pays for. */
  readonly carries: readonly string[];
  readonly uses: readonly { readonly step: string; readonly position: string | null; readonly carriedBy: string }[];
}

export interface PricedCharge {
  readonly id: string;
  readonly line: string | null;
  readonly kind: ChargeKind;
  readonly title: string;
  readonly qty: DecimalString;
  readonly unit: DecimalString;
  readonly amount: DecimalString;
  readonly discount: DecimalString;
  readonly taxes: readonly string[];
  /** On charges of kind part and core. */
  readonly part?: ChargedPart;
}

export interface PricedTax {
  readonly id: string;
  readonly title: string;
  readonly percent: DecimalString;
  readonly base: DecimalString;
  readonly amount: DecimalString;
  /** The customer is exempt, so the amount is zero. */
  readonly exempt: boolean;
}

export interface PricedStep {
  readonly step: string;
  readonly position: string | null;
  readonly title: string;
  readonly hours: DecimalString;
  /** The lines that need it, in the order of the sheet. */
  readonly lines: readonly string[];
  readonly carriedBy: string;
  readonly savedHours: DecimalString;
}

/** How the lines share their teardown, and what that saves. */
export interface PricedOverlap {
  readonly hours: DecimalString;
  /** Labour at book prices less labour as charged. */
  readonly money: DecimalString;
  readonly steps: readonly PricedStep[];
  /** Declared overlaps that were deducted: the line that did the work first, then the line that need not be charged for it. */
  readonly pairs: readonly { readonly between: readonly [string, string]; readonly hours: DecimalString }[];
}

export interface PricedTotals {
  readonly labour: DecimalString;
  readonly part: DecimalString;
  readonly core: DecimalString;
  readonly sublet: DecimalString;
  readonly fee: DecimalString;
  readonly supplies: DecimalString;
  /** All charges before discount. */
  readonly subtotal: DecimalString;
  readonly discount: DecimalString;
  /** What each discount takes, in their order. */
  readonly discounts: readonly { readonly id: string; readonly title: string; readonly amount: DecimalString }[];
  readonly taxes: readonly PricedTax[];
  readonly tax: DecimalString;
  readonly total: DecimalString;
  /** The total in cash, at the card's cash step. */
  readonly cash: DecimalString;
}

/** An estimate with every figure worked out. */
export interface PricedEstimate {
  readonly currency: string;
  /** What money is rounded to, `"0.01"`. */
  readonly moneyStep: DecimalString;
  /** Whether taxes are inside the prices. */
  readonly pricesIncludeTax: boolean;
  /** False while an error keeps something out of the sum. */
  readonly complete: boolean;
  readonly lines: readonly PricedLine[];
  readonly charges: readonly PricedCharge[];
  readonly overlap: PricedOverlap;
  readonly totals: PricedTotals;
  readonly cautions: readonly { readonly id: string; readonly text: string; readonly lines: readonly string[] }[];
  readonly problems: readonly Problem[];
}
