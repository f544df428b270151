import * as v from 'valibot';
import { checkEstimateReferences } from './estimate-references.js';
import { count, figure, flag, id, kind, list, moment, object, optionalText, requiredText, text } from './fields.js';
import { line } from './lines.js';
import { partNote } from './parts-run.js';
import type { Parsed } from './problem.js';
import { readDocument } from './read.js';
import { TROUBLE_CODE } from './trouble-code.js';

/** A record that is kept as it came, key by key. */
const untouched = v.custom<Readonly<Record<string, unknown>>>(
  (value) => typeof value === 'object' && value !== null && !Array.isArray(value),
  'object',
);

/** The content hash of a document. */
const hash = v.pipe(v.string('hash'), v.regex(/^[0-9a-f]{64}$/, 'hash'));

/** How soon a finding wants mending, in words. */
export const urgency = v.picklist(['unsafe', 'now', 'soon', 'watch'], 'choice');
export type Urgency = v.InferOutput<typeof urgency>;

const troubleCode = v.pipe(v.string('trouble-code'), v.regex(TROUBLE_CODE, 'trouble-code'));

/** A photo is a data URL, or the id under which one is kept; `alt` says what it shows, `forCustomer` false keeps it in the shop. */
const evidence = object({
  how: optionalText,
  note: optionalText,
  reading: optionalText,
  photo: v.optional(v.string('text'), ''),
  alt: v.optional(text),
  forCustomer: v.optional(flag),
});

/**
 * One pass of a test. `method` says it in words, `methodId` names the catalogue's method, `reading` is what stood there at
 * the end. `closing` false: a person took the method's closing test out of the lines.
 */
const round = object({
  n: count,
  method: optionalText,
  clean: v.optional(flag, false),
  note: optionalText,
  methodId: v.optional(id),
  reading: v.optional(text),
  closing: v.optional(flag),
});

const vehicle = object({
  label: optionalText,
  vin: optionalText,
  plate: optionalText,
  odometer: optionalText,
  unit: v.optional(v.picklist(['mi', 'km'], 'choice'), 'mi'),
});

const customer = object({
  name: optionalText,
  phone: optionalText,
  email: optionalText,
  taxExempt: list(id),
});

export const estimateSchema = object({
  format: v.literal('baysheet-estimate', 'format'),
  version: v.literal(1, 'version'),
  id,
  number: optionalText,
  revision: v.optional(count, 1),
  createdAt: v.optional(moment, ''),
  vehicle: v.optional(vehicle, {}),
  customer: v.optional(customer, {}),
  concern: optionalText,
  cause: optionalText,
  correction: optionalText,
  rounds: list(round),
  findings: list(
    object({
      id,
      round: v.optional(count, 1),
      component: optionalText,
      position: optionalText,
      fault: optionalText,
      seen: list(evidence),
      urgency: v.optional(urgency, 'soon'),
      text: optionalText,
      /** How it was plugged or isolated, so that the next round could show what it hid. */
      plugged: v.optional(text),
      /** Trouble codes that it explains. */
      codes: v.optional(v.array(troubleCode, 'list')),
    }),
  ),
  lines: list(line),
  discounts: list(
    v.pipe(
      object({
        id,
        title: requiredText,
        percent: v.optional(v.nullable(figure), null),
        amount: v.optional(v.nullable(figure), null),
        on: v.pipe(v.array(kind, 'list'), v.minLength(1, 'empty-list')),
        lines: list(id),
      }),
      v.check((discount) => (discount.percent === null) !== (discount.amount === null), 'percent-or-amount'),
    ),
  ),
  consents: list(untouched),
  history: list(untouched),
  extra: v.optional(untouched, {}),
  partsRun: v.optional(v.array(partNote, 'list')),
  codes: v.optional(v.array(object({ code: troubleCode, note: optionalText }), 'list')),
  quoted: v.optional(object({ rates: hash, catalogue: hash })),
});

/** One job for one customer: what was found, what is proposed, what was decided. */
export type Estimate = v.InferOutput<typeof estimateSchema>;
export type Finding = Estimate['findings'][number];
export type Evidence = Finding['seen'][number];
export type TestRound = Estimate['rounds'][number];
export type Discount = Estimate['discounts'][number];

/** Reads an estimate from JSON text or from a parsed value. Never throws; all problems come at once. */
export function parseEstimate(json: unknown): Parsed<Estimate> {
  return readDocument(json, 'estimate', estimateSchema, checkEstimateReferences);
}
