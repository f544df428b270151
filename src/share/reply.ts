import * as v from 'valibot';
import { count, id, object, signed } from '../documents/fields.js';

/** Line breaks apart, no character that cannot be seen and turns the order of others round. */
const plain = v.regex(/^[^\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069\ufeff]*$/, 'text');
const words = (most: number) => v.pipe(v.string('text'), v.maxLength(most, 'too-long'), plain);

const decisions = v.custom<Readonly<Record<string, Answer>>>((value) => {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
  const entries = Object.entries(value);
  return (
    entries.length > 0 && entries.length <= 1000 && entries.every(([line, answer]) => v.is(id, line) && ANSWERS.includes(answer as Answer))
  );
}, 'decisions');

const ANSWERS = ['approved', 'declined', 'deferred'] as const;
type Answer = (typeof ANSWERS)[number];

const replySchema = object({
  estimate: id,
  revision: count,
  hash: v.pipe(v.string('hash'), v.regex(/^[A-Za-z0-9_-]{42}[AEIMQUYcgkosw048]$/, 'hash')),
  at: v.pipe(
    v.string('time'),
    v.regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,3})?(Z|[+-]\d\d:\d\d)$/, 'time'),
    v.check((at) => !Number.isNaN(Date.parse(at)), 'time'),
  ),
  name: v.pipe(words(200), v.regex(/\S/, 'empty')),
  contact: object({ kind: v.picklist(['', 'phone', 'email'], 'choice'), value: words(200) }),
  decisions,
  total: signed,
  currency: v.pipe(v.string('currency'), v.regex(/^[A-Z]{3}$/, 'currency')),
  locale: v.pipe(v.string('text'), v.regex(/^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8}){0,3}$/, 'locale')),
  consent: v.pipe(words(2000), v.regex(/\S/, 'empty')),
});

/**
 * A customer's answer to a sealed estimate: which lines, for how much, in which words, by whom and when. `hash` is that
 * of the sealed copy which was on the screen. `decisions` are by line id.
 */
export type Reply = v.InferOutput<typeof replySchema>;

/** An answer of these shapes, or the path of the first thing that is not what it should be. */
export function checkReply(value: unknown): { readonly ok: true; readonly reply: Reply } | { readonly ok: false; readonly path: string } {
  const checked = v.safeParse(replySchema, value);
  if (checked.success) return { ok: true, reply: checked.output };
  return { ok: false, path: checked.issues[0].path?.map((item) => String(item.key)).join('.') ?? '' };
}
