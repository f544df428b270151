import * as v from 'valibot';
import { object, optionalText } from '../documents/fields.js';
import { ShareFault } from './fault.js';

export const shopSchema = object({
  name: optionalText,
  phone: optionalText,
  email: optionalText,
  address: optionalText,
  timeZone: v.optional(v.string('text')),
  terms: optionalText,
});

/** What a customer may read of the shop. Any field may be empty; `timeZone` is a name of the IANA list ("America/Denver"). */
export type Shop = v.InferOutput<typeof shopSchema>;

/** The shop's own words about itself, checked. @throws ShareFault */
export function readShop(shop: Partial<Shop>): Shop {
  const checked = v.safeParse(shopSchema, shop);
  if (checked.success) return checked.output;
  const { path } = checked.issues[0];
  const field = path === undefined ? '' : ` (${path.map((item) => String(item.key)).join('.')})`;
  throw new ShareFault(
    'shop',
    `What is said about the shop cannot be used${field}: name, phone, email, address, timeZone and terms are texts.`,
  );
}
