import type { Estimate } from '../documents/estimate.js';
import type { AuthorisationRule } from '../documents/rates.js';
import type { DecimalString } from '../number/decimal.js';
import type { PricedEstimate } from '../pricing/priced-estimate.js';
import { type ConsentNeed, needsConsent } from './headroom.js';
import { appendHistory } from './history.js';
import { type Consent, type ConsentedLine, linesNow, readConsents } from './record.js';

/** Why the price of a line has moved. */
export type Reason = 'book hours' | 'shared teardown' | 'labour rate' | 'parts and fees' | 'decision';

export interface MovedLine {
  readonly id: string;
  readonly title: string;
  readonly from: DecimalString;
  readonly to: DecimalString;
  readonly why: readonly Reason[];
}

/** What has changed since an authorisation. */
export interface Difference {
  readonly added: readonly { readonly id: string; readonly title: string; readonly amount: DecimalString }[];
  readonly removed: readonly { readonly id: string; readonly title: string; readonly amount: DecimalString }[];
  readonly moved: readonly MovedLine[];
}

/** How an estimate stands to what the customer has authorised. */
export interface Standing {
  readonly consent: Consent;
  readonly need: ConsentNeed;
  readonly difference: Difference;
}

/** Whether the present revision has been authorised or sent to the customer, so that it may not be changed in place. */
export function isFixed(estimate: Estimate): boolean {
  const isShared = estimate.history.some((entry) => entry['what'] === 'shared' && entry['revision'] === estimate.revision);
  return isShared || readConsents(estimate).consents.at(-1)?.revision === estimate.revision;
}

/** The next revision, with an entry in the history; the consents given before stay. */
export function revise(estimate: Estimate, at: string): Estimate {
  const total = readConsents(estimate).consents.at(-1)?.total ?? '0';
  return appendHistory({ ...estimate, revision: estimate.revision + 1 }, { at, what: 'revised', by: '', total });
}

/** Rule 15 for the present price: null while nothing has been authorised. */
export function standing(estimate: Estimate, priced: PricedEstimate, rule: AuthorisationRule | null): Standing | null {
  const consent = readConsents(estimate).consents.at(-1);
  if (consent === undefined) return null;
  return { consent, need: needsConsent(priced, consent.base, rule), difference: difference(consent.lines, priced) };
}

/** The lines added, removed and moved in price since a consent or a sealed copy, with the reasons. */
export function difference(since: readonly ConsentedLine[], priced: PricedEstimate): Difference {
  const before = new Map(since.map((line) => [line.id, line]));
  const now = linesNow(priced);
  const there = new Set(now.map((line) => line.id));
  return {
    added: now.filter((line) => !before.has(line.id)).map(({ id, title, amount }) => ({ id, title, amount })),
    removed: since.filter((line) => !there.has(line.id)).map(({ id, title, amount }) => ({ id, title, amount })),
    moved: now.flatMap((line) => {
      const old = before.get(line.id);
      return old === undefined || (old.amount === line.amount && old.decision === line.decision) ? [] : [moved(old, line)];
    }),
  };
}

function moved(old: ConsentedLine, line: ConsentedLine): MovedLine {
  const why: Reason[] = [];
  if (old.decision !== line.decision) why.push('decision');
  if (old.bookHours !== line.bookHours) why.push('book hours');
  if (old.sharedHours !== line.sharedHours && old.decision === line.decision) why.push('shared teardown');
  if (old.rate !== line.rate) why.push('labour rate');
  if (why.length === 0) why.push('parts and fees');
  return { id: line.id, title: line.title, from: old.amount, to: line.amount, why };
}
