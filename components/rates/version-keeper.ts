import type { Catalogue } from '../../src/documents/catalogue.js';
import type { Rates } from '../../src/documents/rates.js';
import type { KeptStore } from '../storage/port.js';
import { faultWords } from '../versions/fault-words.js';
import type { KeptCards } from '../versions/kept-versions.js';

/** Loaded when there is a store: most pages that show a card have none. */
const keptVersions = () => import('../versions/kept-versions.js');

/** The kept versions of cards as a desk shows them: read when there is a store, and again whenever it changes. */
export class VersionKeeper {
  cards: KeptCards = { versions: [], unreadable: 0 };
  /** Why they could not be read; empty where they could. */
  fault = '';
  private store: KeptStore | null = null;
  private unwatch: (() => void) | null = null;

  /** @param changed called when there is something new to show */
  constructor(private readonly changed: () => void) {}

  /** Looks at another store, or at none. */
  use(store: KeptStore | null): void {
    if (store === this.store) return;
    this.stop();
    this.store = store;
    this.cards = { versions: [], unreadable: 0 };
    this.fault = '';
    this.start();
  }

  start(): void {
    const { store } = this;
    if (store === null || this.unwatch !== null) return;
    this.unwatch = store.watch('rates', () => void this.read(store));
    void this.read(store);
  }

  stop(): void {
    this.unwatch?.();
    this.unwatch = null;
  }

  private async read(store: KeptStore): Promise<void> {
    try {
      const cards = await (await keptVersions()).keptCards(store);
      if (store !== this.store) return;
      this.cards = cards;
      this.fault = '';
    } catch (fault) {
      if (store !== this.store) return;
      this.fault = faultWords(fault);
    }
    this.changed();
  }

  /**
   * Keeps a version of the card, the one before it where the page brought that along, and the catalogue that it is used
   * with. @throws StorageFault
   */
  async keep(rates: Rates, before: Rates, catalogue: Catalogue | null): Promise<void> {
    const store = this.store!;
    const { keepVersion } = await keptVersions();
    await keepVersion(store, before);
    if (catalogue !== null) await keepVersion(store, catalogue);
    await keepVersion(store, rates);
    await this.read(store);
  }
}
