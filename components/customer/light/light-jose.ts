/**
 * The two functions of `jose` with which a link is checked, straight on the platform's Web Cryptography. What surrounds
 * the signature (one spelling of header, body and signature) is checked by `src/share/jws.ts` before these are called,
 * so nothing else of the library is used; the tests hold both against each other.
 */

/** An ECDSA P-256 public key of RFC 7517; throws where its point is not on the curve. */
export function importJWK(jwk: JsonWebKey): Promise<CryptoKey> {
  return crypto.subtle.importKey('jwk', jwk, { name: 'ECDSA', namedCurve: 'P-256' }, false, ['verify']);
}

/** ES256 of RFC 7518 section 3.4 over header and body as they stand; throws where the signature does not hold. */
export async function compactVerify(token: string, key: CryptoKey): Promise<{ payload: Uint8Array }> {
  const at = token.lastIndexOf('.');
  const signed = new TextEncoder().encode(token.slice(0, at));
  const holds = await crypto.subtle.verify({ name: 'ECDSA', hash: 'SHA-256' }, key, bytes(token.slice(at + 1)), signed);
  if (!holds) throw new Error('The signature does not hold.');
  return { payload: bytes(token.slice(token.indexOf('.') + 1, at)) };
}

/** Signing is the shop's business. */
export const CompactSign = undefined;

function bytes(base64url: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64url.replace(/-/g, '+').replace(/_/g, '/')), (character) => character.charCodeAt(0));
}
