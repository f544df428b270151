/** The whole store as one file, and back. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { backupFile, writeBackup } from '../../../components/storage/backup.js';
import { Memory, openMemoryStore } from '../../../components/storage/memory-store.js';
import { type Kept, type KeptStore, StorageFault } from '../../../components/storage/port.js';
import { compareBackup, readBackup, restoreBackup } from '../../../components/storage/restore.js';
import { AWKWARD_IDS, AWKWARD_TEXTS, kept, largeText } from '../../support/storage-contract.js';

async function written(store: KeptStore): Promise<string> {
  let text = '';
  for await (const piece of writeBackup(store)) text += piece;
  return text;
}

async function filled(): Promise<KeptStore> {
  const store = openMemoryStore();
  const van = readFileSync(new URL('../../../demo/van.estimate.json', import.meta.url), 'utf8');
  kept(await store.put('estimate', 'van', van, null, 'van 1042'));
  for (const [i, id] of AWKWARD_IDS.entries())
    kept(await store.put('catalogue', id, AWKWARD_TEXTS[i % AWKWARD_TEXTS.length]!, null, AWKWARD_TEXTS[(i + 1) % AWKWARD_TEXTS.length]));
  kept(await store.put('photo', 'p', largeText(1_500_000), null));
  kept(await store.put('rates', 'r', '{}', null));
  return store;
}

function withFault(store: KeptStore, change: Partial<KeptStore> & { raw?: unknown }): KeptStore {
  return Object.assign(Object.create(store) as KeptStore, change);
}

describe('there and back', () => {
  it('every text and its words come back exactly, and the file of the filled store is the same, byte for byte', async () => {
    const store = await filled();
    const file = await written(store);
    const { entries, unreadable, problems } = readBackup(file);
    expect([problems, unreadable]).toEqual([[], []]);
    const other = openMemoryStore();
    const restored = await restoreBackup(other, entries);
    expect(restored.added.length).toBe(AWKWARD_IDS.length + 3);
    expect(Buffer.from(await written(other)).equals(Buffer.from(file))).toBe(true);
    for (const kind of ['estimate', 'rates', 'catalogue', 'photo'] as const) {
      for (const { id } of await store.list(kind)) {
        const [one, two] = [await store.get(kind, id), await other.get(kind, id)];
        expect([two?.text, two?.about]).toEqual([one?.text, one?.about]);
      }
    }
    expect(Buffer.from(await (await backupFile(store)).arrayBuffer()).equals(Buffer.from(file))).toBe(true);
  });

  it('an empty store is a backup too', async () => {
    const file = await written(openMemoryStore());
    expect(JSON.parse(file)).toEqual({ format: 'baysheet-backup', version: 1, entries: [], unreadable: [] });
    expect(readBackup(file).problems).toEqual([]);
  });

  it('each text is written as it is read', async () => {
    const store = await filled();
    let gets = 0;
    const counting = withFault(store, { get: (kind, id) => ((gets += 1), store.get(kind, id)) });
    const seen: number[] = [];
    for await (const piece of writeBackup(counting)) if (piece.includes('"kind"')) seen.push(gets);
    expect(seen).toEqual(Array.from({ length: AWKWARD_IDS.length + 3 }, (_, i) => i + 1));
  });

  it('what cannot be read is listed with what is left of it, and stops nothing', async () => {
    const store = await filled();
    const damaged = withFault(store, {
      get: (kind, id) =>
        id === 'van' ? Promise.reject(new StorageFault('corrupt', 'The estimate “van” cannot be read.')) : store.get(kind, id),
      raw: () => Promise.resolve('{"text":"half"}'),
    });
    const { entries, unreadable, problems } = readBackup(await written(damaged));
    expect(entries.length).toBe(AWKWARD_IDS.length + 2);
    expect(unreadable).toEqual([{ kind: 'estimate', id: 'van', why: 'The estimate “van” cannot be read.', raw: '{"text":"half"}' }]);
    expect(problems).toEqual([]);
    const denied = withFault(store, { get: () => Promise.reject(new StorageFault('denied', 'no')) });
    await expect(written(denied)).rejects.toThrow('no');
  });
});

describe('beside what is kept', () => {
  const one = { kind: 'estimate', id: 'e-1', about: 'words', text: 'of the backup' } as const;

  it('nothing that differs is overwritten unless somebody has chosen so', async () => {
    const store = openMemoryStore();
    kept(await store.put('estimate', 'e-1', 'newer', null, 'words'));
    expect((await compareBackup(store, [one])).map(({ entry, current }) => [entry.id, current?.text])).toEqual([['e-1', 'newer']]);
    const left = await restoreBackup(store, [one]);
    expect([left.left, left.added, left.replaced]).toEqual([[one], [], []]);
    expect((await store.get('estimate', 'e-1'))?.text).toBe('newer');
    const asked: (Kept | null)[] = [];
    const replaced = await restoreBackup(store, [one], (_, current) => (asked.push(current), 'replace'));
    expect(replaced.replaced).toEqual([one]);
    expect(asked.map((current) => current?.text)).toEqual(['newer']);
    expect((await store.get('estimate', 'e-1'))?.text).toBe('of the backup');
    const again = await restoreBackup(store, [one], () => 'replace');
    expect([again.same, again.replaced]).toEqual([[one], []]);
    expect(await compareBackup(store, [one])).toEqual([]);
  });

  it('what another tab puts meanwhile is asked about too', async () => {
    const store = openMemoryStore();
    let isFirst = true;
    const racing = withFault(store, {
      put: async (...put: Parameters<KeptStore['put']>) => {
        if (isFirst) {
          isFirst = false;
          kept(await store.put('estimate', 'e-1', 'of another tab', null));
        }
        return store.put(...put);
      },
    });
    const restored = await restoreBackup(racing, [one]);
    expect(restored.left).toEqual([one]);
    expect((await store.get('estimate', 'e-1'))?.text).toBe('of another tab');
  });

  it('one that cannot be read may be replaced', async () => {
    const memory = new Memory();
    const store = openMemoryStore(memory);
    kept(await store.put('estimate', 'e-1', 'damaged', null));
    const damaged = withFault(store, { get: () => Promise.reject(new StorageFault('corrupt', 'cannot be read')) });
    expect((await restoreBackup(damaged, [one])).left).toEqual([one]);
    expect((await restoreBackup(damaged, [one], (_, current) => (current === null ? 'replace' : 'leave'))).replaced).toEqual([one]);
    expect((await store.get('estimate', 'e-1'))?.text).toBe('of the backup');
  });

  it('no room ends it, with what was put back and what was not', async () => {
    const store = openMemoryStore();
    let puts = 0;
    const small = withFault(store, {
      put: (...put: Parameters<KeptStore['put']>) =>
        (puts += 1) > 2 ? Promise.reject(new StorageFault('full', 'no room')) : store.put(...put),
    });
    const entries = ['a', 'b', 'c', 'd'].map((id) => ({ ...one, id }));
    const restored = await restoreBackup(small, entries);
    expect(restored.added.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(restored.failed.map(({ entry, fault }) => [entry.id, fault.code])).toEqual([
      ['c', 'full'],
      ['d', 'full'],
    ]);
    expect(puts).toBe(3);
  });
});

describe('a file that is not as it should be', () => {
  const problemsOf = (value: unknown): string[] =>
    readBackup(typeof value === 'string' ? value : JSON.stringify(value)).problems.map(({ path, message }) => `${path}: ${message}`);
  const whole = { format: 'baysheet-backup', version: 1, entries: [] as unknown[], unreadable: [] };

  it.each([
    ['', /no JSON, or was cut short/],
    ['{"format":"baysheet-backup","version":1,"entries":[\n{"kind"', /cut short/],
    ['null', /no backup/],
    ['[]', /no backup/],
    ['{"format":"baysheet-estimate","version":1}', /no backup/],
    ['{"format":"baysheet-backup","version":2,"entries":[]}', /version 2.*Reload/],
    ['{"format":"baysheet-backup","version":{"toString":1},"entries":[]}', /no version that can be read/],
    ['{"format":"baysheet-backup","version":1}', /no list of entries/],
  ])('%s', (text, words) => {
    expect(problemsOf(text)).toEqual([expect.stringMatching(words)]);
    expect(readBackup(text).entries).toEqual([]);
  });

  it('a version that is nested 20,000 deep', () => {
    expect(problemsOf(`{"format":"baysheet-backup","version":${'['.repeat(20_000)}${']'.repeat(20_000)},"entries":[]}`)).toEqual([
      expect.stringMatching(/no version that can be read/),
    ]);
  });

  it('tells every entry that cannot be put back, with its place, and reads the others', () => {
    const good = { kind: 'estimate', id: 'good', about: '', text: 'text' };
    const file = JSON.stringify({
      ...whole,
      entries: [
        good,
        null,
        { ...good, id: 7 },
        { ...good, id: 'a/b' },
        { ...good, kind: 'recipe' },
        { ...good, text: 'other' },
        { ...good, id: 'half' },
      ],
    }).replace('"half","about":"","text":"text"', '"half","about":"","text":"\\ud83d"');
    const { entries, problems } = readBackup(file);
    expect(entries).toEqual([good]);
    expect(problems.map(({ path }) => path)).toEqual([
      'entries[1].kind',
      'entries[1].id',
      'entries[1].about',
      'entries[1].text',
      'entries[2].id',
      'entries[3]',
      'entries[4]',
      'entries[5]',
      'entries[6]',
    ]);
    expect(problems.at(-2)!.message).toContain('twice; the one at entries[0] is taken');
  });

  it('a byte order mark at its start is no fault', () => {
    expect(problemsOf(`\uFEFF${JSON.stringify(whole)}`)).toEqual([]);
  });

  it('estimates come last, after what they refer to', () => {
    const entries = ['estimate', 'photo', 'rates', 'catalogue'].map((kind) => ({ kind, id: 'a', about: '', text: '' }));
    expect(readBackup(JSON.stringify({ ...whole, entries })).entries.map(({ kind }) => kind)).toEqual([
      'catalogue',
      'rates',
      'photo',
      'estimate',
    ]);
  });
});
