/**
 * Every page of the demonstration opens under a policy that allows nothing but scripts, styles, pictures and data of its own
 * origin, with Trusted Types (Content Security Policy Level 3; Trusted Types, both W3C). That the whole job is done under it
 * is in `every-state.test.ts`.
 */
import { readdir } from 'node:fs/promises';
import { relative, sep } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { pagePolicy, useDemo } from './support/demo-site.js';
import { openWatched, type WatchedPage } from './support/watched-page.js';

const here = useDemo();
let watched: WatchedPage;

afterEach(() => watched.close());

async function open(path: string): Promise<WatchedPage> {
  watched = await openWatched(here.browser, `${here.site.url}/${path}`);
  return watched;
}

test('the pages come under exactly the promised policy, and it holds', async () => {
  const { page, complaints } = await open('?estimate=plenum');
  const response = await page.reload();
  expect(response!.headers()['content-security-policy']).toBe(
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; require-trusted-types-for 'script'",
  );
  expect(pagePolicy).toBe(response!.headers()['content-security-policy']);
  expect(complaints).toEqual([]);
  // What notes the reports is tried as well: each of these must be refused and heard.
  await page.evaluate(() => {
    const attempts = [
      () => (document.body.innerHTML = '<p>markup</p>'),
      () => new Worker('./elsewhere.js'),
      () => document.body.setAttribute('style', 'color: red'),
      () => void fetch('https://elsewhere.example/').catch(() => {}),
    ];
    for (const attempt of attempts) {
      try {
        attempt();
      } catch {
        // Trusted Types throw as well.
      }
    }
  });
  const heard = (): string[] =>
    complaints.flatMap((words) => /^(require-trusted-types-for|style-src-attr|connect-src) /.exec(words)?.[1] ?? []).sort();
  await expect.poll(heard).toEqual(['connect-src', 'require-trusted-types-for', 'require-trusted-types-for', 'style-src-attr']);
});

test('every page that is built opens', async () => {
  const pages = (await readdir(here.site.folder, { recursive: true })).filter((name) => name.endsWith('.html'));
  expect(pages).toEqual(expect.arrayContaining(['index.html', 'customer.html', 'rates.html']));
  for (const name of pages) {
    const { page, complaints } = await open(relative('.', name).split(sep).join('/'));
    await page.waitForLoadState('networkidle');
    // A page that keeps its estimates on a server finds none here.
    expect(
      complaints.filter((words) => !words.includes('/documents/')),
      name,
    ).toEqual([]);
    await watched.close();
  }
});
