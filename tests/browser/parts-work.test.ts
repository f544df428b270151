/** The workshop's papers, from approving lines to what comes out of the printer. */
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, describe, expect, it } from 'vitest';
import type { Estimate } from '../../src/index.js';
import { planPartsRun, workSheet } from '../../src/index.js';
import { launchChromium } from './support/chromium.js';
import { useEstimateSite } from './support/estimate-site.js';
import { expectInOrder, hasPdfToText, MONEY, pages, printed } from './support/paper.js';
import { demoReference, SheetPage } from './support/sheet-page.js';

const here = useEstimateSite();
const output = join(import.meta.dirname, '../../test-output');

/** The van with all that was proposed approved, but for the brake hose. */
async function openApproved(browser: Browser = here.browser, address = here.site.demo('van')): Promise<SheetPage> {
  const sheet = await SheetPage.openReady(browser, address);
  const estimate = await sheet.estimate();
  const lines = estimate.lines.map((line) =>
    line.decision === 'proposed' && line.kind !== 'note' && line.id !== 'l10' ? { ...line, decision: 'approved' as const } : line,
  );
  await set(sheet, { ...estimate, lines });
  return sheet;
}

async function set(sheet: SheetPage, estimate: Estimate): Promise<void> {
  await sheet.element.evaluate(async (element, value) => {
    const host = element as HTMLElementTagNameMap['baysheet-estimate'];
    host.estimate = value;
    await host.updateComplete;
  }, estimate);
  await sheet.opened();
}

const dialog = (sheet: SheetPage, name: string) => sheet.element.getByRole('dialog', { name, exact: true });

describe('parts run', () => {
  it('lines are approved, parts get on by keyboard and mouse, and a document that is opened again has it all', async () => {
    const sheet = await SheetPage.openReady(here.browser, here.site.demo('van'));
    for (const line of ['Replace a radiator hose', 'Replace the thermostat']) {
      await sheet.clickAndEnter('Lines', line, 'Decision', 'approved');
    }
    await expect
      .poll(async () => (await sheet.estimate()).lines.filter(({ decision }) => decision === 'approved').map(({ id }) => id))
      .toEqual(['l1', 'l2', 'l7']);
    await sheet.button('Parts run').focus();
    await sheet.press('Enter');

    const run = dialog(sheet, 'Parts run');
    await expect.poll(() => run.getByRole('row').count()).toBeGreaterThan(6);
    expect(await run.locator('.warnings').innerText()).toMatch(/Check: 11 lines are not decided yet/);
    // The coolant is bought once for both.
    const coolant = run.getByRole('row').filter({ hasText: 'HV-0101-01' });
    expect(await coolant.locator('.qty').innerText()).toBe('6');
    expect(await coolant.innerText()).toMatch(
      /Drain, refill and bleed the coolant, for Replace a radiator hose \(lower\), Replace the thermostat/,
    );

    // By keyboard: the state is a list of the platform.
    await run.getByLabel('State: Radiator hose, moulded').focus();
    await sheet.press('o');
    // By mouse, a whole counter, then one of it.
    await run.getByLabel('State of all parts: Fluids merchant Sallow (made up)').selectOption('in-stock');
    await run.getByLabel('State: Thermostat', { exact: true }).selectOption('here');
    await run.getByLabel('Note: Thermostat', { exact: true }).fill('shelf 3');
    await sheet.press('Tab');
    await run.getByRole('button', { name: 'Other supplier: Thermostat seal' }).click();
    await run.getByLabel('Supplier: Thermostat seal').fill('Corner shop (made up)');
    await sheet.press('Enter');
    await run.getByRole('region', { name: 'Corner shop (made up)' }).waitFor();
    expect(await sheet.axe()).toEqual([]);

    await run.getByRole('button', { name: 'Done' }).click();
    const states = ({ partsRun }: Estimate) =>
      Object.fromEntries(partsRun!.map(({ title, state, note, supplier }) => [title, [state, note, supplier].filter(Boolean).join(', ')]));
    const noted = {
      'Radiator hose, moulded': 'ordered',
      'Coolant, ready mixed, 1 litre': 'in-stock',
      'Seal for the coolant drain plug': 'in-stock',
      'Tracer dye for coolant, one dose': 'in-stock',
      Thermostat: 'here, shelf 3',
      'Thermostat seal': 'to-find, Corner shop (made up)',
    };
    expect(states(await sheet.estimate())).toEqual(noted);
    // One gesture, one step of undo.
    await sheet.button('Undo').click();
    expect(Object.keys(states(await sheet.estimate()))).not.toContain('Thermostat seal');
    await sheet.button('Redo').click();

    const [file] = await Promise.all([sheet.page.waitForEvent('download'), sheet.button('Save').click()]);
    const saved = await readFile(await file.path(), 'utf8');
    await sheet.page.reload();
    await sheet.ready();
    // Kept in the browser as it was noted; the file is opened over another one.
    await expect.poll(async () => states(await sheet.estimate())).toEqual(noted);
    await sheet.page.goto(here.site.demo('empty'));
    await sheet.ready();
    await expect.poll(async () => (await sheet.estimate()).id).toBe('demo-empty');
    expect((await sheet.estimate()).partsRun).toBeUndefined();
    const path = join(output, 'parts-work.estimate.json');
    await writeFile(path, saved);
    await sheet.element.locator('input[type=file][accept*=json]').setInputFiles(path);
    await expect.poll(async () => (await sheet.estimate()).partsRun?.length).toBe(6);
    expect(states(await sheet.estimate())).toEqual(noted);
    await sheet.button('Parts run').click();
    expect(await run.getByLabel('State: Thermostat', { exact: true }).inputValue()).toBe('here');
    // More is needed than was ordered: the state stays and says what is missing.
    await run.getByRole('button', { name: 'Done' }).click();
    await sheet.clickAndEnter('Lines', 'Replace a radiator hose', 'Positions', 'lower, upper');
    await sheet.button('Parts run').click();
    expect(await run.getByRole('row').filter({ hasText: 'HV-2042-01' }).locator('.state').innerText()).toContain('1 more to find');
    await sheet.done();
  });

  it('is copied as text, saved as CSV and printed without prices', async () => {
    const sheet = await openApproved();
    await sheet.button('Parts run').click();
    const run = dialog(sheet, 'Parts run');
    await run.getByRole('button', { name: 'Copy as text' }).click();
    await run.getByText('The list is copied.').waitFor();
    const rows = (await sheet.clipboard())
      .trimEnd()
      .split(/\r?\n/)
      .map((row) => row.split('\t'));
    expect(rows[0]!.slice(0, 5)).toEqual(['Supplier', 'Part', 'Number', 'Condition', 'To get']);
    const { catalogue, rates } = await demoReference();
    const plan = planPartsRun({ estimate: await sheet.estimate(), catalogue, rates });
    expect(rows.slice(1).map((row) => row[2])).toEqual(plan.suppliers.flatMap(({ parts }) => parts.map(({ number }) => number)));

    const [file] = await Promise.all([sheet.page.waitForEvent('download'), run.getByRole('button', { name: 'Save as CSV …' }).click()]);
    expect(file.suggestedFilename()).toBe('parts-run-B-1042.csv');
    const csv = await readFile(await file.path(), 'utf8');
    expect(csv).toContain('Halvern parts counter (made up),Water pump,HV-2020-05,new,1,,,Replace the water pump,to find,');

    const text = await printed(sheet);
    expectInOrder(text, [
      'Parts run for estimate B-1042',
      'Fluids merchant Sallow (made up)',
      'HV-0101-01',
      'Halvern parts counter (made up)',
      'HV-2043-40',
      'Brake and chassis counter Morrow (made up)',
    ]);
    expect(text).not.toMatch(MONEY);
    const sheets = await pages(sheet, 'parts-run', 'A4');
    if (hasPdfToText) expect(sheets.join('')).toContain('HV-2041-07');
    await run.getByRole('button', { name: 'Done' }).click();
    // With nothing open the estimate is printed, as ever.
    expect(await printed(sheet)).toContain('Estimate B-1042');
    await sheet.done();
  });

  describe('on a page without https', () => {
    let plain: Browser | undefined;
    afterAll(() => plain?.close());

    it('is copied all the same', async () => {
      plain = await launchChromium(['--host-resolver-rules=MAP shop.test 127.0.0.1']);
      const sheet = await openApproved(plain, here.site.demo('van').replace('127.0.0.1', 'shop.test'));
      expect(await sheet.page.evaluate(() => [isSecureContext, navigator.clipboard === undefined])).toEqual([false, true]);
      await sheet.button('Parts run').click();
      const run = dialog(sheet, 'Parts run');
      await run.getByRole('button', { name: 'Copy as text' }).click();
      await run.getByText('The list is copied.').waitFor();
      expect(await sheet.focused()).toBe('button Copy as text');
      await run.getByRole('button', { name: 'Done' }).click();
      // Pasted into a text of the sheet to see that it is there.
      await sheet.button('Write-up').click();
      const correction = dialog(sheet, 'Write-up').getByLabel('Correction', { exact: true });
      await correction.focus();
      await sheet.press('Control+v');
      expect(await correction.inputValue()).toContain('\tWater pump\tHV-2020-05\t');
      await sheet.done();
    });
  });
});

describe('work sheet', () => {
  it('is on the screen and on paper in the order of the teardown, without prices', async () => {
    const sheet = await openApproved();
    await sheet.button('Work sheet').click();
    const shown = dialog(sheet, 'For the technician');
    await shown.locator('.order').waitFor();
    expect(await sheet.axe()).toEqual([]);
    const onScreen = await shown.locator('.pages').innerText();

    const { catalogue, rates } = await demoReference();
    const { entries } = workSheet({ estimate: await sheet.estimate(), catalogue, rates });
    const words = entries.map((entry) => (entry.kind === 'work' ? entry.title : entry.words));
    const onPaper = await printed(sheet, 'baysheet-work-sheet .pages');
    for (const text of [onScreen, onPaper]) {
      expectInOrder(text, words);
      expectInOrder(text, [
        'Caution 5: Coolant is poisonous',
        'Drain the coolant',
        'Replace a radiator hose (lower)',
        'Puts right: Radiator hose, lower: split along the seam',
        'Refill with coolant and bleed',
        'Must be new',
        'HV-0101-01',
        'Undertray on',
      ]);
      expectInOrder(text, [
        'Allow 0.6 h more: Two bolts seized',
        'Repeat the pressure test after repair',
        'at most 2 kPa may be lost',
        'Found while it was open',
      ]);
      expect(text).not.toMatch(MONEY);
    }
    expect(onPaper).toContain('1 line is not decided yet: Replace a brake hose (left front).');
    expect(onPaper).not.toContain('Finchley');

    for (const format of ['A4', 'Letter'] as const) {
      const paper = await pages(sheet, 'work-sheet', format);
      if (!hasPdfToText) continue;
      expect(paper.length).toBeGreaterThan(1);
      // A page that is lost tells whose it is.
      for (const page of paper) expect(page).toMatch(/^\s*Work sheet B-1042, revision 1 .*DEMO 42/);
      const whole = paper.join('\n');
      expectInOrder(
        whole,
        words.map((text) => text.slice(0, 30)),
      );
      expect(whole).not.toMatch(MONEY);
    }
    await sheet.done();
  });

  it('is empty until something is approved', async () => {
    const sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
    await sheet.button('Work sheet').click();
    await dialog(sheet, 'For the technician').getByText('No line is approved yet').waitFor();
    await sheet.press('Escape');
    await expect.poll(() => dialog(sheet, 'For the technician').count()).toBe(0);
    await sheet.done();
  });
});

describe('write-up', () => {
  it('is begun where it is empty, and what a person typed stays', async () => {
    const sheet = await openApproved();
    const typed = (await sheet.estimate()).cause;
    await sheet.button('Write-up').click();
    const write = dialog(sheet, 'Write-up');
    await write.getByRole('button', { name: 'Begin the empty texts from the findings' }).click();
    await expect
      .poll(async () => (await sheet.estimate()).correction)
      .toContain('Replace the drive belt\nCarried out. Fitted: Drive belt (HV-2201-06).');
    expect((await sheet.estimate()).cause).toBe(typed);
    // Nothing is empty any more, so nothing can be begun.
    await expect.poll(() => write.getByRole('button', { name: 'Begin the empty texts from the findings' }).count()).toBe(0);

    const correction = write.getByLabel('Correction', { exact: true });
    await correction.fill('Done as on the sheet; pump bolts drilled out.');
    await sheet.press('Tab');
    await write.getByText('Sentences for each job').click();
    expect(await sheet.axe()).toEqual([]);
    await write.getByRole('button', { name: 'Add to the correction: Replace the drive belt' }).click();
    await expect
      .poll(async () => (await sheet.estimate()).correction)
      .toBe('Done as on the sheet; pump bolts drilled out.\n\nReplace the drive belt\nCarried out. Fitted: Drive belt (HV-2201-06).');
    expect(await correction.inputValue()).toMatch(/^Done as on the sheet/);

    const paper = await printed(sheet);
    expectInOrder(paper, [
      'Write-up of B-1042',
      'Concern',
      'Loses coolant',
      'Cause',
      'Lower radiator hose split',
      'Correction',
      'Done as on the sheet',
    ]);
    await write.getByRole('button', { name: 'Done' }).click();
    await sheet.button('Undo').click();
    expect((await sheet.estimate()).correction).toBe('Done as on the sheet; pump bolts drilled out.');
    await sheet.done();
  });
});

it('a phone shows the papers too', async () => {
  const sheet = await openApproved();
  await sheet.page.setViewportSize({ width: 390, height: 844 });
  for (const [button, name] of [
    ['Parts run', 'Parts run'],
    ['Work sheet', 'For the technician'],
    ['Write-up', 'Write-up'],
  ] as const) {
    await sheet.button(button).click();
    const wide = await dialog(sheet, name).evaluate((element) => element.scrollWidth - element.clientWidth);
    expect(wide, name).toBeLessThanOrEqual(0);
    await sheet.page.screenshot({ path: join(output, `parts-work-phone-${button.replace(' ', '-').toLowerCase()}.png`) });
    await dialog(sheet, name).getByRole('button', { name: 'Done' }).click();
  }
  await sheet.done();
});
