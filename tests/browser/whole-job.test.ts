/** One job from its first test round to the papers that the workshop has printed. */
import { expect, test } from 'vitest';
import { planPartsRun, readConsents, workSheet } from '../../src/index.js';
import { allLoaded, answer, openReply, share } from './support/customer-round.js';
import { useEstimateSite } from './support/estimate-site.js';
import { saved } from './support/kept.js';
import { expectInOrder, hasPdfToText, MONEY, pages, printed } from './support/paper.js';
import { demoReference, SheetPage } from './support/sheet-page.js';

const here = useEstimateSite();

test('a van that loses coolant: found, plugged, proved complete, priced, agreed, reloaded, bought for and printed', async () => {
  const sheet = await SheetPage.openReady(here.browser, here.site.demo('empty'));
  const { page } = sheet;
  const rounds = page.locator('baysheet-rounds');
  const totals = page.locator('baysheet-totals');
  const dialog = (name: string) => sheet.element.getByRole('dialog', { name, exact: true });

  await page.locator('baysheet-job summary').click();
  await page.getByLabel('What the customer said').fill('Loses coolant, a puddle in the morning.');
  await page.locator('baysheet-job summary').click();

  // The first round is not clean: two faults that show, and one that somebody sees beside them.
  await sheet.button('Start round 1').click();
  await rounds.getByLabel('Test method, round 1').selectOption('cooling-pressure');
  await rounds.getByRole('textbox', { name: 'Reading', exact: true }).fill('100 kPa to 40 kPa in 3 min');
  await sheet.press('Tab');
  await rounds.getByText(/^Outside the limit/).waitFor();
  for (const finding of ['radiator hose split', 'pump weeps', 'undertray cracked']) {
    await sheet.button('Add finding').click();
    await sheet.enter(finding);
  }
  await sheet.clickAndEnter('Findings', 'Radiator hose', 'Position', 'lower');
  const open = 'More may be found: round 1, the last one, was not clean. It found 3.';
  await totals.getByText(open).waitFor();

  // The faults are plugged, and the next round finds nothing more.
  for (const plug of await rounds.getByLabel(/^How this was plugged or isolated/).all()) {
    await plug.fill('test bung');
    await sheet.press('Tab');
  }
  await sheet.button('Test again: start round 2').click();
  await rounds.getByRole('textbox', { name: 'Reading', exact: true }).fill('100 kPa to 99 kPa in 15 min');
  await sheet.press('Tab');
  await sheet.button('Nothing new: round 2 was clean').click();
  await rounds.getByText('The list of findings is complete:').waitFor();
  expect(await totals.getByText('More may be found').count()).toBe(0);

  // Lines and their price. The hose and the pump share the coolant; two bolts are seized.
  const work = await sheet.column('Lines', 'Work');
  const jobs = ['Replace a radiator hose', 'Replace the water pump', 'Replace the undertray', 'Repeat the pressure test after repair'];
  expect(work).toEqual(expect.arrayContaining(jobs));
  await sheet.clickAndEnter('Lines', 'Replace the water pump', 'Book h', '3.4');
  const offered = await sheet.expectTotalOfEngine();
  expect(offered.complete).toBe(true);
  expect(Number(offered.overlap.hours)).toBeGreaterThan(0);

  // The customer agrees to all but the undertray.
  const link = await share(here, sheet);
  const phone = await SheetPage.open(here.browser, link, { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  await allLoaded(phone.page);
  await phone.context.setOffline(true);
  const reply = await answer(phone.page, ['Your answer to: Replace the undertray']);
  await phone.done();
  await openReply(sheet, reply);
  await page.getByLabel('Taken by').fill('Bo Made-Up');
  await sheet.button('Record').click();
  await page
    .locator('baysheet-authorisation')
    .getByText(/authorised by Orla Finchley-Dane/)
    .waitFor();
  const agreed = await sheet.estimate();
  expect(agreed.lines.filter(({ decision }) => decision === 'declined')).toMatchObject([{ operation: 'undertray-replace' }]);
  const { total } = (await sheet.expectTotalOfEngine()).totals;
  expect(readConsents(agreed).consents).toMatchObject([{ how: 'link', takenBy: 'Bo Made-Up', total }]);

  // The page is loaded again in the middle.
  await saved(page);
  await page.reload();
  await sheet.ready();
  expect(await sheet.estimate()).toEqual(agreed);
  expect(await sheet.total()).toBe(total);
  // All that was typed has been entered.
  expect(await page.getByRole('note', { name: 'Not entered yet' }).count()).toBe(0);

  // One parts run. What comes from one counter is ordered at once.
  await sheet.button('Parts run').click();
  const run = dialog('Parts run');
  await run.getByLabel('State: Water pump', { exact: true }).selectOption('ordered');
  const { catalogue, rates } = await demoReference();
  const documents = async () => ({ estimate: await sheet.estimate(), catalogue, rates });
  const parts = planPartsRun(await documents()).suppliers.flatMap((supplier) => supplier.parts);
  expect(parts.map(({ title }) => title)).toContain('Radiator hose, moulded');
  expect(parts.map(({ title }) => title)).not.toContain('Undertray, front');
  const list = await printed(sheet);
  expectInOrder(list, ['Parts run for estimate B-1043', ...parts.map(({ number }) => number)]);
  expect(list).toContain('ordered');
  expect(list).not.toMatch(MONEY);
  const listOnPaper = (await pages(sheet, 'whole-job-parts-run', 'Letter')).join('\n');
  if (hasPdfToText) for (const { number } of parts) expect(listOnPaper).toContain(number);
  await run.getByRole('button', { name: 'Done' }).click();

  // The work sheet: each step once, the coolant out before the hose comes off, the test that proves it last.
  await sheet.button('Work sheet').click();
  await dialog('For the technician').locator('.order').waitFor();
  const steps = workSheet(await documents()).entries.map((entry) => (entry.kind === 'work' ? entry.title : entry.words));
  expect(new Set(steps).size).toBe(steps.length);
  expectInOrder(steps.join('\n'), [
    'Drain the coolant',
    'Replace a radiator hose',
    'Refill with coolant',
    'Repeat the pressure test after repair',
  ]);
  const sheetText = await printed(sheet, 'baysheet-work-sheet .pages');
  expectInOrder(sheetText, steps);
  expect(sheetText).not.toMatch(MONEY);
  expect(sheetText).not.toContain('Replace the undertray');
  const onPaper = (await pages(sheet, 'whole-job-work-sheet', 'Letter')).join('\n');
  if (hasPdfToText)
    expectInOrder(
      onPaper,
      steps.map((words) => words.slice(0, 30)),
    );
  await dialog('For the technician').getByRole('button', { name: 'Done' }).click();
  await sheet.picture('whole-job');
  // No error, no report of the policy, no request that leaves the origin; nor on the phone.
  await sheet.done();
}, 120_000);
