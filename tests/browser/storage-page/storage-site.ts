import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { build } from 'vite';
import { serveFolder, type StaticServer, strictPolicy } from '../support/serve.js';

/** The harness page, built, and served under the strict policy; it may also ask the `others` (addresses of servers). */
export async function serveStorageSite(others: readonly string[] = []): Promise<StaticServer> {
  const folder = await mkdtemp(join(tmpdir(), 'storage-'));
  await build({
    configFile: false,
    root: import.meta.dirname,
    base: './',
    publicDir: false,
    logLevel: 'error',
    build: { outDir: folder, emptyOutDir: true, target: 'es2022', modulePreload: { polyfill: false } },
  });
  const policy = strictPolicy.replace("connect-src 'self'", ["connect-src 'self'", ...others].join(' '));
  const server = await serveFolder(folder, { 'content-security-policy': policy });
  return {
    url: server.url,
    close: async () => {
      await server.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/** A tab with the harness in it. */
export async function openTab(context: BrowserContext, url: string): Promise<Page> {
  const page = await context.newPage();
  await page.goto(`${url}/`);
  await page.waitForSelector('html[data-ready]', { state: 'attached' });
  return page;
}
