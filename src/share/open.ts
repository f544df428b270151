import type { CustomerCopy } from './customer-copy.js';
import { ShareFault } from './fault.js';
import { type JwsFault, sha256, verifyCompact } from './jws.js';
import { readKeys, type TrustedKeys } from './keys.js';
import { REFUSALS } from './open-words.js';
import { unpackCopy } from './pack.js';
import type { Shop } from './shop.js';

/** Why a link is refused. Stable, for pages that say it in the customer's language. */
export type OpenFault = JwsFault | 'keys' | 'version' | 'damaged' | 'too-large' | 'no-crypto' | 'old-browser';

/** A customer's copy and what is known of it, or why there is none. */
export type Opened =
  | { readonly ok: true; readonly copy: CustomerCopy; readonly sealedAt: string; readonly hash: string }
  | { readonly ok: false; readonly code: OpenFault; readonly message: string };

/**
 * Opens a sealed estimate. Never throws.
 *
 * @param token the compact JWS from the link
 * @param trustedKeys public keys that the page trusts; never those that come with the link
 */
export async function openEstimate(token: string, trustedKeys: TrustedKeys): Promise<Opened> {
  try {
    const keys = await readKeys(trustedKeys);
    if (keys.size === 0) return refused('keys');
    const verified = await verifyCompact(String(token), keys);
    if (!verified.ok) return refused(verified.code);
    const unpacked = await unpackCopy(verified.payload);
    if (!unpacked.ok) return refused(unpacked.code);
    const { copy, sealedAt } = unpacked.value;
    return { ok: true, copy: { ...copy, shop: shopOf(copy, trustedKeys) }, sealedAt, hash: await sha256(verified.payload) };
  } catch (fault) {
    if (fault instanceof ShareFault) return { ok: false, code: fault.code as OpenFault, message: fault.message };
    return refused('damaged');
  }
}

/** As the link says; where it says nothing, as the page does beside its keys. */
function shopOf({ shop }: CustomerCopy, trusted: TrustedKeys): Shop {
  if (Object.values(shop).some(Boolean)) return shop;
  const told = Object.entries(Object('shop' in trusted ? trusted.shop : null) as object);
  return { ...shop, ...Object.fromEntries(told.filter(([field, words]) => Object.hasOwn(shop, field) && typeof words === 'string')) };
}

function refused(code: keyof typeof REFUSALS): Opened {
  return { ok: false, code, message: REFUSALS[code] };
}
