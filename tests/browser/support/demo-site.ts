import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, inject } from 'vitest';
import { launchChromium } from './chromium.js';
import { serveFolder, type StaticServer } from './serve.js';

/** The policy under which every page of the demonstration does its whole job; the names of policies are free in it. */
export const pagePolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "require-trusted-types-for 'script'",
].join('; ');

export interface DemoSite extends StaticServer {
  /** Where its files lie; only to be read. */
  readonly folder: string;
}

/** The demonstration under `pagePolicy`. */
export async function serveDemo(): Promise<DemoSite> {
  const folder = inject('demo');
  return { ...(await serveFolder(folder, { 'content-security-policy': pagePolicy })), folder };
}

/** For a file of tests: the demonstration and a browser, from before its first test until after its last. */
export function useDemo(): { readonly site: DemoSite; readonly browser: Browser } {
  const here: { site?: DemoSite; browser?: Browser } = {};
  beforeAll(async () => {
    [here.site, here.browser] = await Promise.all([serveDemo(), launchChromium()]);
  });
  afterAll(async () => {
    await here.browser?.close();
    await here.site?.close();
  });
  return here as { site: DemoSite; browser: Browser };
}
