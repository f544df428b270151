import type { Estimate } from '../../src/documents/estimate.js';
import type { Rates } from '../../src/documents/rates.js';
import type { DecimalString } from '../../src/number/decimal.js';

/** A person wants to see a past estimate. */
export interface OpenEstimateDetail {
  readonly estimate: Estimate;
}

/** A person takes over a card that goal seek has found: nothing is changed until whoever hears it does so. */
export interface TakeCardDetail {
  readonly rates: Rates;
  /** In words, for the history of undo: `labour rate, General repair, 137.50`. */
  readonly what: string;
}

/** A person takes over book hours that were proposed from clocked hours, the ones that were ticked and no others. */
export interface TakeHoursDetail {
  readonly hours: readonly { readonly operation: string; readonly bookHours: DecimalString }[];
  readonly what: string;
}

/**
 * What the elements of the what-if side tell. They are meant for the element that holds them and go no further than
 * its shadow root: it makes public events of them where it wants to.
 */
export interface WhatIfEventMap {
  'open-estimate': CustomEvent<OpenEstimateDetail>;
  'take-card': CustomEvent<TakeCardDetail>;
  'take-hours': CustomEvent<TakeHoursDetail>;
}

export function tell<K extends keyof WhatIfEventMap>(from: EventTarget, name: K, detail: WhatIfEventMap[K]['detail']): void {
  from.dispatchEvent(new CustomEvent(name, { detail }));
}
