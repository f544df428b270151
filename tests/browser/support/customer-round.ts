import type { BrowserContext, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Here } from './estimate-site.js';
import type { SheetPage } from './sheet-page.js';

/** Presses Share in the sheet, publishes the shop's key beside the customer's page, and gives the link. */
export async function share({ site }: Here, sheet: SheetPage): Promise<string> {
  await sheet.button('Share …').click();
  const link = await sheet.page.getByLabel(/^Link, \d+ characters$/).inputValue();
  await sheet.page.getByText('The shop’s public key').click();
  const key = JSON.parse((await sheet.page.locator('baysheet-share pre').textContent())!);
  expect(Object.keys(key).sort()).toEqual(['crv', 'kid', 'kty', 'x', 'y']);
  await site.put('customer.keys.json', JSON.stringify({ keys: [key] }));
  await sheet.button('Done').click();
  return link;
}

/** The customer's phone: a profile of its own, without a network once the page is there. */
export async function openOnPhone({ browser }: Here, link: string): Promise<{ context: BrowserContext; page: Page }> {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  const page = await context.newPage();
  await page.goto(link);
  await allLoaded(page);
  await context.setOffline(true);
  return { context, page };
}

/** Until the page has what the answer takes, too, which comes after what shows first. */
export async function allLoaded(page: Page): Promise<void> {
  await page.getByRole('heading', { name: 'The work, line by line' }).waitFor();
  await page.waitForFunction(() => performance.getEntriesByType('resource').some(({ name }) => /\/rest\b[^/]*\.js$/.test(name)));
  await page.waitForLoadState('networkidle');
}

/** Says no to the lines named, yes to the rest, confirms, and gives the text that goes back. */
export async function answer(page: Page, refused: readonly string[]): Promise<string> {
  for (const title of refused) {
    await page
      .getByRole('radiogroup', { name: title })
      .or(page.getByRole('group', { name: title }))
      .getByText('No', { exact: true })
      .tap();
  }
  await page.getByRole('button', { name: 'Yes to all that is open' }).tap();
  await page.getByRole('button', { name: 'Review' }).tap();
  await page.getByLabel('Your name').fill('Orla Finchley-Dane');
  await page.getByLabel('Phone', { exact: true }).fill('+1 303 555 0142');
  await page.getByRole('checkbox').check();
  await page.getByRole('button', { name: 'Confirm and answer' }).tap();
  await page.locator('.done').waitFor();
  return page.locator('#code').inputValue();
}

export async function openReply(sheet: SheetPage, text: string): Promise<void> {
  await sheet.button('Open a reply …').click();
  await sheet.page.getByLabel(/^Paste the message or link/).fill(text);
  await sheet.button('Open').click();
}
