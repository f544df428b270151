/** The keeping of an estimate, as far as it needs no page: the kept text, the words to list by, the queue of puts, what differs. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { aboutOf, answers, printAbout, readAbout } from '../../../components/estimate/keeping-about.js';
import { versionsDiffer } from '../../../components/estimate/keeping-difference.js';
import { duplicate } from '../../../components/estimate/keeping-duplicate.js';
import { SaveQueue, type Saving } from '../../../components/estimate/keeping-queue.js';
import { keptText, readKept } from '../../../components/estimate/keeping-text.js';
import { momentText } from '../../../components/estimate/keeping-words.js';
import { Memory, openMemoryStore } from '../../../components/storage/memory-store.js';
import { type KeptStore, StorageFault } from '../../../components/storage/port.js';
import { type Estimate, parseEstimate } from '../../../src/documents/estimate.js';
import { parseCatalogue } from '../../../src/documents/catalogue.js';
import { parseRates } from '../../../src/documents/rates.js';
import { priceEstimate } from '../../../src/pricing/price-estimate.js';

function must<T>(parsed: { ok: true; value: T } | { ok: false }): T {
  if (!parsed.ok) throw new Error('The demonstration’s documents can be read.');
  return parsed.value;
}
const file = (path: string): string => readFileSync(new URL(`../../../${path}`, import.meta.url), 'utf8');
const catalogue = must(parseCatalogue(file('rates/catalogue.demo.json')));
const rates = must(parseRates(file('rates/card.demo.json')));
const plenum = must(parseEstimate(file('demo/plenum.estimate.json')));
const price = (estimate: Estimate) => priceEstimate({ estimate, catalogue, rates });
const version = (estimate: Estimate) => ({ estimate, priced: price(estimate) });

describe('the kept text', () => {
  const pending = new Map([['lines:l1 book', { text: 'two', reason: 'not a figure' }]]);
  const typed = [{ place: ['cell', 'lines', 'lines:l1', 'book'], label: 'Book h', text: '2.' }];

  it('is the estimate alone while everything is finished', () => {
    expect(JSON.parse(keptText({ estimate: plenum, pending: new Map() }, []))).toEqual(plenum);
  });

  it('holds what is not finished, reads it back, and stays an estimate that others can read', () => {
    const text = keptText({ estimate: { ...plenum, extra: { shop: 7 } }, pending }, typed);
    expect(readKept(text)).toMatchObject({ ok: true, value: { estimate: { ...plenum, extra: { shop: 7 } }, pending, typed } });
    expect(parseEstimate(text).ok).toBe(true);
    // What was unfinished once leaves no trace.
    const again = must(readKept(text));
    expect(JSON.parse(keptText({ estimate: again.estimate, pending: new Map() }, [])).extra).toEqual({ shop: 7 });
  });

  it.each([
    ['not JSON', '{"format"', 'not-json'],
    ['nothing', 'null', undefined],
    ['a newer format', JSON.stringify({ ...plenum, version: 2 }), 'newer'],
  ])('%s is refused in words', (_, text, code) => {
    const read = readKept(text);
    expect(read.ok).toBe(false);
    expect(read.problems[0]!.message).not.toBe('');
    if (code !== undefined) expect(read.problems[0]!.code).toBe(code);
  });

  it.each([[7], ['x'], [[]], [{ cells: 7, typed: { a: 1 } }], [{ cells: [null, { key: 1 }], typed: [{ place: 'x' }, 7] }]])(
    'an unfinished part that is %j does not keep the estimate from being read',
    (unfinished) => {
      const read = readKept(JSON.stringify({ ...plenum, extra: { ...plenum.extra, 'baysheet-unfinished': unfinished } }));
      expect(read).toMatchObject({ ok: true, value: { estimate: plenum, typed: [] } });
    },
  );
});

describe('the words to list by', () => {
  it('come back as they were, cut where they are too long', () => {
    const about = aboutOf(plenum, price(plenum));
    expect(about).toMatchObject({
      number: 'B-1044',
      plate: 'DEMO 42',
      total: price(plenum).totals.total,
      currency: 'USD',
      standing: 'being made',
    });
    expect(readAbout({ about: printAbout(about), id: 'x' })).toEqual(about);
    const long = printAbout({ ...about, name: `${'n'.repeat(198)}😀${'m'.repeat(900)}`, vehicle: 'a\tb\n'.repeat(300), number: '\ud800' });
    expect(long.length).toBeLessThanOrEqual(1000);
    expect(/\p{Surrogate}/u.test(long)).toBe(false);
    expect(readAbout({ about: long, id: 'x' }).currency).toBe('USD');
  });

  it('of somebody else stand as the number', () => {
    expect(readAbout({ about: 'Van of Orla', id: 'e-1' })).toMatchObject({ number: 'Van of Orla', plate: '' });
    expect(readAbout({ about: '', id: 'e-1' }).number).toBe('e-1');
  });

  it.each([
    ['b-10', true],
    ['B1044', true],
    ['1044 halvern', true],
    ['demo42', true],
    ['DEMO-42', true],
    ['orla', true],
    ['ÓRLA', true],
    ['', true],
    ['  ', true],
    ['1045', false],
    ['orla smith', false],
    ['demo43', false],
  ])('"%s" finds it: %s', (search, finds) => {
    expect(answers(aboutOf(plenum, null), search)).toBe(finds);
  });
});

describe('the queue of puts', () => {
  /** A store whose puts wait until they are let through, one by one. */
  function slow(): { store: KeptStore; next: (answer?: Error) => Promise<void>; puts: string[] } {
    const inner = openMemoryStore(new Memory());
    const puts: string[] = [];
    const waiting: ((answer?: Error) => void)[] = [];
    const put: KeptStore['put'] = async (kind, id, text, readAt, about) => {
      puts.push(text!);
      const answer = await new Promise<Error | undefined>((resolve) => waiting.push(resolve));
      if (answer?.message === 'lost') await inner.put(kind, id, text, readAt, about);
      if (answer !== undefined) throw answer;
      return inner.put(kind, id, text, readAt, about);
    };
    const store: KeptStore = {
      list: (kind) => inner.list(kind),
      get: (kind, id) => inner.get(kind, id),
      put,
      watch: (kind, hear) => inner.watch(kind, hear),
      close: () => inner.close(),
    };
    return {
      store,
      puts,
      next: async (answer) => {
        while (waiting.length === 0) await new Promise((resolve) => setImmediate(resolve));
        waiting.shift()!(answer);
        await new Promise((resolve) => setImmediate(resolve));
      },
    };
  }

  it('has one on its way, keeps the latest for after it, and leaves out what was between', async () => {
    const { store, next, puts } = slow();
    const queue = new SaveQueue(store, 'e-1', null, () => undefined);
    for (const text of ['1', '2', '3']) queue.put(text, '');
    expect(puts).toEqual(['1']);
    expect(queue.saving.is).toBe('saving');
    await next();
    expect(puts).toEqual(['1', '3']);
    await next();
    expect(queue.saving.is).toBe('saved');
    expect(queue.isClean).toBe(true);
    expect((await store.get('estimate', 'e-1'))?.text).toBe('3');
  });

  it('keeps what failed and puts the latest with the next try', async () => {
    const { store, next, puts } = slow();
    const queue = new SaveQueue(store, 'e-1', null, () => undefined);
    queue.put('1', '');
    await next(new StorageFault('full', 'no room'));
    expect(queue.saving).toMatchObject({ is: 'failed', fault: { code: 'full' } });
    expect(queue.isClean).toBe(false);
    queue.retry();
    queue.put('2', '');
    await next();
    await next();
    expect(puts).toEqual(['1', '1', '2']);
    expect(queue.saving.is).toBe('saved');
    queue.stop();
  });

  it('a put whose answer was lost is no conflict with itself', async () => {
    const { store, next } = slow();
    const queue = new SaveQueue(store, 'e-1', null, () => undefined);
    queue.put('1', '');
    await next(new Error('lost'));
    expect(queue.saving).toMatchObject({ is: 'failed', fault: { code: 'fault', message: 'lost' } });
    queue.put('2', '');
    await next();
    await next();
    expect(queue.saving.is).toBe('saved');
    expect((await store.get('estimate', 'e-1'))?.text).toBe('2');
  });

  it('what somebody else has put stops it until a person has decided', async () => {
    const memory = new Memory();
    const [mine, theirs] = [openMemoryStore(memory), openMemoryStore(memory)];
    await theirs.put('estimate', 'e-1', 'theirs', null);
    const queue = new SaveQueue(mine, 'e-1', null, () => undefined);
    queue.put('1', '');
    await queue.settled();
    expect(queue.saving).toMatchObject({ is: 'conflict', current: { text: 'theirs' } });
    queue.put('2', '');
    await queue.settled();
    expect((await mine.get('estimate', 'e-1'))?.text).toBe('theirs');
    queue.putOver((queue.saving as Extract<Saving, { is: 'conflict' }>).current!.revision);
    await queue.settled();
    expect((await mine.get('estimate', 'e-1'))?.text).toBe('2');
    expect(queue.saving.is).toBe('saved');
  });
});

describe('two versions', () => {
  it('that say the same differ in nothing', () => {
    expect(versionsDiffer(version(plenum), version(structuredClone(plenum)), 'en-US')).toEqual([]);
  });

  it('differ in words: fields, findings, lines with their price and the reason', () => {
    const [first, second] = plenum.lines as [Estimate['lines'][number], Estimate['lines'][number]];
    const mine: Estimate = {
      ...plenum,
      number: 'B-9',
      lines: [{ ...first, bookHours: '2.5' } as typeof first, { ...second, note: 'look' }],
      findings: plenum.findings.slice(1),
    };
    const told = versionsDiffer(version(mine), version(plenum), 'en-US').map(({ what, here, there }) => [what, here, there].join(' | '));
    expect(told[0]).toBe('Estimate number | B-9 | B-1044');
    expect(told).toContainEqual(expect.stringMatching(/^Finding \| not there \| plenum/));
    expect(told).toContainEqual(
      expect.stringMatching(
        /^Line \(book hours\) \| Replace the upper plenum gasket, \$[\d.]+ \| Replace the upper plenum gasket, \$[\d.]+/,
      ),
    );
    expect(told).toContainEqual(expect.stringMatching(/^Line: Replace the injector O-rings.* \| details differ \| details differ$/));
  });

  it('also where only data differs that has no words', () => {
    expect(versionsDiffer(version({ ...plenum, extra: { a: 1 } }), version(plenum), 'en-US')).toEqual([
      { what: 'Other data', here: 'differs', there: 'differs' },
    ]);
  });
});

it('a duplicate is a new job: nothing decided or agreed, under another id', () => {
  const authorised: Estimate = {
    ...plenum,
    revision: 3,
    consents: [{ any: 1 }],
    history: [{ any: 1 }],
    lines: plenum.lines.map((line) => ({ ...line, decision: 'approved' })),
  };
  const copy = duplicate(authorised, new Date('2026-03-09T10:00:00Z'));
  expect(copy).toMatchObject({ number: 'B-1044 (copy)', revision: 1, createdAt: '2026-03-09T10:00:00.000Z', consents: [], history: [] });
  expect(copy.id).not.toBe(plenum.id);
  expect(duplicate(authorised, new Date('2026-03-09T10:00:00Z')).id).not.toBe(copy.id);
  expect(copy.lines.map(({ decision }) => decision)).toEqual(['proposed', 'proposed']);
  expect(parseEstimate(JSON.stringify(copy)).ok).toBe(true);
});

it('a moment is told by the time of day, and by the day where that is another', () => {
  const now = new Date(2026, 2, 9, 16, 0);
  expect(momentText(new Date(2026, 2, 9, 14, 5), 'en-GB', now)).toBe('14:05');
  expect(momentText(new Date(2026, 2, 8, 14, 5), 'en-GB', now)).toBe('8 Mar 2026, 14:05');
  expect(momentText(new Date('nonsense'), 'en-GB', now)).toBe('');
});
