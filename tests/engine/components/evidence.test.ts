/** Evidence without a page: edits, trouble codes, the size of a picture from its head, and where photos are kept. */
import { describe, expect, test } from 'vitest';
import { addCodes, explain, explainAll, noteCode, removeCode } from '../../../components/estimate/codes-edits.js';
import {
  addEvidence,
  addPhotos,
  chooseForCustomer,
  describeEvidence,
  photoText,
  removeEvidence,
  removePhoto,
} from '../../../components/estimate/evidence-edits.js';
import { isBareJpeg, pictureSize } from '../../../components/estimate/evidence-header.js';
import { PhotoKeeper, photoId } from '../../../components/estimate/evidence-keeper.js';
import type { PaneEdit } from '../../../components/estimate/pane-edit.js';
import { type Kept, type KeptStore, StorageFault } from '../../../components/storage/port.js';
import type { Estimate, Finding } from '../../../src/documents/estimate.js';
import { EstimateStore } from '../../../src/store/estimate-store.js';
import { aCatalogue, anEstimate, aRateCard, readDocuments } from '../../support/builders.js';

const JPEG = 'data:image/jpeg;base64,/9j/4AAQSkZJRg==';
const PNG = 'data:image/png;base64,iVBORw0KGgo=';

function desk(finding: Partial<Finding> = {}, more: Partial<Estimate> = {}) {
  const whole = { id: 'f1', round: 1, component: '', position: '', fault: 'leaks', seen: [], urgency: 'now', text: '', ...finding };
  const { estimate } = readDocuments({
    estimate: { ...anEstimate([], { findings: [whole] as never }), ...more } as never,
    catalogue: aCatalogue(),
    rates: aRateCard(),
  });
  const store = new EstimateStore(estimate);
  return {
    store,
    get estimate() {
      return store.getState().estimate;
    },
    get finding() {
      return store.getState().estimate.findings[0]!;
    },
    run({ commands, what }: PaneEdit): void {
      store.dispatch(commands, what);
    },
  };
}

describe('evidence', () => {
  test('is added, described and taken out', () => {
    const sheet = desk();
    sheet.run(addEvidence(sheet.finding));
    sheet.run(describeEvidence(sheet.finding, 0, 'how', ' gauge '));
    sheet.run(describeEvidence(sheet.finding, 0, 'reading', '38 kPa'));
    expect(sheet.finding.seen).toEqual([{ how: 'gauge', note: '', reading: '38 kPa', photo: '' }]);
    sheet.run(removeEvidence(sheet.finding, 0));
    expect(sheet.finding.seen).toEqual([]);
  });

  test('photos: the first to the evidence that asked for one, each other by itself', () => {
    const sheet = desk({ seen: [{ how: 'by eye', note: 'n', reading: '', photo: '' }] });
    sheet.run(addPhotos(sheet.finding, ['a', 'b'], 0));
    expect(sheet.finding.seen.map(({ how, photo }) => [how, photo])).toEqual([
      ['by eye', 'a'],
      ['photo', 'b'],
    ]);
    sheet.run(addPhotos(sheet.finding, ['c'], 0));
    sheet.run(addPhotos(sheet.finding, ['d'], null));
    expect(sheet.finding.seen.map(({ photo }) => photo)).toEqual(['a', 'b', 'c', 'd']);
    sheet.run(removePhoto(sheet.finding, 3));
    sheet.run(removePhoto(sheet.finding, 0));
    expect(sheet.finding.seen.map(({ how, photo }) => [how, photo])).toEqual([
      ['by eye', ''],
      ['photo', 'b'],
      ['photo', 'c'],
    ]);
  });

  test('a photo is for the customer unless somebody says no, and has words of its own', () => {
    const sheet = desk({ seen: [{ how: 'photo', note: '', reading: '', photo: 'a' }] });
    sheet.run(chooseForCustomer(sheet.finding, 0, false));
    expect(sheet.finding.seen[0]!.forCustomer).toBe(false);
    sheet.run(chooseForCustomer(sheet.finding, 0, true));
    expect('forCustomer' in sheet.finding.seen[0]!).toBe(false);
    expect(photoText(sheet.finding.seen[0]!, 'Hose: leaks')).toBe('Photo: Hose: leaks');
    sheet.run(describeEvidence(sheet.finding, 0, 'alt', 'the split'));
    expect(photoText(sheet.finding.seen[0]!, 'Hose: leaks')).toBe('the split');
    sheet.run(describeEvidence(sheet.finding, 0, 'alt', ' '));
    expect('alt' in sheet.finding.seen[0]!).toBe(false);
  });
});

describe('trouble codes', () => {
  const edit = (outcome: ReturnType<typeof addCodes>): PaneEdit => {
    if ('reason' in outcome) throw new Error(outcome.reason);
    return outcome.edit;
  };

  test('are listed once, and explained', () => {
    const sheet = desk();
    sheet.run(edit(addCodes(sheet.estimate, 'p0171, U0100:87; P0171')));
    expect(sheet.estimate.codes).toEqual([
      { code: 'P0171', note: '' },
      { code: 'U0100-87', note: '' },
    ]);
    sheet.run(noteCode(sheet.estimate, 'P0171', ' stored '));
    sheet.run(explain(sheet.finding, 'P0171', true));
    expect([sheet.estimate.codes![0]!.note, sheet.finding.codes]).toEqual(['stored', ['P0171']]);
    sheet.run(edit(explainAll(sheet.estimate, sheet.finding, 'P0300')));
    expect([sheet.estimate.codes!.length, sheet.finding.codes]).toEqual([3, ['P0300']]);
    sheet.run(edit(explainAll(sheet.estimate, sheet.finding, '')));
    expect('codes' in sheet.finding).toBe(false);
  });

  test('one that is malformed changes nothing and is told', () => {
    const sheet = desk();
    expect(addCodes(sheet.estimate, 'P0171 PO300')).toMatchObject({ reason: expect.stringContaining('"PO300" is no trouble code') });
    expect(explainAll(sheet.estimate, sheet.finding, 'X')).toHaveProperty('reason');
  });

  test('one that is removed goes from the findings too; the last takes the key with it', () => {
    const sheet = desk({ codes: ['P0171', 'P0300'] }, { codes: [{ code: 'P0171', note: '' }] });
    sheet.run(removeCode(sheet.estimate, 'P0171'));
    expect('codes' in sheet.estimate).toBe(false);
    expect(sheet.finding.codes).toEqual(['P0300']);
    sheet.store.undo();
    expect(sheet.estimate.codes).toEqual([{ code: 'P0171', note: '' }]);
  });
});

describe('the size of a picture', () => {
  const bytes = (...parts: (string | number[])[]): Uint8Array =>
    Uint8Array.from(parts.flatMap((part) => (typeof part === 'string' ? [...part].map((letter) => letter.charCodeAt(0)) : part)));

  test.each([
    ['PNG', bytes('\x89PNG\r\n\x1a\n', [0, 0, 0, 13], 'IHDR', [0, 0, 3, 32, 0, 0, 2, 88]), { width: 800, height: 600 }],
    ['GIF', bytes('GIF89a', [0x40, 1, 0xf0, 0]), { width: 320, height: 240 }],
    [
      'JPEG behind a comment and a fill byte',
      bytes([0xff, 0xd8, 0xff, 0xfe, 0, 4, 1, 2, 0xff, 0xff, 0xc2, 0, 11, 8, 2, 88, 3, 32, 1]),
      { width: 800, height: 600 },
    ],
    [
      'WebP, extended',
      bytes('RIFF', [0, 0, 0, 0], 'WEBPVP8X', [10, 0, 0, 0, 0, 0, 0, 0, 0x1f, 3, 0, 0x57, 2, 0]),
      { width: 800, height: 600 },
    ],
    [
      'WebP, lossless',
      bytes('RIFF', [0, 0, 0, 0], 'WEBPVP8L', [5, 0, 0, 0, 0x2f, 0x1f, 0xc3, 0x95, 0, 0, 0, 0, 0, 0]),
      { width: 800, height: 600 },
    ],
    [
      'WebP, lossy',
      bytes('RIFF', [0, 0, 0, 0], 'WEBPVP8 ', [10, 0, 0, 0, 0, 0, 0, 0x9d, 1, 0x2a, 0x20, 3, 0x58, 2]),
      { width: 800, height: 600 },
    ],
    ['JPEG cut off', bytes([0xff, 0xd8, 0xff, 0xe0, 0, 16]), null],
    ['PNG cut off', bytes('\x89PNG\r\n\x1a\n'), null],
    ['no picture', bytes('hello, this is text'), null],
    ['nothing', bytes(), null],
  ])('%s', (_, head, size) => expect(pictureSize(head)).toEqual(size));
});

test.each([
  ['what a canvas writes', [0xff, 0xe0, 0, 2, 0xff, 0xe2, 0, 2, 0xff, 0xdb, 0, 2, 0xff, 0xda, 0, 2], true],
  ['EXIF', [0xff, 0xe0, 0, 2, 0xff, 0xe1, 0, 2, 0xff, 0xda, 0, 2], false],
  ['IPTC', [0xff, 0xed, 0, 2, 0xff, 0xda, 0, 2], false],
  ['a comment', [0xff, 0xfe, 0, 2, 0xff, 0xda, 0, 2], false],
  ['cut off', [0xff, 0xe0, 0, 2], false],
])('a JPEG with %s (%#)', (_, rest, bare) => {
  expect(isBareJpeg(Uint8Array.from([0xff, 0xd8, ...rest]))).toBe(bare);
  expect(isBareJpeg(Uint8Array.from([0x89, 0x50, ...rest]))).toBe(false);
});

/** A store of one kind of thing, enough for photos. */
function memory(fail: StorageFault | null = null) {
  const kept = new Map<string, string>();
  const store: KeptStore = {
    list: async () => [],
    get: async (kind, id) =>
      kept.has(id) ? ({ kind, id, revision: '1', about: '', savedAt: '', text: kept.get(id)! } satisfies Kept) : null,
    put: async (_, id, text) => {
      if (fail !== null) throw fail;
      if (kept.has(id)) return { ok: false, reason: 'conflict', current: null };
      kept.set(id, text!);
      return { ok: true, revision: '1' };
    },
    watch: () => () => undefined,
    close: () => undefined,
  };
  return { kept, store };
}

describe('where photos are', () => {
  const withPhotos = (...photos: string[]): Estimate =>
    desk({ seen: photos.map((photo) => ({ how: 'photo', note: '', reading: '', photo })) }).estimate;
  const photosOf = (estimate: Estimate): string[] => estimate.findings[0]!.seen.map(({ photo }) => photo);

  test('without a store they stay in the estimate', async () => {
    const keeper = new PhotoKeeper(() => undefined);
    expect(await keeper.keep(JPEG)).toBe(JPEG);
    expect(keeper.picture(JPEG)).toEqual({ src: JPEG });
    expect((await keeper.embed(withPhotos(JPEG))).estimate).toEqual(withPhotos(JPEG));
    expect(keeper.picture('abc')).toBe('missing');
  });

  test('with a store they are kept once under their hash, and a file has them all, both ways', async () => {
    const { kept, store } = memory();
    const keeper = new PhotoKeeper(() => undefined);
    keeper.use(store);
    const id = await keeper.keep(JPEG);
    expect([id, await keeper.keep(JPEG)]).toEqual([photoId(JPEG), photoId(JPEG)]);
    expect(id).toMatch(/^[0-9a-f]{64}$/);
    expect([...kept]).toEqual([[id, JPEG]]);

    const whole = await keeper.embed(withPhotos(id, PNG, ''));
    expect([photosOf(whole.estimate), whole.missing]).toEqual([[JPEG, PNG, ''], 0]);
    const lean = await keeper.takeOut(whole.estimate);
    expect([photosOf(lean.estimate), lean.fault]).toEqual([[id, photoId(PNG), ''], '']);
    expect((await keeper.embed(lean.estimate)).estimate).toEqual(whole.estimate);
  });

  test('one that another session kept is fetched when it is looked at', async () => {
    const { kept, store } = memory();
    kept.set(photoId(PNG), PNG);
    let told = (): void => undefined;
    const heard = new Promise<void>((done) => (told = done));
    const keeper = new PhotoKeeper(() => told());
    keeper.use(store);
    expect(keeper.picture(photoId(PNG))).toBe('loading');
    await heard;
    expect(keeper.picture(photoId(PNG))).toEqual({ src: PNG });
  });

  test('one that is nowhere, or is no picture, is missing and keeps its id in a file', async () => {
    const { kept, store } = memory();
    kept.set('b'.repeat(64), 'data:text/html,<b>x</b>');
    const keeper = new PhotoKeeper(() => undefined);
    keeper.use(store);
    const whole = await keeper.embed(withPhotos('a'.repeat(64), 'b'.repeat(64)));
    expect([photosOf(whole.estimate), whole.missing]).toEqual([['a'.repeat(64), 'b'.repeat(64)], 2]);
    expect(keeper.picture('data:text/html,<b>x</b>')).toBe('missing');
    expect(keeper.picture('https://example.com/x.jpg')).toBe('loading');
    expect(await keeper.resolve('https://example.com/x.jpg')).toBeNull();
  });

  test('the customer gets those that are chosen and here', async () => {
    const { store } = memory();
    const keeper = new PhotoKeeper(() => undefined);
    keeper.use(store);
    const id = await keeper.keep(JPEG);
    const estimate = withPhotos(id, PNG, PNG, 'c'.repeat(64));
    const { seen } = estimate.findings[0]!;
    const chosen = { ...estimate, findings: [{ ...estimate.findings[0]!, seen: seen.with(1, { ...seen[1]!, forCustomer: false }) }] };
    expect(photosOf(await keeper.forCustomer(chosen, async (photo) => photo))).toEqual([JPEG, '', PNG, '']);
    expect(photosOf(await keeper.forCustomer(chosen, async (photo) => (photo === PNG ? null : photo)))).toEqual([JPEG, '', '', '']);
  });

  test.each([
    ['full', /no room left.*save the estimate as a file/],
    ['denied', /does not let the page keep photos/],
    ['away', /cannot be reached/],
    ['fault', /cannot be kept \(broken\)/],
  ] as const)('a store that is %s says so, and a file that is opened keeps its photos', async (code, words) => {
    const keeper = new PhotoKeeper(() => undefined);
    keeper.use(memory(new StorageFault(code, 'broken')).store);
    await expect(keeper.keep(JPEG)).rejects.toThrow(words);
    const lean = await keeper.takeOut(withPhotos(JPEG, PNG));
    expect(photosOf(lean.estimate)).toEqual([JPEG, PNG]);
    expect(lean.fault).toMatch(words);
  });
});
