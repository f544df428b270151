import * as v from 'valibot';
import { condition, figure, id, object, optionalText, text } from './fields.js';

/** How far a part of the parts run has come. */
export const partState = v.picklist(['to-find', 'in-stock', 'ordered', 'here'], 'choice');
export type PartState = v.InferOutput<typeof partState>;

/**
 * What the shop has noted of one part of the parts run. The part is known by its number, else by the catalogue's id,
 * else by its title, and by its condition. `qty` is how many the state was said of, `supplier` another one than usual.
 */
export const partNote = object({
  part: v.optional(v.nullable(id), null),
  number: optionalText,
  title: optionalText,
  condition: v.optional(condition, 'new'),
  state: v.optional(partState, 'to-find'),
  qty: v.optional(figure, '0'),
  supplier: v.optional(text),
  note: v.optional(text),
});
export type PartNote = v.InferOutput<typeof partNote>;
