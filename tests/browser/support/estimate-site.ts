import { cp, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, inject } from 'vitest';
import { launchChromium } from './chromium.js';
import { serveFolder, type StaticServer, strictPolicy } from './serve.js';

const root = join(import.meta.dirname, '../../..');
const configFile = join(root, 'vite.config.ts');

export interface EstimateSite extends StaticServer {
  /** The demo's page with one of its estimates. */
  demo(estimate: 'van' | 'plenum' | 'brakes' | 'empty'): string;
  /** A page that loads the element only when it is told to. */
  readonly bare: string;
  /** A page with the one-file script, twice under two addresses. */
  readonly double: string;
  /** Puts a file beside the demo's pages. */
  put(name: string, text: string): Promise<void>;
}

/**
 * What the browser tests of `<baysheet-estimate>` look at, built as it is shipped and served under the strict policy:
 * the demo, a bare page of the tests' own beside it, and (`oneFile`) the one-file script.
 */
export async function serveEstimateSite({ oneFile = false } = {}): Promise<EstimateSite> {
  const folder = await mkdtemp(join(root, 'test-output/site-'));
  // A copy, since tests put files beside the pages.
  await cp(inject('demo'), folder, { recursive: true });
  if (oneFile) {
    // As `npm run build` does: else libraries are taken in their versions for development.
    process.env['NODE_ENV'] = 'production';
    await build({ configFile, mode: 'one-file-estimate', logLevel: 'error', build: { outDir: join(folder, 'one-file') } });
    await cp(join(root, 'tests/browser/estimate-page/double'), join(folder, 'double'), { recursive: true });
  }
  const server = await serveFolder(folder);
  // Two copies of lit make two policies of one name, which a page that wants both must allow.
  const policy = strictPolicy.replace('trusted-types lit-html', "trusted-types lit-html 'allow-duplicates'");
  const twice = await serveFolder(folder, { 'content-security-policy': policy });
  return {
    url: server.url,
    demo: (estimate) => `${server.url}/?estimate=${estimate}`,
    bare: `${server.url}/bare/`,
    double: `${twice.url}/double/`,
    put: (name, text) => writeFile(join(folder, name), text),
    close: async () => {
      await server.close();
      await twice.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/** What a file of tests works with; there from before its first test until after its last. */
export interface Here {
  readonly site: EstimateSite;
  readonly browser: Browser;
}

/** For a file of tests: builds and serves the site and starts a browser before its tests, and ends both after them. */
export function useEstimateSite(): Here {
  const here: { site?: EstimateSite; browser?: Browser } = {};
  beforeAll(async () => {
    here.site = await serveEstimateSite();
    here.browser = await launchChromium();
  });
  afterAll(async () => {
    await here.browser?.close();
    await here.site?.close();
  });
  return here as Here;
}
