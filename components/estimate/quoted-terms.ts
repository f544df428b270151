import type { Catalogue } from '../../src/documents/catalogue.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { Rates } from '../../src/documents/rates.js';
import { type CardVersion, inForce } from '../../src/versions/card-versions.js';
import type { Terms } from '../../src/versions/price-again.js';
import { today } from '../look/format.js';
import type { KeptStore } from '../storage/port.js';
import { faultWords } from '../versions/fault-words.js';
import { hashOf, keepVersion, keptCard, keptCards, keptCatalogue } from '../versions/kept-versions.js';

export type Quoted = NonNullable<Estimate['quoted']>;

/** A card that came into force after the one that the estimate was quoted under. */
export interface Newer extends Terms {
  readonly quoted: Quoted;
}

export function quotedUnder({ rates, catalogue }: Terms): Quoted {
  return { rates: hashOf(rates), catalogue: hashOf(catalogue) };
}

/**
 * Which card and catalogue an estimate is priced under: those that it was quoted under where it says so and they are
 * kept, else those of the page. What was read once is not read again, since what has a hash cannot change.
 */
export class QuotedTerms {
  /** Why something could not be read or kept; empty where all went well. */
  fault = '';
  private store: KeptStore | null = null;
  private unwatch: (() => void) | null = null;
  private readonly cards = new Map<string, Rates | null>();
  private readonly catalogues = new Map<string, Catalogue | null>();
  private readonly asked = new Set<string>();
  private versions: readonly CardVersion[] = [];

  /** @param changed called when something was read that may change the terms */
  constructor(private readonly changed: () => void) {}

  use(store: KeptStore | null): void {
    if (store === this.store) return;
    this.stop();
    this.store = store;
    this.asked.clear();
    this.versions = [];
    this.start();
  }

  start(): void {
    const { store } = this;
    if (store === null || this.unwatch !== null) return;
    this.unwatch = store.watch('rates', () => void this.readVersions(store));
    void this.readVersions(store);
  }

  stop(): void {
    this.unwatch?.();
    this.unwatch = null;
  }

  /** The terms of an estimate; null while they are being read. */
  of(quoted: Quoted | undefined, page: Terms): Terms | null {
    if (quoted === undefined) return page;
    const rates = this.find(this.cards, quoted.rates, page.rates, keptCard);
    const catalogue = this.find(this.catalogues, quoted.catalogue, page.catalogue, keptCatalogue);
    if (rates === undefined || catalogue === undefined) return null;
    // Both or none: a card with another catalogue is no quotation.
    return rates === null || catalogue === null ? page : { rates, catalogue };
  }

  /** Whether the estimate names terms that are not to be had. */
  isMissing(quoted: Quoted | undefined, page: Terms): boolean {
    const terms = this.of(quoted, page);
    return quoted !== undefined && terms !== null && (hashOf(terms.rates) !== quoted.rates || hashOf(terms.catalogue) !== quoted.catalogue);
  }

  /** The card that is in force today, where it is another than the one quoted; with the catalogue of the page. */
  newer(quoted: Quoted | undefined, page: Terms): Newer | null {
    if (quoted === undefined) return null;
    const own: CardVersion = { hash: hashOf(page.rates), rates: page.rates, savedAt: '' };
    const known = this.versions.filter(({ rates }) => rates.id === page.rates.id);
    const current = inForce([own, ...known], today());
    if (current === null || (current.hash === quoted.rates && hashOf(page.catalogue) === quoted.catalogue)) return null;
    return { rates: current.rates, catalogue: page.catalogue, quoted: { rates: current.hash, catalogue: hashOf(page.catalogue) } };
  }

  /** Keeps the terms of an estimate, so that it can be priced under them for good. */
  async keep({ rates, catalogue }: Terms): Promise<void> {
    if (this.store === null) return;
    try {
      await keepVersion(this.store, catalogue);
      await keepVersion(this.store, rates);
      this.fault = '';
    } catch (fault) {
      this.fault = `The rate card and the catalogue of this estimate could not be kept. ${faultWords(fault)} Save the estimate and both files elsewhere.`;
    }
    this.changed();
  }

  /** The page's own document where it is the one asked for, else what is kept; undefined while that is being read. */
  private find<T extends Rates | Catalogue>(
    known: Map<string, T | null>,
    hash: string,
    page: T,
    get: (store: KeptStore, hash: string) => Promise<T | null>,
  ): T | null | undefined {
    if (hashOf(page) === hash) return page;
    if (known.get(hash)) return known.get(hash);
    if (this.store === null) return null;
    if (!this.asked.has(hash)) void this.read(known, hash, this.store, get);
    return known.get(hash);
  }

  private async read<T>(
    known: Map<string, T | null>,
    hash: string,
    store: KeptStore,
    get: (store: KeptStore, hash: string) => Promise<T | null>,
  ): Promise<void> {
    this.asked.add(hash);
    known.delete(hash);
    try {
      known.set(hash, await get(store, hash));
    } catch (fault) {
      known.set(hash, null);
      this.fault = `What this estimate was quoted under could not be read. ${faultWords(fault)}`;
    }
    this.changed();
  }

  private async readVersions(store: KeptStore): Promise<void> {
    try {
      const { versions } = await keptCards(store);
      if (store !== this.store) return;
      this.versions = versions;
      for (const { hash, rates } of versions) if (!this.cards.get(hash)) this.cards.set(hash, rates);
    } catch (fault) {
      if (store !== this.store) return;
      this.fault = `The kept rate cards could not be read. ${faultWords(fault)}`;
    }
    this.changed();
  }
}
