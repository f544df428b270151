import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type Catalogue, parseCatalogue } from '../src/documents/catalogue.js';
import { type Estimate, parseEstimate } from '../src/documents/estimate.js';
import type { Parsed } from '../src/documents/problem.js';
import { parseRates, type Rates } from '../src/documents/rates.js';
import { type CustomerCopy, customerCopy } from '../src/share/customer-copy.js';
import type { PublicJwk } from '../src/share/keys.js';
import { sealEstimate } from '../src/share/seal.js';

/** All made up; the number is of the kind kept free for examples. */
const SHOP = {
  name: 'Quillbrook Motor Works (made up)',
  phone: '+1 303 555 0117',
  email: 'desk@example.com',
  address: '14 Invented Lane, Exampleton',
  terms: 'Everything on this page is invented.\nParts that are replaced are kept for you until you have paid, if you ask for them.',
};

/** What the page without a link shows. */
export interface Example {
  readonly token: string;
  /** For a page without signatures, one that was not opened over https. */
  readonly copy: CustomerCopy;
  readonly keys: PublicJwk[];
}

/** The demonstration van’s estimate, signed with a key that nobody keeps; made when the demonstration is built. @param root the project */
export async function makeExample(root: string): Promise<Example> {
  const [estimate, catalogue, rates] = await Promise.all([
    read<Estimate>(join(root, 'demo/van.estimate.json'), parseEstimate),
    read<Catalogue>(join(root, 'rates/catalogue.demo.json'), parseCatalogue),
    read<Rates>(join(root, 'rates/card.demo.json'), parseRates),
  ]);
  const documents = { estimate, catalogue, rates, shop: SHOP };
  const kid = 'throw-away';
  const { publicKey, privateKey } = await crypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, false, ['sign', 'verify']);
  const { token } = await sealEstimate(documents, { kid, privateKey });
  const jwk = (await crypto.subtle.exportKey('jwk', publicKey)) as PublicJwk;
  return { token, copy: customerCopy(documents), keys: [{ ...jwk, kid }] };
}

async function read<T>(path: string, parse: (json: unknown) => Parsed<T>): Promise<T> {
  const parsed = parse(await readFile(path, 'utf8'));
  if (!parsed.ok) throw new Error(`${path} does not read.`);
  return parsed.value;
}
