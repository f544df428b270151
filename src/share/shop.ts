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
  published: v.optional(v.boolean('yes-or-no')),
});

/** What a customer may read of the shop. Any field may be empty; `timeZone` is a name of the IANA list ("America/Denver"). */
export type Shop = Omit<v.InferOutput<typeof shopSchema>, 'published'>;

/** The same as the shop's page has it: with `published` the customer's page says it itself, beside the keys that it trusts, and links need not. */
export type ShopSettings = Partial<v.InferOutput<typeof shopSchema>>;

/** A link that leaves the shop to the page. */
export const NO_SHOP: Shop = { name: '', phone: '', email: '', address: '', terms: '' };

/** The shop's own words about itself, checked. @throws ShareFault */
export function readShop(shop: ShopSettings): Shop {
  const checked = v.safeParse(shopSchema, shop);
  if (checked.success) {
    const { published: _, ...told } = checked.output;
    return told;
  }
  const { path } = checked.issues[0];
  const field = path === undefined ? '' : ` (${path.map((item) => String(item.key)).join('.')})`;
  throw new ShareFault(
    'shop',
    `What is said about the shop cannot be used${field}: name, phone, email, address, timeZone and terms are texts.`,
  );
}
