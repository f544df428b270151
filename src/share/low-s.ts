/**
 * Of every ECDSA signature (r, s) the pair (r, n − s) is valid too, so a signed text would have two spellings. Only
 * the one with the lower s is made and accepted here.
 */

/** The order n of the curve P-256 (FIPS 186-4, D.1.2.3; from memory, and checked by the tests against signatures of others). */
const ORDER = 0xffffffff00000000ffffffffffffffffbce6faada7179e84f3b9cac2fc632551n;
const HALF = ORDER / 2n;
/** Bytes of r and of s, one after the other (RFC 7518 section 3.4). */
const SIZE = 32;

function sOf(signature: Uint8Array): bigint {
  return signature.slice(SIZE).reduce((value, byte) => (value << 8n) | BigInt(byte), 0n);
}

/** Whether a signature of r and s, 64 bytes, is the one that counts. */
export function hasLowS(signature: Uint8Array): boolean {
  return signature.length === 2 * SIZE && sOf(signature) <= HALF;
}

export function withLowS(signature: Uint8Array): Uint8Array {
  if (hasLowS(signature)) return signature;
  const low = Uint8Array.from(signature);
  let s = ORDER - sOf(signature);
  for (let i = 2 * SIZE - 1; i >= SIZE; i -= 1) {
    low[i] = Number(s & 0xffn);
    s >>= 8n;
  }
  return low;
}
