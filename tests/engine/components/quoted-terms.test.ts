/** Versions in a store, and which card an estimate is priced under. */
import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { QuotedTerms, quotedUnder } from '../../../components/estimate/quoted-terms.js';
import { Memory, openMemoryStore } from '../../../components/storage/memory-store.js';
import { type KeptStore, StorageFault } from '../../../components/storage/port.js';
import { faultWords } from '../../../components/versions/fault-words.js';
import { keepVersion, keptCard, keptCards } from '../../../components/versions/kept-versions.js';
import { contentHash, parseCatalogue, parseRates, type Rates } from '../../../src/index.js';

const text = (path: string): string => readFileSync(path, 'utf8');
const catalogue = (() => {
  const read = parseCatalogue(text('rates/catalogue.demo.json'));
  if (!read.ok) throw new Error('the demo catalogue does not read');
  return read.value;
})();
function card(effectiveFrom: string | null, rate = '150.00'): Rates {
  const read = parseRates(text('rates/card.demo.json'));
  if (!read.ok) throw new Error('the demo card does not read');
  const [general, ...others] = read.value.labourClasses;
  return { ...read.value, effectiveFrom, labourClasses: [{ ...general!, rate }, ...others] };
}

describe('a kept version', () => {
  it('is the canonical text under its hash, and comes back as it was', async () => {
    const memory = new Memory();
    const store = openMemoryStore(memory);
    const hash = await keepVersion(store, card('2026-01-01'));
    expect(hash).toBe(contentHash(card('2026-01-01')));
    expect(await keptCard(store, hash)).toEqual(card('2026-01-01'));
    expect(await keepVersion(store, card('2026-01-01'))).toBe(hash);
    expect((await store.list('rates')).map(({ about }) => about)).toEqual([`2026-01-01 ${card(null).title}`]);
  });

  it('that was changed in the store is not taken for what it was', async () => {
    const memory = new Memory();
    const store = openMemoryStore(memory);
    const hash = await keepVersion(store, card('2026-01-01'));
    const kept = memory.kept.get(`rates ${hash}`)!;
    memory.kept.set(`rates ${hash}`, { ...kept, text: kept.text.replace('150.00', '950.00') });
    expect(await keptCard(store, hash)).toBeNull();
    expect(await keptCards(store)).toEqual({ versions: [], unreadable: 1 });
    await expect(keepVersion(store, card('2026-01-01'))).rejects.toMatchObject({ code: 'corrupt' });
  });

  it('that the store calls corrupt does not hide the others', async () => {
    const inner = openMemoryStore();
    const bad = await keepVersion(inner, card('2026-01-01'));
    const good = await keepVersion(inner, card('2026-02-01'));
    const store: KeptStore = {
      list: (kind) => inner.list(kind),
      put: (...what) => inner.put(...what),
      watch: (kind, hear) => inner.watch(kind, hear),
      close: () => inner.close(),
      get: (kind, id) => (id === bad ? Promise.reject(new StorageFault('corrupt', 'cut off')) : inner.get(kind, id)),
    };
    const { versions, unreadable } = await keptCards(store);
    expect([versions.map(({ hash }) => hash), unreadable]).toEqual([[good], 1]);
  });

  it('that could not be kept is told in words', () => {
    expect(faultWords(new StorageFault('full', '5 MB'))).toBe('There is no room left in the store. (5 MB)');
    expect(faultWords(new Error('odd'))).toBe('The store failed. (odd)');
  });
});

describe('the terms of an estimate', () => {
  const page = { rates: card('2026-01-01'), catalogue };

  it('are those of the page where it says nothing, or names them', () => {
    const terms = new QuotedTerms(() => undefined);
    expect(terms.of(undefined, page)).toBe(page);
    expect(terms.of(quotedUnder(page), page)).toEqual(page);
    expect([terms.isMissing(undefined, page), terms.isMissing(quotedUnder(page), page), terms.newer(undefined, page)]).toEqual([
      false,
      false,
      null,
    ]);
  });

  it('are read from the store, null meanwhile, and named as newer the other way round', async () => {
    const old = { rates: card(null, '140.00'), catalogue };
    const store = openMemoryStore();
    await keepVersion(store, old.rates);
    const changed = vi.fn();
    const terms = new QuotedTerms(changed);
    terms.use(store);
    expect(terms.of(quotedUnder(old), page)).toBeNull();
    await vi.waitFor(() => expect(terms.of(quotedUnder(old), page)?.rates).toEqual(old.rates));
    expect(changed).toHaveBeenCalled();
    expect(terms.isMissing(quotedUnder(old), page)).toBe(false);
    expect(terms.newer(quotedUnder(old), page)?.quoted).toEqual(quotedUnder(page));
    terms.stop();
  });

  it('that are nowhere are missing: the page’s are used, and that is said', async () => {
    const lost = { rates: card('2025-01-01', '99.00'), catalogue };
    const terms = new QuotedTerms(() => undefined);
    expect([terms.of(quotedUnder(lost), page), terms.isMissing(quotedUnder(lost), page)]).toEqual([page, true]);
    terms.use(openMemoryStore());
    await vi.waitFor(() => expect(terms.of(quotedUnder(lost), page)).toBe(page));
    expect(terms.isMissing(quotedUnder(lost), page)).toBe(true);
  });

  it('a version that is not yet in force is not newer; one that somebody keeps meanwhile is', async () => {
    const store = openMemoryStore();
    const terms = new QuotedTerms(() => undefined);
    terms.use(store);
    await keepVersion(store, card('2999-01-01', '200.00'));
    await keepVersion(store, card('2026-02-01', '160.00'));
    await vi.waitFor(() => expect(terms.newer(quotedUnder(page), page)?.rates.labourClasses[0]!.rate).toBe('160.00'));
    terms.stop();
  });

  it('a store that fails is told, and nothing is lost', async () => {
    const broken = openMemoryStore();
    broken.close();
    const terms = new QuotedTerms(() => undefined);
    await terms.keep(page);
    expect(terms.fault).toBe('');
    terms.use({
      ...broken,
      list: (kind) => broken.list(kind),
      get: (...what) => broken.get(...what),
      put: (...what) => broken.put(...what),
      watch: () => () => undefined,
    });
    await terms.keep(page);
    expect(terms.fault).toContain('could not be kept');
  });
});
