import * as v from 'valibot';
import type { Estimate } from '../documents/estimate.js';
import { count, figure, id, isBlank, list, moment, object, optionalText, requiredText, signed } from '../documents/fields.js';
import { decision, type Decision } from '../documents/lines.js';
import { error, hasErrors, type Problem } from '../documents/problem.js';
import { DECIMAL_PATTERN, type DecimalString, decimal } from '../number/decimal.js';
import type { PricedEstimate } from '../pricing/priced-estimate.js';
import { basePrice } from './headroom.js';
import { appendHistory } from './history.js';
import type { AuthorisationRule } from '../documents/rates.js';

/** How a customer said yes. */
export const ways = ['in person', 'phone', 'message', 'e-mail', 'link'] as const;
export type ConsentWay = (typeof ways)[number];

/** What a line was when it was authorised: enough to tell later what has changed and why. */
const consentedLine = object({
  id,
  title: optionalText,
  decision,
  amount: signed,
  bookHours: figure,
  sharedHours: figure,
  rate: figure,
});

const consentSchema = object({
  id,
  /** When it was given. */
  at: moment,
  revision: count,
  /** Who gave it and who took it. */
  by: requiredText,
  takenBy: requiredText,
  how: v.picklist(ways, 'choice'),
  /** The number or address that was used; empty for in person. */
  contact: optionalText,
  /** The sentence agreed to, where there was one in writing. */
  sentence: optionalText,
  lines: list(consentedLine),
  /** Titles of the work that this consent adds to the one before. */
  added: list(requiredText),
  /** What this consent adds to the authorised total. */
  addedCost: signed,
  /** The new authorised total, and the same in the base of the rule (with or without tax). */
  total: signed,
  base: signed,
  currency: requiredText,
  note: optionalText,
});

/**
 * One authorisation, with what statutes ask of its record: date and time, who gave and who took it, how, contact, the
 * work and cost added, the new total (C.R.S. 42-9-105; 16 CCR 3354; rule 15). The form is a convenience and not legal
 * advice.
 */
export type Consent = v.InferOutput<typeof consentSchema>;
export type ConsentedLine = Consent['lines'][number];

/** What a person says about a consent; the rest is taken from the price. */
export interface ConsentDetails {
  readonly at: string;
  readonly by: string;
  readonly takenBy: string;
  readonly how: ConsentWay;
  readonly contact: string;
  readonly sentence?: string;
  readonly note?: string;
}

/** The consents of an estimate in their order; entries that are none are told and left out. */
export function readConsents(estimate: Estimate): { consents: Consent[]; problems: Problem[] } {
  const consents: Consent[] = [];
  const problems: Problem[] = [];
  estimate.consents.forEach((entry, i) => {
    const read = v.safeParse(consentSchema, entry);
    if (read.success) consents.push(read.output);
    else
      problems.push(
        error('consent', `consents[${i}]`, 'This record of a consent is not complete.', 'Keep it as it is, and record the consent again.'),
      );
  });
  return { consents, problems };
}

/** Lines as an entry of the history holds them; null where it holds none that can be read. */
export function readLines(value: unknown): ConsentedLine[] | null {
  const read = v.safeParse(v.array(consentedLine), value);
  return read.success ? read.output : null;
}

/** What must be said before a consent can be recorded: one problem for each thing that is missing. */
export function consentProblems(details: ConsentDetails): Problem[] {
  const missing = (path: keyof ConsentDetails, message: string, hint: string): Problem[] =>
    String(details[path] ?? '').trim() === '' ? [error('missing', path, message, hint)] : [];
  return [
    ...missing('by', 'Who gave the consent is missing.', 'Write the person’s name.'),
    ...missing('takenBy', 'Who took the consent is missing.', 'Write your own name.'),
    ...missing('at', 'When it was given is missing.', 'Write date and time.'),
    ...(details.how === 'in person'
      ? []
      : missing('contact', 'The number or address that was used is missing.', 'Write the telephone number or the e-mail address.')),
  ];
}

/**
 * Records that the customer has authorised the estimate at this price: its proposed lines become approved, and a consent
 * and an entry of the history are added. The estimate that is given stays as it is.
 *
 * @param priced the price of this very estimate
 * @returns the problems instead, where something that must be said is missing or the price is not complete
 */
export function recordConsent(
  estimate: Estimate,
  priced: PricedEstimate,
  rule: AuthorisationRule | null,
  details: ConsentDetails,
): { ok: true; estimate: Estimate; consent: Consent } | { ok: false; problems: Problem[] } {
  const problems = [...consentProblems(details)];
  if (!priced.complete)
    problems.push(
      error('incomplete', '', 'The price is not complete, so it cannot be authorised.', 'Mend the lines that are not priced first.'),
    );
  else if (!isRecordable(priced))
    problems.push(
      error('too-large', '', 'The price has more digits than a record can hold.', 'Look for a quantity or price with too many digits.'),
    );
  if (hasErrors(problems)) return { ok: false, problems };

  const before = readConsents(estimate).consents.at(-1);
  const known = new Set(before?.lines.filter((line) => line.decision === 'approved').map((line) => line.id));
  const lines = linesNow(priced).map((line) => ({ ...line, decision: decided(line.decision) }));
  const consent: Consent = {
    id: `c${estimate.consents.length + 1}`,
    revision: estimate.revision,
    lines,
    added: lines
      .filter((line) => line.decision === 'approved' && !known.has(line.id))
      .map((line) => (isBlank(line.title) ? line.id : line.title)),
    addedCost: minus(priced.totals.total, before?.total ?? '0'),
    total: priced.totals.total,
    base: basePrice(priced, rule),
    currency: priced.currency,
    sentence: '',
    note: '',
    ...details,
  };
  const decidedLines = estimate.lines.map((line) => (line.kind === 'note' ? line : { ...line, decision: decided(line.decision) }));
  const recorded = { ...estimate, lines: decidedLines, consents: [...estimate.consents, consent] };
  return {
    ok: true,
    consent,
    estimate: appendHistory(recorded, { at: details.at, what: 'authorised', by: details.by, total: consent.total }),
  };
}

/** The lines as they stand, so that what changes later can be told. */
export function linesNow(priced: PricedEstimate): ConsentedLine[] {
  return priced.lines
    .filter((line) => line.kind !== 'note')
    .map(({ id, title, decision, amount, bookHours, sharedHours, rate }) => ({
      id,
      title,
      decision,
      amount,
      bookHours,
      sharedHours,
      rate,
    }));
}

/** A record is part of a document, whose figures have 12 digits before the point at most. */
function isRecordable({ totals, lines }: PricedEstimate): boolean {
  const figures = [
    totals.total,
    totals.subtotal,
    ...lines.flatMap(({ amount, bookHours, sharedHours }) => [amount, bookHours, sharedHours]),
  ];
  return figures.every((each) => DECIMAL_PATTERN.test(each));
}

function decided(decision: Decision): Decision {
  return decision === 'proposed' ? 'approved' : decision;
}

function minus(a: DecimalString, b: DecimalString): DecimalString {
  const digits = a.includes('.') ? a.length - a.indexOf('.') - 1 : 0;
  return decimal(a).minus(decimal(b)).toFixed(digits);
}
