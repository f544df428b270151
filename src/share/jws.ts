import { CompactSign, compactVerify } from 'jose';
import { ID_PATTERN } from '../documents/fields.js';
import { decodeBase64url, encodeBase64url } from './base64url.js';
import { ShareFault } from './fault.js';
import type { SigningKey } from './keys.js';
import { hasLowS, withLowS } from './low-s.js';
import { fromUtf8, type PlatformKey, subtle } from './platform.js';

/** Why a signed text is not accepted. */
export type JwsFault = 'empty' | 'too-long' | 'cut-off' | 'algorithm' | 'unknown-key' | 'signature';

export type Verified = { readonly ok: true; readonly payload: Uint8Array } | { readonly ok: false; readonly code: JwsFault };

/** Longest text that is looked at. */
export const MAX_TOKEN = 24_000;

/**
 * The header that is written, byte for byte. It names no key: that would be two dozen characters more, and a page trusts few.
 */
const HEADER = { alg: 'ES256' } as const;

/** The header of links that were made before, with the name of the key; nothing else is accepted beside the other. */
function headerWith(kid: string): { alg: 'ES256'; kid: string } {
  return { ...HEADER, kid };
}

/**
 * Signs bytes as a compact JWS (RFC 7515) with ES256 (RFC 7518 section 3.4).
 *
 * @throws ShareFault where this page cannot sign, or the key is none to sign with
 */
export async function signCompact(payload: Uint8Array, { kid, privateKey }: SigningKey): Promise<string> {
  subtle();
  if (!ID_PATTERN.test(kid))
    throw new ShareFault('key', `The name of the signing key, "${kid}", is none: up to 64 letters, digits, dots, dashes and underscores.`);
  let token: string;
  try {
    token = await new CompactSign(payload).setProtectedHeader(HEADER).sign(privateKey);
  } catch (fault) {
    const why = fault instanceof Error ? fault.message : String(fault);
    throw new ShareFault('key', `The estimate could not be signed (${why}). Make a new signing key, and publish its public half.`);
  }
  const [head, body, signature] = token.split('.') as [string, string, string];
  return `${head}.${body}.${encodeBase64url(withLowS(decodeBase64url(signature)!))}`;
}

/**
 * What a compact JWS says, where one of these keys has signed it. Every accepted text has exactly one spelling: it is
 * compared with what `signCompact` would have written before any signature is computed.
 */
export async function verifyCompact(token: string, keys: ReadonlyMap<string, PlatformKey>): Promise<Verified> {
  if (token === '') return { ok: false, code: 'empty' };
  if (token.length > MAX_TOKEN) return { ok: false, code: 'too-long' };
  const parts = token.split('.');
  const [head, body, signature] = parts.map(decodeBase64url);
  if (parts.length !== 3 || head == null || body == null || signature == null || signature.length !== 64)
    return { ok: false, code: 'cut-off' };

  const signers = signersOf(head, keys);
  if (signers === null) return { ok: false, code: 'algorithm' };
  if (signers.length === 0) return { ok: false, code: 'unknown-key' };
  if (!hasLowS(signature)) return { ok: false, code: 'signature' };
  for (const key of signers) {
    try {
      const { payload } = await compactVerify(token, key, { algorithms: ['ES256'] });
      return { ok: true, payload };
    } catch {
      // Another key may have signed it.
    }
  }
  return { ok: false, code: 'signature' };
}

/** The trusted keys that a header lets have signed: the one that it names, or any; null where it is none that is written here. */
function signersOf(head: Uint8Array, keys: ReadonlyMap<string, PlatformKey>): PlatformKey[] | null {
  try {
    const text = fromUtf8(head);
    if (text === JSON.stringify(HEADER)) return [...keys.values()];
    const { kid } = JSON.parse(text) as { kid?: unknown };
    if (typeof kid !== 'string' || !ID_PATTERN.test(kid) || text !== JSON.stringify(headerWith(kid))) return null;
    const key = keys.get(kid);
    return key === undefined ? [] : [key];
  } catch {
    return null;
  }
}

/** SHA-256 of bytes, as base64url. */
export async function sha256(bytes: Uint8Array): Promise<string> {
  return encodeBase64url(new Uint8Array(await subtle().digest('SHA-256', bytes)));
}
