/** Nothing private leaves the shop: a secret in every private field, none of it in what a customer gets. */
import { customerFile } from '../../components/share/customer-file.js';
import { customerCopy, deferralCosts, openEstimate, priceEstimate, sealEstimate, ShareFault } from '../../src/index.js';
import { decodeBase64url } from '../../src/share/base64url.js';
import { DICTIONARY_2 } from '../../src/share/dictionary.js';
import { layout } from '../../src/share/layout.js';
import { printRow } from '../../src/share/slots.js';
import { unpackText } from '../../src/share/text-coder.js';
import type { Drawing } from '../support/arbitraries.js';
import { readDocuments } from '../support/builders.js';
import { leaked, plantCanaries, type Secret } from '../support/canaries.js';
import type { Documents } from '../support/oracle-documents.js';
import { IN_FILES, PRIVATE } from '../support/private-fields.js';
import { newKey, shop, type TestKey } from '../engine/share/sealed.js';
import type { Count, Proof } from './proof.js';
import { printed } from './untouched.js';

let key: Promise<TestKey> | null = null;

function search(what: string, text: string, secrets: readonly Secret[], allowed: (secret: Secret) => boolean = () => false): void {
  const found = leaked(secrets, text).filter((secret) => !allowed(secret));
  if (found.length > 0)
    throw new Error(`${what} holds ${found.map(({ path, secret }) => `${path} (${secret})`).join(', ')}\n${printed(text)}`);
}

async function trySecrets(d: Drawing, count: Count): Promise<void> {
  const { documents: planted, secrets } = plantCanaries(d);
  const documents = { ...readDocuments(planted as Documents), shop };
  for (const { path } of secrets) count(path);
  const missing = secrets.filter(({ secret }) => !JSON.stringify(documents).includes(secret));
  if (missing.length > 0) throw new Error(`not planted: ${missing.map(({ path }) => path).join()}`);
  try {
    const copy = customerCopy(documents);
    const sealedAt = '2026-03-02T14:05:00Z';
    const row: string[] = [];
    layout.write({ copy, sealedAt }, row);
    search('the text that a link packs', printRow(row), secrets);
    search('what the customer’s page prices', JSON.stringify([priceEstimate(copy), deferralCosts(copy)]), secrets);
    const withPhotos = customerCopy(documents, { photos: true });
    const file = customerFile({ copy: withPhotos, hash: '', script: '', lang: 'en', title: `Estimate ${documents.estimate.number}` });
    search('the customer’s file', file, secrets, ({ inFiles }) => inFiles);
    if (d.chance(10)) await trySealed(documents, secrets, count);
  } catch (fault) {
    if (!(fault instanceof ShareFault)) throw fault;
    count(`(not shared: ${fault.code})`);
  }
}

async function trySealed(documents: Parameters<typeof sealEstimate>[0], secrets: readonly Secret[], count: Count): Promise<void> {
  const signer = await (key ??= newKey());
  const { token } = await sealEstimate(documents, signer);
  search('the link', token, secrets);
  const packed = decodeBase64url(token.split('.')[1]!)!;
  const unpacked = unpackText(packed.subarray(3), packed[1]! * 256 + packed[2]!, new TextEncoder().encode(DICTIONARY_2));
  search('the link, unpacked', new TextDecoder().decode(unpacked!), secrets);
  const opened = await openEstimate(token, [signer.publicJwk]);
  if (!opened.ok) throw new Error(`a link of the shop does not open: ${opened.message}`);
  search('what is opened from the link', JSON.stringify(opened), secrets);
  count('(sealed, and unpacked from the link)');
}

export const secretsProof: Proof = {
  name: 'secrets',
  what: 'random estimates with a secret in every private field, in what a customer gets',
  cases: 10_000,
  few: 150,
  reach: new Map([...PRIVATE, ...IN_FILES, '(sealed, and unpacked from the link)'].map((path) => [path, 1])),
  try: trySecrets,
};
