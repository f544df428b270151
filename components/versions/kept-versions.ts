import { type Catalogue, parseCatalogue } from '../../src/documents/catalogue.js';
import type { Parsed } from '../../src/documents/problem.js';
import { parseRates, type Rates } from '../../src/documents/rates.js';
import type { CardVersion } from '../../src/versions/card-versions.js';
import { canonicalJson } from '../../src/versions/canonical-json.js';
import { contentHash } from '../../src/versions/content-hash.js';
import { type Kept, type KeptStore, StorageFault } from '../storage/port.js';

const hashes = new WeakMap<object, string>();

/** The content hash of a document that is not changed any more. */
export function hashOf(document: Rates | Catalogue): string {
  const known = hashes.get(document) ?? contentHash(document);
  hashes.set(document, known);
  return known;
}

/**
 * Keeps a card or a catalogue for good, under its content hash: what is kept is the very text that the hash is of, so
 * that it can never be overwritten with something else. Keeping the same again changes nothing.
 *
 * @returns the hash
 * @throws StorageFault where nothing was kept as far as is known
 */
export async function keepVersion(store: KeptStore, document: Rates | Catalogue): Promise<string> {
  const [kind, about] =
    document.format === 'baysheet-rates' ? (['rates', aboutCard(document)] as const) : (['catalogue', document.title] as const);
  const id = hashOf(document);
  const put = await store.put(kind, id, canonicalJson(document), null, about);
  if (!put.ok && !isIntact(put.current)) throw new StorageFault('corrupt', `What is kept under ${id} is something else.`);
  return id;
}

function aboutCard({ title, effectiveFrom }: Rates): string {
  return effectiveFrom === null ? title : `${effectiveFrom} ${title}`;
}

/** Whether a kept text is what its id says. */
function isIntact(kept: Kept | null): kept is Kept {
  if (kept === null) return false;
  try {
    return contentHash(JSON.parse(kept.text) as object) === kept.id;
  } catch {
    return false;
  }
}

/** A kept card; null where none is kept under this hash, or not as it was. */
export async function keptCard(store: KeptStore, hash: string): Promise<Rates | null> {
  return read(await store.get('rates', hash), parseRates);
}

/** A kept catalogue, likewise. */
export async function keptCatalogue(store: KeptStore, hash: string): Promise<Catalogue | null> {
  return read(await store.get('catalogue', hash), parseCatalogue);
}

function read<T>(kept: Kept | null, parse: (json: unknown) => Parsed<T>): T | null {
  if (!isIntact(kept)) return null;
  const parsed = parse(kept.text);
  return parsed.ok ? parsed.value : null;
}

/** All cards that are kept, and how many texts among them cannot be read. */
export interface KeptCards {
  readonly versions: readonly CardVersion[];
  readonly unreadable: number;
}

export async function keptCards(store: KeptStore): Promise<KeptCards> {
  const entries = await store.list('rates');
  // One text that cannot be read does not hide the others.
  const readable = async (id: string): Promise<Rates | null> => {
    try {
      return await keptCard(store, id);
    } catch (fault) {
      if (isCorrupt(fault)) return null;
      throw fault;
    }
  };
  const cards = await Promise.all(entries.map(async ({ id, savedAt }) => ({ hash: id, savedAt, rates: await readable(id) })));
  const versions = cards.flatMap(({ hash, savedAt, rates }) => (rates === null ? [] : [{ hash, savedAt, rates }]));
  return { versions, unreadable: cards.length - versions.length };
}

function isCorrupt(fault: unknown): boolean {
  return fault instanceof StorageFault && fault.code === 'corrupt';
}
