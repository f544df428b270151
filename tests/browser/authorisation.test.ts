/** From the sheet to the customer and back: share, answer, consent, revision. */
import { expect, test } from 'vitest';
import { checkHistory, priceEstimate, readConsents } from '../../src/index.js';
import { answer, openOnPhone, openReply, share } from './support/customer-round.js';
import { useEstimateSite } from './support/estimate-site.js';
import { demoReference, SheetPage } from './support/sheet-page.js';

const here = useEstimateSite();

const standing = (sheet: SheetPage) => sheet.page.locator('baysheet-authorisation');

test('sheet → share → phone, from the link alone and offline → two declined → reply → consent and headroom → a new finding asks again', async () => {
  const sheet = await SheetPage.openReady(here.browser, here.site.demo('van'));
  const link = await share(here, sheet);
  const { context, page } = await openOnPhone(here, link);
  const text = await answer(page, ['Your answer to: Replace the thermostat', 'Your answer to: Replace the undertray']);
  await context.close();

  await openReply(sheet, text);
  await sheet.page.getByRole('heading', { name: 'Record the customer’s authorisation' }).waitFor();
  expect(await sheet.page.getByLabel('Given by').inputValue()).toBe('Orla Finchley-Dane');
  expect(await sheet.page.getByLabel('How', { exact: true }).inputValue()).toBe('link');
  await sheet.page.getByLabel('Taken by').fill('Bo Made-Up');
  await sheet.button('Record').click();

  const estimate = await sheet.estimate();
  const [consent] = readConsents(estimate).consents;
  const priced = await sheet.pricedInNode();
  expect(estimate.lines.filter((line) => line.decision === 'declined').map((line) => line.id)).toEqual(
    expect.arrayContaining(['l7', 'l8', 'l12']),
  );
  expect(consent).toMatchObject({
    by: 'Orla Finchley-Dane',
    takenBy: 'Bo Made-Up',
    how: 'link',
    contact: '+1 303 555 0142',
    revision: 1,
    total: priced.totals.total,
    addedCost: priced.totals.total,
  });
  expect(consent!.sentence).not.toBe('');
  expect(consent!.added).toContain('Replace the water pump');
  expect(consent!.added).not.toContain('Replace the thermostat');
  expect(await sheet.total()).toBe(priced.totals.total);
  expect(checkHistory(estimate)).toEqual([]);
  await standing(sheet)
    .getByText(/authorised by Orla Finchley-Dane/)
    .waitFor();
  await standing(sheet)
    .getByText(/Headroom \$25\.00/)
    .waitFor();

  await sheet.button('Add finding').click();
  await sheet.enter('radiator leaks core');
  await standing(sheet).getByRole('alert').waitFor();
  expect(await standing(sheet).getByRole('alert').innerText()).toMatch(/^Ask first: revision 2 comes to/);
  await standing(sheet)
    .getByText(/Added: Replace the radiator,/)
    .waitFor();
  expect((await sheet.estimate()).revision).toBe(2);

  // The answer to revision 1 counts no more, and the sheet says what has changed since.
  await openReply(sheet, text);
  await sheet.page.getByText(/This reply is to revision 1; the estimate is at revision 2 now\./).waitFor();
  await sheet.page
    .locator('baysheet-reply')
    .getByText(/Added: Replace the radiator,/)
    .waitFor();
  await sheet.button('Cancel').click();

  // Asked by telephone.
  await sheet.button('Record a consent …').click();
  await sheet.page.getByLabel('Given by').fill('Orla Finchley-Dane');
  await sheet.button('Record').click();
  const again = await sheet.estimate();
  const { consents } = readConsents(again);
  expect(consents.map(({ revision, how, takenBy }) => [revision, how, takenBy])).toEqual([
    [1, 'link', 'Bo Made-Up'],
    [2, 'phone', 'Bo Made-Up'],
  ]);
  expect(consents[1]!.added).toEqual(['Replace the radiator']);
  expect(again.history.map((entry) => entry['what'])).toEqual(['shared', 'authorised', 'revised', 'authorised']);
  expect(checkHistory(again)).toEqual([]);
  await sheet.done();
}, 120_000);

test('a link is refused by a page that does not know the key, and with one character changed', async () => {
  const sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  const link = await share(here, sheet);
  const middle = link.length - 200;
  const changed = `${link.slice(0, middle)}${link[middle] === 'A' ? 'B' : 'A'}${link.slice(middle + 1)}`;
  const context = await here.browser.newContext();
  const page = await context.newPage();
  await page.goto(changed);
  await page.getByText('This estimate cannot be shown').waitFor();
  expect(await page.getByText(/\+1 303 555 0117/).count()).toBeGreaterThan(0);
  await here.site.put('customer.keys.json', JSON.stringify({ keys: [] }));
  await page.goto('about:blank');
  await page.goto(link);
  await page.getByText('This estimate cannot be shown').waitFor();
  await context.close();
  await sheet.done();
});

test('the estimate as a file opens from the disk alone, and answers for the same total', async () => {
  const sheet = await SheetPage.openReady(here.browser, here.site.demo('plenum'));
  await sheet.button('Share …').click();
  await sheet.page.getByLabel(/^Link/).waitFor();
  const [download] = await Promise.all([sheet.page.waitForEvent('download'), sheet.button('Save as a file …').click()]);
  const path = await download.path();
  const context = await here.browser.newContext({ offline: true, hasTouch: true });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('pageerror', (fault) => faults.push(fault.message));
  const { readFile } = await import('node:fs/promises');
  const html = await readFile(path, 'utf8');
  expect(html).not.toMatch(/"cost":"(?!0")/);
  await page.route('https://file.example/', (route) => route.fulfill({ contentType: 'text/html', body: html }));
  await context.setOffline(false);
  await page.goto('https://file.example/');
  await context.setOffline(true);
  await page.getByRole('heading', { name: 'The work, line by line' }).waitFor();
  expect(faults).toEqual([]);
  const text = await answer(page, []);
  await context.close();

  await sheet.button('Done').click();
  await openReply(sheet, text);
  await sheet.page.getByLabel('Taken by').fill('Bo Made-Up');
  await sheet.button('Record').click();
  const reference = await demoReference();
  const estimate = await sheet.estimate();
  expect(readConsents(estimate).consents[0]!.total).toBe(priceEstimate({ estimate, ...reference }).totals.total);
  await sheet.done();
}, 90_000);
