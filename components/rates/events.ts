import type { Catalogue } from '../../src/documents/catalogue.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { Rates } from '../../src/documents/rates.js';
import type { ProblemDetail } from '../events.js';

/** A person has changed the rate card or the catalogue; nothing is saved yet. Both are copies. */
export interface RatesChangeDetail {
  readonly rates: Rates;
  readonly catalogue: Catalogue | null;
  /** False while something on the card keeps it from being priced by. */
  readonly usable: boolean;
  /** What was done, in words: "paste". */
  readonly what: string;
}

/** A person saves a new version. Prevent the default to keep it yourself; else it is kept in `storage`, or offered as a file. */
export interface RatesSaveDetail {
  readonly rates: Rates;
  /** The content hash of the card: what estimates name it by. */
  readonly hash: string;
  readonly catalogue: Catalogue | null;
  readonly catalogueHash: string | null;
}

/** A person wants to see a past estimate. Prevent the default to show it; else it is offered as a file. */
export interface OpenDetail {
  readonly estimate: Estimate;
}

/** The events of `<baysheet-rates>`, with the types of their details. */
export interface RatesEventMap {
  'baysheet-change': CustomEvent<RatesChangeDetail>;
  'baysheet-save': CustomEvent<RatesSaveDetail>;
  'baysheet-open': CustomEvent<OpenDetail>;
  'baysheet-problem': CustomEvent<ProblemDetail>;
}

/** Sends an event that also leaves shadow roots; false where a listener has prevented its default. */
export function sendRates<K extends keyof RatesEventMap>(from: EventTarget, name: K, detail: RatesEventMap[K]['detail']): boolean {
  return from.dispatchEvent(
    new CustomEvent(name, { detail, bubbles: true, composed: true, cancelable: name === 'baysheet-save' || name === 'baysheet-open' }),
  );
}
