import { type Catalogue, parseCatalogue } from '../src/documents/catalogue.js';
import { type Estimate, parseEstimate } from '../src/documents/estimate.js';
import type { Parsed } from '../src/documents/problem.js';
import { parseRates, type Rates } from '../src/documents/rates.js';
import { type CustomerCopy, customerCopy } from '../src/share/customer-copy.js';
import { sealEstimate } from '../src/share/seal.js';

/** All made up; the number is of the kind kept free for examples. */
const SHOP = {
  name: 'Quillbrook Motor Works (made up)',
  phone: '+1 303 555 0117',
  email: 'desk@example.com',
  address: '14 Invented Lane, Exampleton',
  terms: 'Everything on this page is invented.\nParts that are replaced are kept for you until you have paid, if you ask for them.',
};

interface Example {
  readonly copy: CustomerCopy;
  /** Null on a page without signatures. */
  readonly token: string | null;
  readonly keys: JsonWebKey[];
}

/** The demonstration van’s estimate, signed with a key that nobody keeps. */
export async function makeExample(): Promise<Example> {
  const [estimate, catalogue, rates] = await Promise.all([
    read<Estimate>('./van.estimate.json', parseEstimate),
    read<Catalogue>('./rates/catalogue.demo.json', parseCatalogue),
    read<Rates>('./rates/card.demo.json', parseRates),
  ]);
  const documents = { estimate, catalogue, rates, shop: SHOP };
  const copy = customerCopy(documents);
  if (globalThis.crypto?.subtle === undefined) return { copy, token: null, keys: [] };

  const kid = 'throw-away';
  const { publicKey, privateKey } = await crypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, false, ['sign', 'verify']);
  const { token } = await sealEstimate(documents, { kid, privateKey });
  const keys = [{ ...(await crypto.subtle.exportKey('jwk', publicKey)), kid }];
  return { copy, token, keys };
}

async function read<T>(address: string, parse: (json: unknown) => Parsed<T>): Promise<T> {
  const parsed = parse(await (await fetch(address)).text());
  if (!parsed.ok) throw new Error(`${address} does not read.`);
  return parsed.value;
}
