/**
 * What every store must do, as checks that run in Node and in a page alike: each gets two openings of one store that
 * nobody has used yet, as two tabs or two machines have. A check fails by throwing.
 */
import { type Kept, type KeptChange, type KeptKind, type KeptStore, type PutResult, StorageFault } from '../../components/storage/port.js';

export interface Check {
  readonly name: string;
  run(here: KeptStore, there: KeptStore): Promise<void>;
}

/** Every character that an id may have, and ids that paths, addresses and keys like to read as something else. */
export const AWKWARD_IDS = [
  'abcdefghijklmnopqrstuvwxyz',
  'ABCDEFGHIJKLMNOPQRSTUVWXYZ',
  '0123456789._-',
  'e',
  'E',
  '.',
  '..',
  '...',
  '.a',
  'a.',
  'a..b',
  '-',
  '_',
  '--',
  'con',
  'CON',
  'nul.json',
  '__proto__',
  'constructor',
  'a.json',
  'x'.repeat(64),
];

/** Texts that must come back exactly as they were. */
export const AWKWARD_TEXTS = [
  '',
  ' ',
  '\n',
  '\r\n a \r b \n',
  '\uFEFFwith a byte order mark',
  'a\u0000b',
  'Zoë, 水冷, 🚐👩🏽‍🔧, \u202Eright to left',
  'e\u0301 is not \u00E9',
  '\uFFFD \uFFFE \uFFFF \u{10FFFF}',
  '{"format":"baysheet-estimate","version":1}',
  '\u2028\u2029',
  '"\\ud800"',
  'null',
];

export const CONTRACT: readonly Check[] = [
  {
    name: 'keeps what nobody has kept yet, and only that',
    async run(here, there) {
      same(await here.get('estimate', 'e-1'), null);
      const revision = kept(await here.put('estimate', 'e-1', 'first', null, 'van, 1042'));
      const lost = await there.put('estimate', 'e-1', 'second', null);
      same(current(lost)?.text, 'first');
      same(current(lost)?.revision, revision);
      const found = await there.get('estimate', 'e-1');
      same([found?.kind, found?.id, found?.text, found?.about, found?.revision], ['estimate', 'e-1', 'first', 'van, 1042', revision]);
      if (Math.abs(Date.parse(found!.savedAt) - Date.now()) > 60_000) throw new Error(`saved at ${found!.savedAt}`);
      same(found!.savedAt, new Date(found!.savedAt).toISOString());
    },
  },
  {
    name: 'keeps over what was read, and a conflict tells what is there now',
    async run(here, there) {
      const first = kept(await here.put('estimate', 'e-1', 'one', null));
      const second = kept(await there.put('estimate', 'e-1', 'two', first));
      differ(first, second);
      const lost = await here.put('estimate', 'e-1', 'three', first, 'words');
      same([current(lost)?.text, current(lost)?.revision], ['two', second]);
      same((await here.get('estimate', 'e-1'))?.text, 'two');
      kept(await here.put('estimate', 'e-1', 'three', second, 'words'));
      same((await there.get('estimate', 'e-1'))?.text, 'three');
      same((await there.get('estimate', 'e-1'))?.about, 'words');
    },
  },
  {
    name: 'a revision means nothing once the text was removed and kept anew',
    async run(here, there) {
      const first = kept(await here.put('estimate', 'e-1', 'one', null));
      kept(await here.put('estimate', 'e-1', null, first));
      const gone = await there.put('estimate', 'e-1', 'two', first);
      same(current(gone), null);
      kept(await there.put('estimate', 'e-1', 'another', null));
      same(current(await here.put('estimate', 'e-1', 'two', first))?.text, 'another');
    },
  },
  {
    name: 'removes at the revision that was read, and nothing else',
    async run(here, there) {
      const first = kept(await here.put('estimate', 'e-1', 'one', null));
      kept(await here.put('estimate', 'e-2', 'stays', null));
      const second = kept(await there.put('estimate', 'e-1', 'two', first));
      same(current(await here.put('estimate', 'e-1', null, first))?.text, 'two');
      kept(await here.put('estimate', 'e-1', null, second));
      same(await there.get('estimate', 'e-1'), null);
      same(
        (await there.list('estimate')).map(({ id }) => id),
        ['e-2'],
      );
      kept(await there.put('estimate', 'e-1', null, second));
    },
  },
  {
    name: 'a put of exactly what is kept is kept, whatever was read: an answer that was lost costs nothing',
    async run(here, there) {
      const first = kept(await here.put('estimate', 'e-1', 'one', null, 'words'));
      const second = kept(await here.put('estimate', 'e-1', 'two', first, 'words'));
      same(kept(await here.put('estimate', 'e-1', 'two', first, 'words')), second);
      same(kept(await there.put('estimate', 'e-1', 'two', null, 'words')), second);
      same(current(await there.put('estimate', 'e-1', 'two', null, 'other words'))?.about, 'words');
      kept(await here.put('estimate', 'e-1', null, second));
      kept(await here.put('estimate', 'e-1', null, second));
    },
  },
  {
    name: 'lists one kind, the last saved first, with its words and without its texts',
    async run(here, there) {
      for (const id of ['b', 'a', 'c']) {
        kept(await here.put('estimate', id, `text of ${id}`, null, `words of ${id}`));
        await pause(5);
      }
      kept(await here.put('rates', 'r', 'a rate card', null));
      const b = (await there.get('estimate', 'b'))!;
      kept(await there.put('estimate', 'b', 'newer', b.revision, 'words of b'));
      const list = await there.list('estimate');
      same(
        list.map(({ id, about }) => [id, about]),
        [
          ['b', 'words of b'],
          ['c', 'words of c'],
          ['a', 'words of a'],
        ],
      );
      for (const entry of list) {
        same(Object.keys(entry).sort(), ['about', 'id', 'kind', 'revision', 'savedAt']);
        same(entry.revision, (await here.get('estimate', entry.id))?.revision);
      }
      same(
        (await here.list('rates')).map(({ id }) => id),
        ['r'],
      );
      same(await here.list('photo'), []);
    },
  },
  {
    name: 'hears of its own and of others’ changes, until it stops listening',
    async run(here, there) {
      const own = hearing(here, 'estimate');
      const others = hearing(there, 'estimate');
      await Promise.all([here.list('estimate'), there.list('estimate')]);
      const first = kept(await here.put('estimate', 'e-1', 'one', null, 'words'));
      kept(await here.put('rates', 'r', 'not an estimate', null));
      for (const { heard } of [own, others]) {
        await until('the put is heard', () =>
          heard.some(({ id, entry }) => id === 'e-1' && entry?.revision === first && entry.about === 'words'),
        );
      }
      const second = kept(await there.put('estimate', 'e-1', 'two', first));
      for (const { heard } of [own, others])
        await until('the second put is heard', () => heard.some(({ entry }) => entry?.revision === second));
      own.end();
      const before = own.heard.length;
      kept(await there.put('estimate', 'e-1', null, second));
      await until('the removal is heard', () => others.heard.some(({ id, entry }) => id === 'e-1' && entry === null));
      same(own.heard.length, before);
      same(
        [...own.heard, ...others.heard].filter(({ kind }) => kind !== 'estimate'),
        [],
      );
      others.end();
    },
  },
  {
    name: 'a hearer that fails keeps nobody else from hearing',
    async run(here) {
      const heard: string[] = [];
      const faults = catchUncaught();
      const ends = [
        here.watch('estimate', () => {
          throw new Error('a hearer that fails');
        }),
        here.watch('estimate', ({ id }) => void heard.push(id)),
      ];
      await here.list('estimate');
      kept(await here.put('estimate', 'e-1', 'one', null));
      await until('the other hears', () => heard.includes('e-1'));
      await until('the fault is reported', () => faults.messages.some((message) => message.includes('a hearer that fails')));
      for (const end of ends) end();
      faults.end();
    },
  },
  {
    name: 'keeps every allowed id apart',
    async run(here, there) {
      for (const id of AWKWARD_IDS) kept(await here.put('estimate', id, `text of ${id}`, null, id));
      for (const id of AWKWARD_IDS) {
        const found = await there.get('estimate', id);
        same([found?.id, found?.text, found?.about], [id, `text of ${id}`, id]);
      }
      same((await there.list('estimate')).map(({ id }) => id).sort(), [...AWKWARD_IDS].sort());
      for (const id of AWKWARD_IDS) kept(await there.put('estimate', id, null, (await there.get('estimate', id))!.revision));
      same(await here.list('estimate'), []);
    },
  },
  {
    name: 'keeps every text exactly, and its words',
    async run(here, there) {
      for (const [i, text] of AWKWARD_TEXTS.entries()) {
        kept(await here.put('catalogue', `t-${i}`, text, null, text));
        const found = await there.get('catalogue', `t-${i}`);
        same([found?.text, found?.about], [text, text]);
      }
      const abouts = new Map((await there.list('catalogue')).map(({ id, about }) => [id, about]));
      for (const [i, text] of AWKWARD_TEXTS.entries()) same(abouts.get(`t-${i}`), text);
    },
  },
  {
    name: 'keeps a photo of three million characters beside many small ones',
    async run(here, there) {
      const large = largeText(3_000_000);
      const revision = kept(await here.put('photo', 'large', large, null));
      if ((await there.get('photo', 'large'))?.text !== large) throw new Error('the large text has changed');
      const larger = `${largeText(2_000_000)}水`;
      kept(await there.put('photo', 'large', larger, revision));
      if ((await here.get('photo', 'large'))?.text !== larger) throw new Error('the second large text has changed');
    },
  },
  {
    name: 'refuses what no store can keep exactly',
    async run(here) {
      for (const id of ['', 'a b', 'a/b', '../a', 'é', 'x'.repeat(65), 'a\n']) {
        same(await faultOf(here.put('estimate', id, 'text', null)), 'fault');
        same(await faultOf(here.get('estimate', id)), 'fault');
      }
      same(await faultOf(here.put('estimate', 'half', 'half of \uD83D', null)), 'fault');
      same(await faultOf(here.put('estimate', 'half', 'text', null, '\uDC00')), 'fault');
      same(await faultOf(here.put('estimate', 'long', 'text', null, 'x'.repeat(1001))), 'fault');
      kept(await here.put('rates', 'long', 'text', null, '水'.repeat(1000)));
      same(await faultOf(here.put('recipe' as KeptKind, 'a', 'text', null)), 'fault');
      same(await here.list('estimate'), []);
    },
  },
  {
    name: 'of puts at one moment exactly one wins',
    async run(here, there) {
      const create = await Promise.all(range(10).map((i) => (i % 2 ? here : there).put('estimate', 'e-1', `text ${i}`, null)));
      same(create.filter(({ ok }) => ok).length, 1);
      const won = create.findIndex(({ ok }) => ok);
      const read = (await here.get('estimate', 'e-1'))!;
      same(read.text, `text ${won}`);
      const results = await Promise.all(range(10).map((i) => (i % 2 ? here : there).put('estimate', 'e-1', `again ${i}`, read.revision)));
      same(results.filter(({ ok }) => ok).length, 1);
      const again = results.findIndex(({ ok }) => ok);
      same((await there.get('estimate', 'e-1'))?.text, `again ${again}`);
      for (const result of results) if (!result.ok) same(result.current?.text, `again ${again}`);
    },
  },
  {
    name: 'adding to one text from two sides loses nothing',
    async run(here, there) {
      const add = async (store: KeptStore, side: string): Promise<void> => {
        for (let done = 0; done < 25;) {
          const read = await store.get('estimate', 'list');
          const result = await store.put('estimate', 'list', `${read?.text ?? ''} ${side}${done}`, read?.revision ?? null);
          if (result.ok) done += 1;
        }
      };
      await Promise.all([add(here, 'a'), add(there, 'b')]);
      const words = (await here.get('estimate', 'list'))!.text.trim().split(' ');
      same(
        words.filter((word) => word.startsWith('a')),
        range(25).map((i) => `a${i}`),
      );
      same(
        words.filter((word) => word.startsWith('b')),
        range(25).map((i) => `b${i}`),
      );
    },
  },
  {
    name: 'says that it is closed',
    async run(here, there) {
      kept(await here.put('estimate', 'e-1', 'one', null));
      here.close();
      same(await faultOf(here.get('estimate', 'e-1')), 'fault');
      same(await faultOf(here.put('estimate', 'e-1', 'two', null)), 'fault');
      same((await there.get('estimate', 'e-1'))?.text, 'one');
    },
  },
];

/** Runs one check and closes both openings, whatever comes. */
export async function runCheck(name: string, here: KeptStore, there: KeptStore): Promise<void> {
  const check = CONTRACT.find((candidate) => candidate.name === name);
  if (check === undefined) throw new Error(`There is no check “${name}”.`);
  try {
    await check.run(here, there);
  } finally {
    here.close();
    there.close();
  }
}

/** Words that do not repeat, so that nothing is gained by packing them. */
export function largeText(length: number): string {
  let state = 1;
  const parts: string[] = [];
  for (let made = 0; made < length; made += 7) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    parts.push(state.toString(36).padStart(7, '0').slice(0, 7));
  }
  return parts.join('').slice(0, length);
}

export function kept(result: PutResult): string {
  if (!result.ok) throw new Error(`A put was not kept: conflict with ${JSON.stringify(result.current)}`);
  return result.revision;
}

export function current(result: PutResult): Kept | null {
  if (result.ok) throw new Error('A put was kept that must be a conflict.');
  return result.current;
}

export async function faultOf(promise: Promise<unknown>): Promise<string> {
  return promise.then(
    () => 'no fault',
    (fault: unknown) => (fault instanceof StorageFault ? fault.code : `not a StorageFault: ${String(fault)}`),
  );
}

export function hearing(store: KeptStore, kind: KeptKind): { heard: KeptChange[]; end: () => void } {
  const heard: KeptChange[] = [];
  return { heard, end: store.watch(kind, (change) => void heard.push(change)) };
}

export async function until(what: string, isSo: () => boolean | Promise<boolean>, seconds = 15): Promise<void> {
  const end = Date.now() + seconds * 1000;
  while (!(await isSo())) {
    if (Date.now() > end) throw new Error(`Not within ${seconds} seconds: ${what}`);
    await pause(10);
  }
}

export function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}

export function same(found: unknown, expected: unknown): void {
  const [a, b] = [JSON.stringify(found), JSON.stringify(expected)];
  if (a !== b) throw new Error(`expected ${b}, found ${a}`);
}

function differ(a: unknown, b: unknown): void {
  if (JSON.stringify(a) === JSON.stringify(b)) throw new Error(`expected two, found ${JSON.stringify(a)} twice`);
}

function range(length: number): number[] {
  return Array.from({ length }, (_, i) => i);
}

/** Uncaught errors, of Node or of a page, until `end`. */
function catchUncaught(): { messages: string[]; end: () => void } {
  const messages: string[] = [];
  if (typeof window === 'undefined') {
    const hear = (error: Error): void => void messages.push(error.message);
    // The test runner listens too, and would call the run failed.
    const others = process.listeners('uncaughtException');
    process.removeAllListeners('uncaughtException');
    process.on('uncaughtException', hear);
    return {
      messages,
      end: () => {
        process.off('uncaughtException', hear);
        for (const other of others) process.on('uncaughtException', other);
      },
    };
  }
  const hear = (event: ErrorEvent): void => {
    event.preventDefault();
    messages.push(event.message);
  };
  window.addEventListener('error', hear);
  return { messages, end: () => window.removeEventListener('error', hear) };
}
