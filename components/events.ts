import type { Estimate } from '../src/documents/estimate.js';
import type { Problem } from '../src/documents/problem.js';
import type { PricedTotals } from '../src/pricing/priced-estimate.js';

/** A person has changed the estimate. The estimate is a copy: it may be kept and changed. */
export interface ChangeDetail {
  readonly estimate: Estimate;
  readonly totals: PricedTotals;
  readonly currency: string;
  readonly complete: boolean;
  /** What was done, in words: "paste". */
  readonly what: string;
}

/** A person wants the estimate saved. Prevent the default to save it yourself; else it is offered as a file. */
export interface SaveDetail {
  readonly estimate: Estimate;
}

/** A customer's copy was sealed. Prevent the default to share it yourself; else the dialog offers ways to send it. */
export interface ShareDetail {
  readonly link: string;
  readonly token: string;
  /** SHA-256 of what was signed: the customer's reply names it. */
  readonly hash: string;
  readonly estimate: Estimate;
}

/** Something could not be read. `source` says what: a property, an address, a file. */
export interface ProblemDetail {
  readonly source: string;
  readonly problems: readonly Problem[];
}

/** The events of the elements, with the types of their details. */
export interface BaysheetEventMap {
  'baysheet-change': CustomEvent<ChangeDetail>;
  'baysheet-save': CustomEvent<SaveDetail>;
  'baysheet-share': CustomEvent<ShareDetail>;
  'baysheet-problem': CustomEvent<ProblemDetail>;
}

declare global {
  interface HTMLElementEventMap extends BaysheetEventMap {}
}

/** Events whose default a page may prevent, to do it in its own way. */
const CANCELABLE: ReadonlySet<string> = new Set(['baysheet-save', 'baysheet-share']);

/** Sends an event that also leaves shadow roots; false where a listener has prevented its default. */
export function send<K extends keyof BaysheetEventMap>(from: EventTarget, name: K, detail: BaysheetEventMap[K]['detail']): boolean {
  return from.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true, cancelable: CANCELABLE.has(name) }));
}
