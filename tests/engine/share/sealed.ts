/** A shop with a key, and a sealed estimate of the invented demo job. */
import { sealEstimate, type SealOptions } from '../../../src/share/seal.js';
import type { SigningKey } from '../../../src/share/keys.js';
import { demoDocuments } from './documents.js';

export const shop = {
  name: 'Quillbrook Motor Works',
  phone: '+1 303 555 0100',
  email: 'desk@example.com',
  address: '12 Example Street, Quillbrook',
  timeZone: 'America/Denver',
  terms: 'Valid for 30 days. Replaced parts are shown on request.',
};

export interface TestKey extends SigningKey {
  readonly publicJwk: JsonWebKey & { kid: string };
}

export async function newKey(kid = 's1'): Promise<TestKey> {
  const pair = await crypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, false, ['sign', 'verify']);
  return { kid, privateKey: pair.privateKey, publicJwk: { ...(await crypto.subtle.exportKey('jwk', pair.publicKey)), kid } };
}

/** The demo job with its first lines and their findings. */
export function firstLines(count: number) {
  const documents = demoDocuments();
  const lines = documents.estimate.lines.slice(0, count);
  const named = new Set(lines.flatMap((line) => (line.kind === 'operation' ? line.findings : [])));
  const findings = documents.estimate.findings.filter(({ id }) => named.has(id));
  return { ...documents, estimate: { ...documents.estimate, lines, findings }, shop };
}

export async function sealedDemo(key: TestKey, options?: SealOptions) {
  return sealEstimate({ ...demoDocuments(), shop }, key, options);
}
