import * as v from 'valibot';
import { day, figure, flag, id, kind, list, object, optionalText, positive, requiredText } from './fields.js';
import type { Parsed } from './problem.js';
import { checkRatesReferences } from './rates-references.js';
import { readDocument } from './read.js';

const optionalFigure = v.optional(v.nullable(figure), null);
/** Language, script and region of BCP 47, which is all that the writing of figures hangs on. */
const LOCALE_PATTERN = /^[A-Za-z]{2,3}(-[A-Za-z]{4})?(-([A-Za-z]{2}|\d{3}))?$/;

/** Missing taxes mean "as the kinds say"; an empty list means none. */
const ownTaxes = v.optional(v.nullable(v.array(id, 'list')), null);

export const authorisationSchema = object({
  percent: optionalFigure,
  amount: optionalFigure,
  pick: v.picklist(['lesser', 'greater', 'percent', 'amount'], 'choice'),
  cap: optionalFigure,
  base: v.optional(v.picklist(['total', 'before-tax'], 'choice'), 'total'),
  source: optionalText,
});

export const ratesSchema = object({
  format: v.literal('baysheet-rates', 'format'),
  version: v.literal(1, 'version'),
  id,
  title: optionalText,
  currency: v.pipe(v.string('currency'), v.regex(/^[A-Z]{3}$/, 'currency')),
  locale: v.optional(v.pipe(v.string('text'), v.regex(LOCALE_PATTERN, 'locale')), 'en'),
  effectiveFrom: v.optional(v.nullable(day), null),
  rounding: v.optional(v.picklist(['half-up', 'half-even', 'half-down'], 'choice'), 'half-up'),
  moneyStep: v.optional(v.nullable(positive), null),
  labourClasses: list(object({ id, title: optionalText, rate: figure })),
  parts: object({
    basis: v.optional(v.picklist(['markup', 'list'], 'choice'), 'markup'),
    mode: v.optional(v.picklist(['whole', 'progressive'], 'choice'), 'whole'),
    tiers: v.pipe(v.array(object({ upTo: v.optional(v.nullable(positive), null), percent: figure }), 'list'), v.minLength(1, 'empty-list')),
  }),
  sublet: v.optional(v.nullable(object({ percent: figure })), null),
  supplies: v.optional(
    v.nullable(
      object({
        title: requiredText,
        percent: figure,
        of: v.array(v.picklist(['labour', 'part', 'core', 'sublet', 'fee'], 'choice'), 'list'),
        minimum: optionalFigure,
        maximum: optionalFigure,
        taxes: ownTaxes,
      }),
    ),
    null,
  ),
  fees: list(
    object({
      id,
      title: requiredText,
      amount: figure,
      per: v.optional(v.picklist(['estimate', 'unit'], 'choice'), 'estimate'),
      taxes: ownTaxes,
    }),
  ),
  taxes: list(object({ id, title: requiredText, percent: figure, on: v.array(kind, 'list'), after: list(id) })),
  taxRounding: v.optional(v.picklist(['total', 'line'], 'choice'), 'total'),
  pricesIncludeTax: v.optional(flag, false),
  cashStep: v.optional(v.nullable(positive), null),
  authorisation: v.optional(v.nullable(authorisationSchema), null),
});

/** What a shop charges: labour rates, mark-up, supplies, fees, taxes, rounding, and its rule of authorisation. */
export type Rates = v.InferOutput<typeof ratesSchema>;
export type Tax = Rates['taxes'][number];
export type Fee = Rates['fees'][number];
export type Supplies = NonNullable<Rates['supplies']>;
export type MarkUp = Rates['parts'];
export type AuthorisationRule = v.InferOutput<typeof authorisationSchema>;

/** Reads a rate card from JSON text or from a parsed value. Never throws; all problems come at once. */
export function parseRates(json: unknown): Parsed<Rates> {
  return readDocument(json, 'rate card', ratesSchema, checkRatesReferences);
}
