import * as v from 'valibot';
import { DECIMAL_PATTERN } from '../number/decimal.js';

/**
 * The small shapes that all documents are made of. The text that stands where valibot expects a message is a code:
 * `read.ts` turns it into a sentence with the path and a hint.
 */

/**
 * An object with these keys and no others. Valibot would take a list for one in which every key may be left out.
 */
export function object<const TEntries extends v.ObjectEntries>(entries: TEntries) {
  const schema = v.strictObject(entries);
  const run: (typeof schema)['~run'] = (dataset, config) => {
    if (!Array.isArray(dataset.value)) return schema['~run'](dataset, config);
    v._addIssue(schema, 'type', dataset, config, { message: 'object' });
    return dataset as unknown as ReturnType<typeof run>;
  };
  return { ...schema, '~run': run };
}

/** Signed figure, as text. */
export const signed = v.pipe(v.string('decimal'), v.regex(DECIMAL_PATTERN, 'decimal'));

/** Figure that is not below zero, as text; `-0.00` is zero. One pattern, so that JSON Schema can say it too. */
export const figure = v.pipe(v.string('decimal'), v.regex(/^(\d{1,12}(\.\d{1,10})?|-0{1,12}(\.0{1,10})?)$/, 'negative'));

/** Figure above zero, as text. */
export const positive = v.pipe(v.string('decimal'), v.regex(/^(?=.*[1-9])\d{1,12}(\.\d{1,10})?$/, 'not-positive'));

export const ID_PATTERN = /^[A-Za-z0-9._-]{1,64}$/;
export const id = v.pipe(v.string('id'), v.regex(ID_PATTERN, 'id'));

/** Words of a person. The limit is far above any sentence and keeps a broken file from filling the page. */
export const MAX_TEXT = 10_000;
export const text = v.pipe(v.string('text'), v.maxLength(MAX_TEXT, 'too-long'));

export const requiredText = v.pipe(v.string('text'), v.regex(/\S/, 'empty'), v.maxLength(MAX_TEXT, 'too-long'));

/** Whether words would not do as `requiredText`: there are none, or only space. */
export function isBlank(words: string): boolean {
  return words.trim() === '';
}

/** Whether a date that is written right exists: `Date` shifts 31 February to March, and refuses 25 o'clock. */
function isRealTime(text: string): boolean {
  const day = text.slice(0, 10);
  if (!/^\d{4}-\d\d-\d\d(T|$)/.test(text)) return true;
  return !Number.isNaN(Date.parse(text)) && new Date(day).toISOString().startsWith(day);
}

/** Day by ISO 8601, without a time. */
export const day = v.pipe(v.string('day'), v.isoDate('day'), v.check(isRealTime, 'day'));

/** Date and time by ISO 8601 (RFC 3339 profile), or empty. */
export const moment = v.pipe(
  v.string('time'),
  v.regex(/^(\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d+)?)?(Z|[+-]\d\d:\d\d))?$/, 'time'),
  v.check((text) => text === '' || isRealTime(text), 'time'),
);

export const flag = v.boolean('yes-or-no');

/** A whole number that counts things (rounds, revisions): the only numbers in the documents. */
export const count = v.pipe(v.number('count'), v.integer('count'), v.minValue(1, 'count'), v.maxValue(1_000_000, 'count'));

export const condition = v.picklist(['new', 'used', 'rebuilt', 'reconditioned'], 'choice');
export const per = v.picklist(['vehicle', 'position'], 'choice');
export const kind = v.picklist(['labour', 'part', 'core', 'sublet', 'fee', 'supplies'], 'choice');

export type Condition = v.InferOutput<typeof condition>;
/** What a charge is for. */
export type ChargeKind = v.InferOutput<typeof kind>;

/** A list that may be left out. */
export function list<TItem extends v.GenericSchema>(item: TItem) {
  return v.optional(v.array(item, 'list'), []);
}

/** Words that may be left out. */
export const optionalText = v.optional(text, '');
