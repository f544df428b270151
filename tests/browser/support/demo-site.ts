import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll } from 'vitest';
import { launchChromium } from './chromium.js';
import { serveFolder, type StaticServer } from './serve.js';

const root = join(import.meta.dirname, '../../..');

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
  /** Where its files lie. */
  readonly folder: string;
}

/** The demonstration, built as `npm run build:demo` does, under `pagePolicy`. */
export async function serveDemo(): Promise<DemoSite> {
  const output = join(root, 'test-output');
  await mkdir(output, { recursive: true });
  const folder = await mkdtemp(join(output, 'demo-'));
  // As `npm run build:demo` does: else libraries are taken in their versions for development.
  process.env['NODE_ENV'] = 'production';
  await build({ configFile: join(root, 'vite.config.ts'), mode: 'demo', logLevel: 'error', build: { outDir: folder } });
  const server = await serveFolder(folder, { 'content-security-policy': pagePolicy });
  return {
    url: server.url,
    folder,
    close: async () => {
      await server.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
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
