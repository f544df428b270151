import type { CustomerCopy } from './customer-copy.js';
import { ShareFault } from './fault.js';
import { type JwsFault, sha256, verifyCompact } from './jws.js';
import { readKeys, type TrustedKeys } from './keys.js';
import { unpackCopy } from './pack.js';

/** Why a link is refused. Stable, for pages that say it in the customer's language. */
export type OpenFault = JwsFault | 'keys' | 'version' | 'damaged' | 'too-large' | 'no-crypto' | 'old-browser';

/** A customer's copy and what is known of it, or why there is none. */
export type Opened =
  | { readonly ok: true; readonly copy: CustomerCopy; readonly sealedAt: string; readonly hash: string }
  | { readonly ok: false; readonly code: OpenFault; readonly message: string };

const CUT_OFF = 'Part of the link is missing. Open it again from the message of the shop, all of it, or ask the shop to send it again.';
const ASK = 'Ask the shop to send you a new link.';

const MESSAGES: Readonly<Record<Exclude<OpenFault, 'no-crypto' | 'old-browser'>, string>> = {
  empty: `There is no estimate in this link. ${CUT_OFF}`,
  'too-long': `This link is longer than any that a shop makes, so it is not opened. ${ASK}`,
  'cut-off': CUT_OFF,
  algorithm: `This link is not signed in the way in which the shop signs, so it is not shown. ${ASK}`,
  'unknown-key': `This link was not signed by the shop that runs this page, so it is not shown. ${ASK}`,
  signature: `Something in this link has been changed since the shop signed it, so it is not shown. ${ASK}`,
  keys: 'This page does not know the key of the shop, so it cannot tell whether the link is genuine. Tell the shop.',
  version: 'This link was made for another version of this page. Load the page again; if that does not help, ask the shop to send you a new link.',
  damaged: `The shop signed this link, but it cannot be read. ${ASK}`,
  'too-large': `This link holds more than an estimate can, so it is not opened. ${ASK}`,
};

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
    return { ok: true, ...unpacked.value, hash: await sha256(verified.payload) };
  } catch (fault) {
    if (fault instanceof ShareFault) return { ok: false, code: fault.code as OpenFault, message: fault.message };
    return refused('damaged');
  }
}

function refused(code: keyof typeof MESSAGES): Opened {
  return { ok: false, code, message: MESSAGES[code] };
}
