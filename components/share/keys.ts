import { openDB } from 'idb';
import type { PublicJwk, SigningKey } from '../../src/share/keys.js';

/** The shop's pair of keys. The private one can sign and do nothing else: not even this page can read it. */
export interface ShopKey {
  readonly signing: SigningKey;
  /** What the page that shows estimates must trust, as RFC 7517 writes it. */
  readonly publicJwk: PublicJwk;
}

interface StoredKey {
  readonly kid: string;
  readonly privateKey: CryptoKey;
  readonly publicJwk: PublicJwk;
}

const STORE = 'keys';

/**
 * The shop's key of this browser; the first call makes it. It is kept in IndexedDB, so it is as lasting as the browser's
 * storage: when that is cleared a new key is made, which pages must learn to trust.
 *
 * @throws Error with a sentence for the advisor where the browser keeps no keys (plain http, storage denied)
 */
export async function shopKey(): Promise<ShopKey> {
  if (globalThis.crypto?.subtle === undefined) {
    throw new Error('This page cannot sign, because it was loaded over plain http. Load it over https, or send the estimate as a file.');
  }
  const database = await openDB('baysheet-share', 1, { upgrade: (db) => void db.createObjectStore(STORE) });
  try {
    const known = (await database.get(STORE, 'shop')) as StoredKey | undefined;
    if (known !== undefined) return asKey(known);
    const made = await makeKey();
    // Another tab may have made one meanwhile: the first that was stored counts.
    const transaction = database.transaction(STORE, 'readwrite');
    const first = (await transaction.store.get('shop')) as StoredKey | undefined;
    if (first === undefined) await transaction.store.put(made, 'shop');
    await transaction.done;
    return asKey(first ?? made);
  } finally {
    database.close();
  }
}

async function makeKey(): Promise<StoredKey> {
  const pair = await crypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, false, ['sign', 'verify']);
  const { kty, crv, x, y } = await crypto.subtle.exportKey('jwk', pair.publicKey);
  // The first characters of a coordinate are as good as a number drawn by lot.
  const kid = `s-${x!.replace(/[^A-Za-z0-9]/g, '').slice(0, 6)}`;
  return { kid, privateKey: pair.privateKey, publicJwk: { kty: kty!, crv: crv!, x: x!, y: y!, kid } };
}

function asKey({ kid, privateKey, publicJwk }: StoredKey): ShopKey {
  return { signing: { kid, privateKey }, publicJwk };
}
