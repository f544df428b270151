/** From test round to test round until one is clean, and what was seen on the way: photos, readings, trouble codes. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Locator } from 'playwright-core';
import { afterEach, expect, test } from 'vitest';
import { useEstimateSite } from './support/estimate-site.js';
import { SheetPage } from './support/sheet-page.js';

const here = useEstimateSite();
let sheet: SheetPage;

afterEach(() => sheet.done());

const part = (name: string): Locator => sheet.page.locator(`baysheet-${name}`);
const open = (name: string): Promise<void> => part(name).locator('summary').first().click();

/** By Tab to a field that has no name in `focused`, within a pane. */
async function tabToLabel(pane: string, label: string | RegExp): Promise<void> {
  const field = part(pane).getByLabel(label, { exact: true });
  for (let i = 0; i < 60; i += 1) {
    if ((await sheet.focused()).startsWith('grid ')) await sheet.press('Escape', 'Escape');
    await sheet.press('Tab');
    if (await field.evaluate((element) => (element.getRootNode() as ShadowRoot).activeElement === element)) return;
  }
  throw new Error(`Tab does not come to ${label}.`);
}

test('by keyboard: round 1 finds a leak, plugged it shows another, until a round is clean and Share no longer asks', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('empty'));
  const atFirst = await sheet.estimate();
  await sheet.listen();
  await sheet.tabTo('button Start round 1');
  await sheet.press('Enter');
  await part('rounds').getByLabel('Test method, round 1').waitFor();
  await sheet.type('Cooling');
  expect(await part('rounds').getByText('Usual limits: 100 kPa, held for 15 minutes; at most 2 kPa may be lost').isVisible()).toBe(true);
  expect(
    await part('rounds')
      .getByText(/^Never open a hot cooling system/)
      .isVisible(),
  ).toBe(true);
  await tabToLabel('rounds', 'Reading');
  await sheet.type('100 kPa to 38 kPa in 2 min');
  await sheet.press('Tab');
  expect(
    await part('rounds')
      .getByText(/^Outside the limit/)
      .isVisible(),
  ).toBe(true);

  await sheet.tabTo('button Write down a finding');
  await sheet.press('Enter');
  expect(await sheet.active()).toMatchObject({ grid: 'Findings', column: 'Component' });
  await sheet.enter('radiator hose split');
  expect(await sheet.column('Lines', 'Work')).toEqual(
    expect.arrayContaining(['Replace a radiator hose', 'Repeat the pressure test after repair']),
  );
  const why = 'More may be found: round 1, the last one, was not clean. It found 1.';
  expect(await part('rounds').getByText(why).isVisible()).toBe(true);
  expect(await part('totals').getByText(why).isVisible()).toBe(true);

  await sheet.button('Share …').click();
  expect(await sheet.page.getByRole('dialog').getByText(why).isVisible()).toBe(true);
  expect(await sheet.page.getByLabel(/^Link, /).count()).toBe(0);
  await sheet.press('Enter');
  await expect.poll(() => sheet.page.getByRole('dialog').count()).toBe(0);

  const plug = 'How this was plugged or isolated: Radiator hose: split along the seam';
  await part('rounds').getByLabel('Test method, round 1').focus();
  await tabToLabel('rounds', plug);
  await sheet.type('test bung');
  await sheet.tabTo('button Test again: start round 2');
  await sheet.press('Enter');
  await part('rounds').getByLabel('Test method, round 2').waitFor();
  await sheet.tabTo('button Write down a finding');
  await sheet.press('Enter');
  await sheet.enter('pump weep');
  expect(await sheet.column('Lines', 'Work')).toContain('Replace the water pump');
  expect((await sheet.column('Lines', 'Work')).filter((work) => work.startsWith('Repeat the pressure test'))).toHaveLength(1);

  // The second finding remembers its round, and says what had hidden it.
  await sheet.goTo('Water pump', 'Component');
  await sheet.press('Shift+F10');
  await sheet.menu().getByRole('menuitem', { name: 'Evidence and photos …' }).press('Enter');
  await part('evidence')
    .getByText('Came to light only in round 2, after this was plugged or isolated: Radiator hose: split along the seam.')
    .waitFor();

  await sheet.tabTo('button Test again: start round 3', 'Shift+Tab');
  await sheet.press('Enter');
  await part('rounds').getByLabel('Test method, round 3').waitFor();
  await sheet.tabTo('button Nothing new: round 3 was clean');
  await sheet.press('Enter');
  await part('rounds').getByText('The list of findings is complete:').waitFor();
  expect(await sheet.focused()).toBe('button Test again: start round 4');
  expect(await part('totals').getByText('More may be found').count()).toBe(0);
  expect((await sheet.estimate()).rounds.map(({ n, methodId, clean }) => [n, methodId, clean])).toEqual([
    [1, 'cooling-pressure', false],
    [2, 'cooling-pressure', false],
    [3, 'cooling-pressure', true],
  ]);
  await sheet.expectTotalOfEngine();

  const steps = (await sheet.heard()).length;
  expect(steps).toBeGreaterThan(7);
  const go = (way: 'undo' | 'redo') =>
    sheet.element.evaluate(
      (element, { times, by }) => {
        for (let i = 0; i < times; i += 1) (element as HTMLElementTagNameMap['baysheet-estimate'])[by]();
      },
      { times: steps, by: way },
    );
  await go('undo');
  expect(await sheet.estimate()).toEqual(atFirst);
  await go('redo');

  await sheet.button('Share …').click();
  await sheet.page.getByLabel(/^Link, /).waitFor();
  await sheet.button('Done').click();
});

test('sharing all the same, and a closing test that was removed is not proposed again', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('empty'));
  await sheet.button('Start round 1').click();
  await part('rounds').getByLabel('Test method, round 1').selectOption('cooling-pressure');
  await sheet.button('Add finding').click();
  await sheet.enter('radiator hose split');
  await sheet.clickCell('Lines', 'Repeat the pressure test after repair', 'Work');
  await sheet.press('Shift+F10');
  await sheet.chooseFromMenu('Remove the line');
  await sheet.button('Add finding').click();
  await sheet.enter('pump weep');
  expect((await sheet.column('Lines', 'Work')).filter((work) => work.startsWith('Repeat'))).toEqual([]);
  await sheet.button('Add Repeat the pressure test after repair').click();
  expect((await sheet.column('Lines', 'Work')).filter((work) => work.startsWith('Repeat'))).toHaveLength(1);

  await sheet.button('Share …').click();
  await sheet.button('Share all the same').click();
  await sheet.page.getByLabel(/^Link, /).waitFor();
  await sheet.button('Done').click();
});

/** A JPEG of 2,400 by 1,200 pixels, red at its top left, that says in its EXIF where it was taken, by whom, and that it lies on its side. */
async function cameraJpeg(): Promise<number[]> {
  const plain = await sheet.page.evaluate(async () => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [2400, 1200];
    const context = canvas.getContext('2d')!;
    context.fillStyle = '#0000ff';
    context.fillRect(0, 0, 2400, 1200);
    context.fillStyle = '#ff0000';
    context.fillRect(0, 0, 1200, 600);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', 0.9));
    return [...new Uint8Array(await blob!.arrayBuffer())];
  });
  const exif = exifWithPlace();
  return [...plain.slice(0, 2), 0xff, 0xe1, (exif.length + 2) >> 8, (exif.length + 2) & 0xff, ...exif, ...plain.slice(2)];
}

/** EXIF 2.3 (JEITA CP-3451), little endian: orientation 6 (the top left lies at the top right), an artist, and 39° 44′ N 104° 59′ W. MEMORY. */
function exifWithPlace(): number[] {
  const data = Buffer.alloc(200);
  const entry = (at: number, tag: number, type: number, count: number, value: number): void => {
    data.writeUInt16LE(tag, at);
    data.writeUInt16LE(type, at + 2);
    data.writeUInt32LE(count, at + 4);
    data.writeUInt32LE(value, at + 8);
  };
  const degrees = (at: number, ...parts: number[]): void =>
    parts.forEach((part, i) => void (data.writeUInt32LE(part, at + 8 * i), data.writeUInt32LE(1, at + 8 * i + 4)));
  data.write('II*\0', 0, 'latin1');
  data.writeUInt32LE(8, 4);
  data.writeUInt16LE(3, 8);
  entry(10, 0x0112, 3, 1, 6);
  entry(22, 0x013b, 2, 12, 170);
  entry(34, 0x8825, 4, 1, 50);
  data.writeUInt16LE(4, 50);
  entry(52, 1, 2, 2, 'N'.charCodeAt(0));
  entry(64, 2, 5, 3, 110);
  entry(76, 3, 2, 2, 'W'.charCodeAt(0));
  entry(88, 4, 5, 3, 140);
  degrees(110, 39, 44, 0);
  degrees(140, 104, 59, 0);
  data.write('Secret Name\0', 170, 'latin1');
  return [...Buffer.from('Exif\0\0', 'latin1'), ...data];
}

/** The markers of a JPEG's segments before its pixels. */
function segments(jpeg: Buffer): number[] {
  const found: number[] = [];
  for (let at = 2; jpeg[at + 1] !== 0xda; at += 2 + jpeg.readUInt16BE(at + 2)) found.push(jpeg[at + 1]!);
  return found;
}

/** Sends a file to the page as a drop or a paste. */
async function give(how: 'drop' | 'paste', on: Locator, bytes: number[], name: string, type: string, text = ''): Promise<void> {
  await on.evaluate(
    (element, given) => {
      const data = new DataTransfer();
      data.items.add(new File([Uint8Array.from(given.bytes)], given.name, { type: given.type }));
      if (given.text !== '') data.setData('text/plain', given.text);
      const more = { bubbles: true, composed: true, cancelable: true };
      element.dispatchEvent(
        given.how === 'drop'
          ? new DragEvent('drop', { ...more, dataTransfer: data })
          : new ClipboardEvent('paste', { ...more, clipboardData: data }),
      );
    },
    { how, bytes, name, type, text },
  );
}

test('photos by drop, paste and choice: upright, 1,600 pixels at most, without place; what is no picture is refused in words', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  // Without a store photos stay in the estimate.
  await sheet.element.evaluate((element) => void ((element as HTMLElementTagNameMap['baysheet-estimate']).keepIn = ''));
  const camera = await cameraJpeg();
  expect(Buffer.from(camera).includes('Secret Name')).toBe(true);
  await sheet.clickCell('Findings', 'Upper plenum', 'Fault');
  await open('evidence');
  const before = (await sheet.estimate()).findings[0]!.seen.length;

  await give('drop', part('evidence').locator('.pane'), camera, 'IMG_0001.JPG', 'image/jpeg');
  await part('evidence').getByRole('img').first().waitFor();
  await give('paste', sheet.grid('Findings'), camera, 'image.jpg', 'image/jpeg');
  await expect.poll(() => part('evidence').getByRole('img').count()).toBe(2);

  const { seen } = (await sheet.estimate()).findings[0]!;
  expect(seen.length).toBe(before + 2);
  for (const { how, photo } of seen.slice(before)) {
    expect(how).toBe('photo');
    expect(photo.slice(0, 23)).toBe('data:image/jpeg;base64,');
    const jpeg = Buffer.from(photo.slice(23), 'base64');
    // Application segment 1 is where EXIF and XMP live, 13 where IPTC does, FE a comment.
    expect(segments(jpeg).filter((marker) => [0xe1, 0xed, 0xfe].includes(marker))).toEqual([]);
    for (const word of ['Exif', 'Secret Name', 'II*']) expect(jpeg.includes(word), word).toBe(false);
  }
  const look = await part('evidence')
    .getByRole('img')
    .first()
    .evaluate((image: HTMLImageElement) => {
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [image.naturalWidth, image.naturalHeight];
      const context = canvas.getContext('2d')!;
      context.drawImage(image, 0, 0);
      const isRed = (x: number, y: number): boolean => context.getImageData(x, y, 1, 1).data[0]! > 200;
      const [w, h] = [image.naturalWidth, image.naturalHeight];
      return { size: [w, h], red: { topLeft: isRed(9, 9), topRight: isRed(w - 9, 9), bottomLeft: isRed(9, h - 9) }, alt: image.alt };
    });
  expect(look).toEqual({
    size: [800, 1600],
    red: { topLeft: false, topRight: true, bottomLeft: false },
    alt: 'Photo: Upper plenum: sucks air at the gasket',
  });

  await sheet.clickCell('Findings', 'Upper plenum', 'Fault');
  // A copy of cells brings a picture along with its text: the text is meant.
  await give('paste', sheet.grid('Findings'), camera, 'image.png', 'image/png', 'sucks air');
  await expect.poll(async () => (await sheet.column('Findings', 'Fault'))[0]).toBe('sucks air');
  await sheet.press('Control+z');
  expect((await sheet.estimate()).findings[0]!.seen.length).toBe(before + 2);

  await part('evidence')
    .getByLabel('Add photos …')
    .setInputFiles([
      { name: 'list.txt', mimeType: 'text/plain', buffer: Buffer.from('no picture') },
      { name: 'cut.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(camera.slice(0, 3000)) },
      { name: 'empty.png', mimeType: 'image/png', buffer: Buffer.alloc(0) },
      {
        name: 'huge.png',
        mimeType: 'image/png',
        buffer: Buffer.concat([
          Buffer.from('\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR', 'latin1'),
          Buffer.from([0, 0, 0x75, 0x30, 0, 0, 0x75, 0x30]),
        ]),
      },
    ]);
  const faults = part('evidence').getByRole('alert');
  await faults.waitFor();
  expect(await faults.locator('p').allInnerTexts()).toEqual([
    'list.txt is no picture that this browser can read, or it is broken. Save it as JPEG or PNG, then add it again.',
    'cut.jpg is no picture that this browser can read, or it is broken. Save it as JPEG or PNG, then add it again.',
    'empty.png is empty. Choose it again, or take another photo.',
    'huge.png is 30000 by 30000 pixels, too large to unpack here. Save it smaller, then add it again.',
  ]);
  expect((await sheet.estimate()).findings[0]!.seen.length).toBe(before + 2);

  // On the row of another finding: it belongs there.
  await give('drop', sheet.cell('Findings', 'Injector O-rings', 'Fault'), camera, 'b.jpg', 'image/jpeg');
  await part('evidence').getByText('Injector O-rings: seep fuel').waitFor();
  await expect.poll(async () => (await sheet.estimate()).findings[1]!.seen.at(-1)!.photo.slice(0, 10)).toBe('data:image');
  await sheet.button('Undo').click();
  await sheet.clickCell('Findings', 'Upper plenum', 'Fault');

  // One step of undo takes a photo back.
  await sheet.button('Undo').click();
  await expect.poll(() => part('evidence').getByRole('img').count()).toBe(1);
  expect(await sheet.axe()).toEqual([]);
  await sheet.picture('evidence');
});

test('with a store the estimate holds ids; a file holds the photos, and so does the customer’s, but for those that stay in the shop', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  const { page } = sheet;
  await sheet.element.evaluate((element) => {
    const kept = new Map<string, string>();
    const full = { now: false };
    Object.assign(window, { keptPhotos: kept, storeIsFull: full });
    (element as HTMLElementTagNameMap['baysheet-estimate']).storage = {
      list: async () => [],
      get: async (kind, id) => (kept.has(id) ? { kind, id, revision: '1', about: '', savedAt: '', text: kept.get(id)! } : null),
      put: async (_, id, text) => {
        if (full.now) throw Object.assign(new Error('no room'), { code: 'full' });
        kept.set(id, text!);
        return { ok: true, revision: '1' };
      },
      watch: () => () => undefined,
      close: () => undefined,
    };
  });
  await sheet.clickCell('Findings', 'Upper plenum', 'Fault');
  await open('evidence');
  const camera = await cameraJpeg();
  await give('drop', part('evidence').locator('.pane'), camera, 'a.jpg', 'image/jpeg');
  await part('evidence').getByRole('img').first().waitFor();
  await part('evidence')
    .getByLabel('Add photos …')
    .setInputFiles({ name: 'b.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(camera) });
  await expect.poll(() => part('evidence').getByRole('img').count()).toBe(2);
  await part('evidence').getByLabel('The customer may see this photo').nth(1).uncheck();
  await part('evidence').getByLabel('What the photo shows').first().fill('The gasket, seen from the rear');
  await part('evidence').getByLabel('What the photo shows').first().press('Tab');
  await part('evidence').getByRole('img', { name: 'The gasket, seen from the rear' }).waitFor();

  const photos = (await sheet.estimate()).findings[0]!.seen.filter(({ photo }) => photo !== '');
  expect(photos.map(({ photo, forCustomer }) => [/^[0-9a-f]{64}$/.test(photo), forCustomer])).toEqual([
    [true, undefined],
    [true, false],
  ]);

  // No room: said, and nothing else is lost.
  await page.evaluate(() => ((window as unknown as { storeIsFull: { now: boolean } }).storeIsFull.now = true));
  await part('evidence')
    .getByLabel('Add photos …')
    .setInputFiles({ name: 'c.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(camera) });
  await part('evidence')
    .getByRole('alert')
    .getByText(/no room left/)
    .waitFor();
  expect((await sheet.estimate()).findings[0]!.seen.filter(({ photo }) => photo !== '')).toHaveLength(2);
  await page.evaluate(() => ((window as unknown as { storeIsFull: { now: boolean } }).storeIsFull.now = false));

  const [download] = await Promise.all([page.waitForEvent('download'), sheet.button('Save').click()]);
  const text = await readFile(await download.path(), 'utf8');
  const saved = JSON.parse(text) as Awaited<ReturnType<SheetPage['estimate']>>;
  const inFile = saved.findings[0]!.seen.filter(({ photo }) => photo !== '').map(({ photo }) => photo);
  expect(inFile.every((photo) => photo.startsWith('data:image/jpeg;base64,'))).toBe(true);
  expect(inFile).toHaveLength(2);

  // The file comes back: its photos leave it again, under the same ids.
  const before = await sheet.estimate();
  await page.evaluate(() => (window as unknown as { keptPhotos: Map<string, string> }).keptPhotos.clear());
  await page.getByLabel('Open …').setInputFiles({ name: 'back.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await expect.poll(() => page.evaluate(() => (window as unknown as { keptPhotos: Map<string, string> }).keptPhotos.size)).toBe(1);
  await expect.poll(() => sheet.estimate()).toEqual(before);

  // A photo that came with a file from elsewhere may say more than it shows.
  const raw = `data:image/jpeg;base64,${Buffer.from(camera).toString('base64')}`;
  saved.findings[1]!.seen.push({ how: 'photo', note: '', reading: '', photo: raw });
  await page
    .getByLabel('Open …')
    .setInputFiles({ name: 'foreign.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(saved)) });
  await expect.poll(async () => (await sheet.estimate()).findings[1]!.seen.at(-1)!.photo).toMatch(/^[0-9a-f]{64}$/);

  // The customer's file: one of the two, and the one from elsewhere without its place.
  await sheet.button('Share …').click();
  await page.getByLabel(/^Link, /).waitFor();
  const [customer] = await Promise.all([page.waitForEvent('download'), sheet.button('Save as a file …').click()]);
  const file = await readFile(await customer.path(), 'utf8');
  const copy = JSON.parse(/<script type="application\/json" id="copy">(.*?)<\/script>/s.exec(file)![1]!) as { estimate: typeof before };
  const shown = copy.estimate.findings.flatMap((finding) => finding.seen.map(({ photo }) => photo).filter(Boolean));
  expect(shown).toEqual([inFile[0], inFile[0]]);
  expect(Buffer.from(raw.slice(23), 'base64').includes('Secret Name')).toBe(true);
  expect(Buffer.from(shown[1]!.slice(23), 'base64').includes('Secret Name')).toBe(false);
  await sheet.button('Done').click();
});

test('readings and trouble codes: units are read, malformed codes stay in their field with the reason, unexplained ones are said', async () => {
  sheet = await SheetPage.openReady(here.browser, here.site.demo('van'));
  expect(await part('codes').getByText('1 is not explained by any finding').isVisible()).toBe(true);
  await sheet.clickCell('Findings', 'Thermostat', 'Fault');
  await open('evidence');
  await open('codes');
  const reading = part('evidence').getByLabel('Reading, with its unit').nth(1);
  await reading.fill('soft');
  await reading.press('Tab');
  await part('evidence').getByText('There is no figure in this reading.').waitFor();
  await reading.fill('3 notches');
  await reading.press('Tab');
  await part('evidence').getByText('"notches" is not a unit that is known here').waitFor();

  const explains = part('evidence').getByLabel('Trouble codes that it explains');
  expect(await explains.inputValue()).toBe('P0128');
  await explains.fill('P0128 PO300');
  await explains.press('Tab');
  await part('evidence').getByText('"PO300" is no trouble code').waitFor();
  expect(await explains.inputValue()).toBe('P0128 PO300');
  expect((await sheet.estimate()).findings.find(({ id }) => id === 'f8')!.codes).toEqual(['P0128']);
  await explains.fill('p0128; b1028');
  await explains.press('Tab');
  await expect.poll(() => part('codes').getByText('not explained').count()).toBe(0);

  const add = part('codes').getByLabel('Add a trouble code');
  await add.fill('U01');
  await add.press('Enter');
  expect(await part('codes').getByRole('alert').innerText()).toContain('"U01" is no trouble code');
  await add.fill('u0100:87');
  await add.press('Enter');
  await part('codes').getByLabel('Note on U0100-87').waitFor();
  expect((await sheet.estimate()).codes!.map(({ code }) => code)).toEqual(['P0128', 'B1028', 'U0100-87']);
  expect(await part('codes').getByText('No finding explains it.').count()).toBe(1);
  await part('codes').getByLabel('Finding that explains U0100-87').selectOption({ label: 'Alternator: bearing rumbles' });
  await expect.poll(async () => (await sheet.estimate()).findings.find(({ id }) => id === 'f12')!.codes).toEqual(['U0100-87']);
  expect(await sheet.axe()).toEqual([]);
  await sheet.picture('codes');
  await sheet.page.emulateMedia({ media: 'print' });
  await sheet.page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  expect(await sheet.element.getByText(/^Round 1 \(cooling system pressure test with dye\): 10 found/).textContent()).toContain(
    'The list of findings is complete.',
  );
  expect(await sheet.element.getByText(/^\s*Trouble codes:/).textContent()).toContain('U0100-87 (Alternator: bearing rumbles)');
  await sheet.page.screenshot({ path: join(import.meta.dirname, '../../test-output/estimate-rounds-print.png'), fullPage: true });
});
