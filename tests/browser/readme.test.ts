import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchChromium } from './support/chromium.js';
import { serveFolder, type StaticServer } from './support/serve.js';

const root = join(import.meta.dirname, '../..');
const folder = join(root, 'test-output/readme');
let server: StaticServer;
let browser: Browser;

beforeAll(async () => {
  const page = /```html\n(.*?)```/s.exec(readFileSync(join(root, 'README.md'), 'utf8'))![1]!;
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'index.html'), page);
  await build({ root, mode: 'one-file-estimate', logLevel: 'warn', build: { outDir: join(folder, 'dist') } });
  cpSync(join(root, 'rates'), join(folder, 'rates'), { recursive: true });
  cpSync(join(root, 'demo/van.estimate.json'), join(folder, 'demo/van.estimate.json'));
  server = await serveFolder(folder);
  browser = await launchChromium();
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
});

it('the page in the README works as it is pasted, with the one file and nothing else', async () => {
  const page = await browser.newPage();
  const faults: string[] = [];
  page.on('pageerror', (fault) => faults.push(fault.message));
  await page.goto(`${server.url}/`);
  await page.getByRole('grid', { name: 'Lines' }).waitFor();
  await page.getByText('$2,104.30').filter({ visible: true }).first().waitFor();
  expect(faults).toEqual([]);
});
