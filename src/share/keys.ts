import { importJWK } from 'jose';
import { ID_PATTERN } from '../documents/fields.js';
import { decodeBase64url } from './base64url.js';
import { type PlatformKey, subtle } from './platform.js';
import type { Shop } from './shop.js';

/** The shop's key to sign with: an ECDSA P-256 private key of the Web Cryptography API, and the name of its public half. */
export interface SigningKey {
  readonly kid: string;
  readonly privateKey: PlatformKey;
}

/** A public key as RFC 7517 writes it. Only the members that an ECDSA P-256 key needs are read. */
export interface PublicJwk {
  readonly kty?: string;
  readonly crv?: string;
  readonly x?: string;
  readonly y?: string;
  readonly kid?: string;
}

/** Keys that a page trusts: a list, or a JWK set with one, which may say beside it what links leave to it of the shop. */
export type TrustedKeys = readonly PublicJwk[] | { readonly keys: readonly PublicJwk[]; readonly shop?: Partial<Shop> };

/**
 * Trusted keys by their names. What is no P-256 key with a name is passed over, since a set may hold keys for other
 * uses; of two with the same name the first counts.
 *
 * @throws ShareFault on a page without `crypto.subtle`
 */
export async function readKeys(trusted: TrustedKeys): Promise<ReadonlyMap<string, PlatformKey>> {
  subtle();
  const list: unknown = Array.isArray(trusted) ? trusted : (Object(trusted) as { keys?: unknown }).keys;
  const keys = new Map<string, PlatformKey>();
  for (const jwk of Array.isArray(list) ? (list as unknown[]) : []) {
    if (!isUsable(jwk) || keys.has(jwk.kid)) continue;
    const { kty, crv, x, y } = jwk;
    try {
      keys.set(jwk.kid, (await importJWK({ kty, crv, x, y }, 'ES256')) as PlatformKey);
    } catch {
      // Its point is not on the curve.
    }
  }
  return keys;
}

function isUsable(jwk: unknown): jwk is Required<PublicJwk> {
  const { kty, crv, x, y, kid } = Object(jwk) as Record<string, unknown>;
  return kty === 'EC' && crv === 'P-256' && isCoordinate(x) && isCoordinate(y) && typeof kid === 'string' && ID_PATTERN.test(kid);
}

function isCoordinate(value: unknown): boolean {
  return typeof value === 'string' && value.length < 100 && decodeBase64url(value)?.length === 32;
}
