/** Two places, one of which is often away: nothing that was acknowledged is lost, whatever comes between. */
import { afterEach, describe, expect, it } from 'vitest';
import { Memory, openMemoryStore } from '../../../components/storage/memory-store.js';
import type { OfflineStanding } from '../../../components/storage/offline-standing.js';
import { type OfflineStore, openOfflineStore } from '../../../components/storage/offline-store.js';
import { type KeptKind, type KeptStore, type PutResult, StorageFault } from '../../../components/storage/port.js';
import { CONTRACT, current, faultOf, hearing, kept, runCheck, until } from '../../support/storage-contract.js';

const open: OfflineStore[] = [];
afterEach(() => {
  for (const store of open.splice(0)) store.close();
});

/** What a browser keeps, over reloads. */
class Browser {
  readonly local = new Memory();
  readonly notes = new Memory();
  readonly line: Line;

  constructor(private readonly remote: Memory) {
    this.line = new Line(openMemoryStore(this.remote));
  }

  load(): OfflineStore {
    const store = openOfflineStore(openMemoryStore(this.local), this.line, openMemoryStore(this.notes), { retryEvery: 20 });
    open.push(store);
    return store;
  }
}

/** A line to a store, which may be cut, and may lose puts or the answers to them. */
class Line implements KeptStore {
  isCut = false;
  /** Called before each put; says what becomes of it. */
  fate: () => 'arrives' | 'is lost' | 'loses its answer' = () => 'arrives';
  puts = 0;
  gets = 0;

  constructor(private readonly store: KeptStore) {}

  list(kind: KeptKind) {
    return this.check() ?? this.store.list(kind);
  }

  get(kind: KeptKind, id: string) {
    this.gets += 1;
    return this.check() ?? this.store.get(kind, id);
  }

  async put(...put: Parameters<KeptStore['put']>): Promise<PutResult> {
    await this.check();
    this.puts += 1;
    const fate = this.fate();
    if (fate === 'is lost') throw new StorageFault('away', 'lost');
    const result = await this.store.put(...put);
    if (fate === 'loses its answer') throw new StorageFault('away', 'lost');
    return result;
  }

  watch(...watch: Parameters<KeptStore['watch']>): () => void {
    return this.store.watch(watch[0], (change) => {
      if (!this.isCut) watch[1](change);
    });
  }

  /** What is there outlives whoever looks at it. */
  close(): void {}

  private check(): Promise<never> | null {
    return this.isCut ? Promise.reject(new StorageFault('away', 'the line is cut')) : null;
  }
}

describe('the contract, with nobody there', () => {
  it.each(CONTRACT.map(({ name }) => name).filter((name) => name !== 'says that it is closed'))('%s', async (name) => {
    const browser = new Browser(new Memory());
    browser.line.isCut = true;
    await runCheck(name, browser.load(), browser.load());
  });
});

describe('the contract, with somebody there', () => {
  it.each(CONTRACT.map(({ name }) => name))('%s', async (name) => {
    const browser = new Browser(new Memory());
    await runCheck(name, browser.load(), browser.load());
  });
});

describe('here and there', () => {
  it('what is put here goes there, and the other way', async () => {
    const there = new Memory();
    const remote = openMemoryStore(there);
    const store = new Browser(there).load();
    const first = kept(await store.put('estimate', 'e-1', 'one', null, 'words'));
    await until('it is there', async () => (await remote.get('estimate', 'e-1'))?.text === 'one');
    await store.sync();
    expect(await store.state('estimate', 'e-1')).toBe('kept everywhere');
    const { heard } = hearing(store, 'estimate');
    kept(await remote.put('estimate', 'e-1', 'two', (await remote.get('estimate', 'e-1'))!.revision, 'other words'));
    await until('it is here', () => heard.some(({ entry }) => entry?.about === 'other words'));
    expect((await store.get('estimate', 'e-1'))?.text).toBe('two');
    expect(current(await store.put('estimate', 'e-1', 'three', first))?.text).toBe('two');
    kept(await remote.put('estimate', 'e-1', null, (await remote.get('estimate', 'e-1'))!.revision));
    await until('the removal is here', async () => (await store.get('estimate', 'e-1')) === null);
    expect(await store.list('estimate')).toEqual([]);
  });

  it('says what waits, and why; what waits outlives a reload', async () => {
    const there = new Memory();
    const browser = new Browser(there);
    browser.line.isCut = true;
    const store = browser.load();
    const told: OfflineStanding[] = [];
    store.watchStanding((standing) => told.push(standing));
    kept(await store.put('estimate', 'e-1', 'one', null));
    await until('it is told', () => told.some(({ waiting, fault }) => waiting.length === 1 && fault?.code === 'away'));
    expect(told.at(-1)!.waiting).toEqual([{ kind: 'estimate', id: 'e-1' }]);
    store.close();
    const again = browser.load();
    expect(await again.state('estimate', 'e-1')).toBe('waiting');
    browser.line.isCut = false;
    await until('it is there', async () => (await openMemoryStore(there).get('estimate', 'e-1'))?.text === 'one');
    let standing: OfflineStanding | undefined;
    again.watchStanding((now) => (standing = now));
    await until('nothing waits', () => standing?.waiting.length === 0 && standing.fault === null);
    expect(await again.state('estimate', 'e-1')).toBe('kept everywhere');
  });

  it('many edits while away are one put there', async () => {
    const browser = new Browser(new Memory());
    browser.line.isCut = true;
    const store = browser.load();
    let revision: string | null = null;
    for (let i = 0; i < 50; i += 1) revision = kept(await store.put('estimate', 'e-1', `text ${i}`, revision));
    browser.line.isCut = false;
    await store.sync();
    expect(await store.state('estimate', 'e-1')).toBe('kept everywhere');
    expect(browser.line.puts).toBe(1);
  });

  it('an edit costs one put there and no question besides', async () => {
    const browser = new Browser(new Memory());
    const store = browser.load();
    const first = kept(await store.put('estimate', 'e-1', 'one', null));
    await until('it is there', async () => (await store.state('estimate', 'e-1')) === 'kept everywhere');
    await store.sync();
    const { puts, gets } = browser.line;
    kept(await store.put('estimate', 'e-1', 'two', first));
    await until('it is there', async () => (await store.state('estimate', 'e-1')) === 'kept everywhere');
    await store.sync();
    expect([browser.line.puts - puts, browser.line.gets - gets]).toEqual([1, 0]);
  });

  it('a removal while away goes there, and one that nobody asked for does not', async () => {
    const there = new Memory();
    const browser = new Browser(there);
    const store = browser.load();
    for (const id of ['removed', 'lost']) kept(await store.put('estimate', id, `text of ${id}`, null));
    await store.sync();
    browser.line.isCut = true;
    kept(await store.put('estimate', 'removed', null, (await store.get('estimate', 'removed'))!.revision));
    expect(await store.state('estimate', 'removed')).toBe('waiting');
    store.close();
    // What the browser's storage has lost is fetched again.
    browser.local.kept.delete('estimate lost');
    browser.line.isCut = false;
    const again = browser.load();
    await again.sync();
    expect([...there.kept.keys()]).toEqual(['estimate lost']);
    expect((await again.get('estimate', 'lost'))?.text).toBe('text of lost');
    expect(await again.get('estimate', 'removed')).toBeNull();
  });

  it('a removal that lost against an edit here removes nothing', async () => {
    const store = new Browser(new Memory()).load();
    const first = kept(await store.put('estimate', 'e-1', 'one', null));
    kept(await store.put('estimate', 'e-1', 'two', first));
    expect(current(await store.put('estimate', 'e-1', null, first))?.text).toBe('two');
    await store.sync();
    expect((await store.get('estimate', 'e-1'))?.text).toBe('two');
    expect(await store.state('estimate', 'e-1')).toBe('kept everywhere');
  });

  it('photos are fetched when they are asked for, the rest at once', async () => {
    const there = new Memory();
    const remote = openMemoryStore(there);
    for (const kind of ['photo', 'estimate', 'rates', 'catalogue'] as const) kept(await remote.put(kind, 'a', `a ${kind}`, null));
    const browser = new Browser(there);
    const store = browser.load();
    await store.sync();
    expect([...browser.local.kept.keys()].sort()).toEqual(['catalogue a', 'estimate a', 'rates a']);
    expect((await store.get('photo', 'a'))?.text).toBe('a photo');
    browser.line.isCut = true;
    expect((await store.get('photo', 'a'))?.text).toBe('a photo');
    expect(await faultOf(store.get('photo', 'b'))).toBe('away');
  });

  it('a new browser has the list of what is there', async () => {
    const there = new Memory();
    kept(await openMemoryStore(there).put('estimate', 'e-1', 'one', null));
    expect((await new Browser(there).load().list('estimate')).map(({ id }) => id)).toEqual(['e-1']);
  });

  it('one text that cannot be brought there keeps no other from it, and is told', async () => {
    const there = new Memory();
    const browser = new Browser(there);
    browser.line.isCut = true;
    const store = browser.load();
    for (const id of ['a', 'b', 'c']) kept(await store.put('photo', id, `photo ${id}`, null));
    let puts = 0;
    browser.line.fate = () => {
      puts += 1;
      if (puts % 3 === 2) throw new StorageFault('full', 'too large');
      return 'arrives';
    };
    browser.line.isCut = false;
    let standing: OfflineStanding | undefined;
    store.watchStanding((now) => (standing = now));
    await store.sync();
    expect(there.kept.size).toBeGreaterThanOrEqual(2);
    await until('all are there', () => there.kept.size === 3 && standing?.waiting.length === 0);
  });
});

describe('an answer that was lost', () => {
  it('is no conflict with oneself, not even when the text was changed since', async () => {
    const there = new Memory();
    const browser = new Browser(there);
    const store = browser.load();
    await store.sync();
    let puts = 0;
    browser.line.fate = () => {
      puts += 1;
      if (puts === 1) browser.line.isCut = true;
      return puts === 1 ? 'loses its answer' : 'arrives';
    };
    const first = kept(await store.put('estimate', 'e-1', 'one', null));
    await until('the answer is lost', () => puts === 1);
    kept(await store.put('estimate', 'e-1', 'two', first));
    store.close();
    browser.line.isCut = false;
    const again = browser.load();
    await again.sync();
    expect(await again.state('estimate', 'e-1')).toBe('kept everywhere');
    expect(there.kept.get('estimate e-1')?.text).toBe('two');
  });
});

describe('a conflict', () => {
  async function inConflict(hereText: string | null, thereText: string | null) {
    const there = new Memory();
    const remote = openMemoryStore(there);
    const browser = new Browser(there);
    const store = browser.load();
    kept(await store.put('estimate', 'e-1', 'before', null));
    await store.sync();
    browser.line.isCut = true;
    kept(await store.put('estimate', 'e-1', hereText, (await store.get('estimate', 'e-1'))!.revision));
    kept(await remote.put('estimate', 'e-1', thereText, (await remote.get('estimate', 'e-1'))!.revision));
    browser.line.isCut = false;
    await store.sync();
    return { there, remote, browser, store };
  }

  it('keeps both versions, over a reload, and lets one edit on', async () => {
    const { browser, store, remote } = await inConflict('mine', 'theirs');
    expect(await store.state('estimate', 'e-1')).toBe('conflict');
    kept(await store.put('estimate', 'e-1', 'mine, and on', (await store.get('estimate', 'e-1'))!.revision));
    store.close();
    const again = browser.load();
    await again.sync();
    const conflict = await again.conflict('estimate', 'e-1');
    expect([conflict?.here?.text, conflict?.there?.text]).toEqual(['mine, and on', 'theirs']);
    expect((await remote.get('estimate', 'e-1'))?.text).toBe('theirs');
    let standing: OfflineStanding | undefined;
    again.watchStanding((now) => (standing = now));
    expect(standing?.conflicts).toEqual([{ kind: 'estimate', id: 'e-1' }]);
  });

  it.each(['mine', 'theirs', 'both: mine, theirs', null])('is resolved with %j, which goes there', async (choice) => {
    const { store, there } = await inConflict('mine', 'theirs');
    kept(await store.resolve('estimate', 'e-1', choice));
    await store.sync();
    expect(await store.state('estimate', 'e-1')).toBe('kept everywhere');
    expect(there.kept.get('estimate e-1')?.text ?? null).toBe(choice);
    expect((await store.get('estimate', 'e-1'))?.text ?? null).toBe(choice);
  });

  it('shows what is there now when that changes again, also after it was resolved', async () => {
    const { store, remote, browser } = await inConflict('mine', 'theirs');
    kept(await remote.put('estimate', 'e-1', 'theirs, and on', (await remote.get('estimate', 'e-1'))!.revision));
    await store.sync();
    expect((await store.conflict('estimate', 'e-1'))?.there?.text).toBe('theirs, and on');
    browser.line.isCut = true;
    kept(await store.resolve('estimate', 'e-1', 'both'));
    expect(await store.state('estimate', 'e-1')).toBe('waiting');
    kept(await remote.put('estimate', 'e-1', 'theirs, once more', (await remote.get('estimate', 'e-1'))!.revision));
    browser.line.isCut = false;
    await store.sync();
    const conflict = await store.conflict('estimate', 'e-1');
    expect([conflict?.here?.text, conflict?.there?.text]).toEqual(['both', 'theirs, once more']);
  });

  it.each([
    ['mine', null],
    [null, 'theirs'],
  ])('%j here and %j there is one too: a removal against an edit', async (here, there) => {
    const { store, remote } = await inConflict(here, there);
    const conflict = await store.conflict('estimate', 'e-1');
    expect([conflict?.here?.text ?? null, conflict?.there?.text ?? null]).toEqual([here, there]);
    kept(await store.resolve('estimate', 'e-1', 'kept after all'));
    await store.sync();
    expect((await remote.get('estimate', 'e-1'))?.text).toBe('kept after all');
  });

  it('ends by itself where both come to the same', async () => {
    const { store, remote } = await inConflict('mine', 'theirs');
    kept(await remote.put('estimate', 'e-1', 'mine', (await remote.get('estimate', 'e-1'))!.revision));
    await store.sync();
    expect(await store.state('estimate', 'e-1')).toBe('kept everywhere');
  });

  it('is none where both have removed it', async () => {
    const { store } = await inConflict(null, null);
    expect(await store.state('estimate', 'e-1')).toBe('kept everywhere');
    expect(await store.conflict('estimate', 'e-1')).toBeNull();
  });
});

/** Numbers that a seed gives. */
function dice(seed: number): (sides: number) => number {
  let state = seed * 2654435761;
  return (sides) => {
    state = (Math.imul(state ^ (state >>> 15), 2246822519) + 3266489917) >>> 0;
    return state % sides;
  };
}

describe('anything, in any order', () => {
  it.each(Array.from({ length: 60 }, (_, i) => i + 1))(
    'seed %d: two browsers, lines that are cut, answers that are lost, reloads: every acknowledged word is kept',
    async (seed) => {
      const roll = dice(seed);
      const there = new Memory();
      const browsers = [new Browser(there), new Browser(there)];
      for (const { line } of browsers) line.fate = () => (['is lost', 'loses its answer', 'arrives', 'arrives'] as const)[roll(4)]!;
      const stores = browsers.map((browser) => browser.load());
      const acknowledged: string[] = [];
      const merge = (...texts: (string | undefined)[]): string =>
        [...new Set(texts.flatMap((text) => (text ?? '').split(' ').filter(Boolean)))].sort().join(' ');
      const resolveAll = async (store: OfflineStore): Promise<void> => {
        const conflict = await store.conflict('estimate', 'e');
        if (conflict !== null) await store.resolve('estimate', 'e', merge(conflict.here?.text, conflict.there?.text));
      };
      for (let turn = 0; turn < 60; turn += 1) {
        const i = roll(2);
        const store = stores[i]!;
        const what = roll(10);
        if (what < 5) {
          const read = await store.get('estimate', 'e');
          const word = `w${turn}`;
          if ((await store.put('estimate', 'e', merge(read?.text, word), read?.revision ?? null)).ok) acknowledged.push(word);
        } else if (what === 5) {
          browsers[i]!.line.isCut = !browsers[i]!.line.isCut;
        } else if (what === 6) {
          store.close();
          stores[i] = browsers[i]!.load();
        } else if (what === 7) {
          await resolveAll(store);
        } else if (what === 8) {
          await store.sync();
        } else {
          await new Promise((resolve) => setTimeout(resolve, roll(4)));
        }
      }
      for (const { line } of browsers) {
        line.isCut = false;
        line.fate = () => 'arrives';
      }
      await until('both have everything', async () => {
        for (const store of stores) {
          await store.sync();
          await resolveAll(store);
        }
        const states = await Promise.all(stores.map((store) => store.state('estimate', 'e')));
        return (
          acknowledged.length === 0 ||
          (states.every((state) => state === 'kept everywhere') &&
            new Set([...stores.map(() => there.kept.get('estimate e')?.text)]).size === 1)
        );
      });
      for (const store of stores) {
        await store.sync();
        expect(
          merge((await store.get('estimate', 'e'))?.text)
            .split(' ')
            .filter(Boolean),
        ).toEqual([...acknowledged].sort());
      }
    },
  );
});
