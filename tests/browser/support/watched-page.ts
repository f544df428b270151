import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';

const axeSource = readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** A page of its own profile that notes what must not happen on it. */
export interface WatchedPage {
  readonly page: Page;
  /** Errors, reports of the page's policy, requests to another origin. */
  readonly complaints: readonly string[];
  close(): Promise<void>;
}

/** `before` runs in the page before any of its own scripts. */
export async function openWatched(
  browser: Browser,
  address: string,
  options: BrowserContextOptions = {},
  before?: () => void,
): Promise<WatchedPage> {
  const context = await browser.newContext({
    viewport: { width: 1400, height: 1000 },
    permissions: ['clipboard-read', 'clipboard-write'],
    acceptDownloads: true,
    ...options,
  });
  context.setDefaultTimeout(10_000);
  const page = await context.newPage();
  const complaints: string[] = [];
  const { origin } = new URL(address);
  page.on('pageerror', (error) => complaints.push(error.stack ?? error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(`${message.text()} ${message.location().url}`);
  });
  // Of the whole context: what workers and frames ask for is asked for too.
  context.on('request', (request) => {
    const url = new URL(request.url());
    if (!['data:', 'blob:'].includes(url.protocol) && url.origin !== origin) complaints.push(`request to ${url}`);
  });
  await page.exposeBinding('complainOfPolicy', (_, words: string) => void complaints.push(words));
  await page.addInitScript(() => {
    addEventListener('securitypolicyviolation', (event) => {
      const { violatedDirective, blockedURI, sourceFile, lineNumber, sample } = event;
      const words = `${violatedDirective} ${blockedURI} ${sourceFile}:${lineNumber} ${sample}`;
      (window as unknown as { complainOfPolicy(words: string): void }).complainOfPolicy(words);
    });
  });
  if (before !== undefined) await page.addInitScript(before);
  await page.goto(address);
  return { page, complaints, close: () => context.close() };
}

/**
 * What axe finds wrong, in words; by all its rules, or by those that are named. In a dialog that is open where there is
 * one, since nothing else can be reached then; else on the whole page.
 */
export async function axeFaults(page: Page, rules?: readonly string[]): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(await axeSource);
  return page.evaluate(async (only) => {
    const { axe } = window as unknown as { axe: typeof import('axe-core') };
    const dialogIn = (root: ParentNode): Element | null => {
      const dialog = root.querySelector('dialog:modal');
      if (dialog !== null) return dialog;
      for (const element of root.querySelectorAll('*')) {
        const found = element.shadowRoot === null ? null : dialogIn(element.shadowRoot);
        if (found !== null) return found;
      }
      return null;
    };
    const options = { resultTypes: ['violations' as const], ...(only && { runOnly: [...only] }) };
    const { violations } = await axe.run(dialogIn(document) ?? document, options);
    return violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map(({ target, html }) => `${target.join(' ')} ${html.slice(0, 100)}`).join(' | ')}`,
    );
  }, rules);
}
