/** A shop may use everything that Baysheet needs, in production and for nothing. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')) as { packages: Record<string, { dev?: boolean }> };
/** Licences of the Open Source Initiative's list that ask for nothing but a notice, or not even that. */
const FREE = new Set(['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', '0BSD', 'Apache-2.0', 'Unlicense']);

interface Package {
  readonly license?: string;
  /** How older packages offer several to choose from. */
  readonly licenses?: readonly { readonly type: string }[];
}

const needed = Object.entries(lock.packages).filter(([path, { dev }]) => path !== '' && dev !== true);

it('is looked at in full', () => expect(needed.length).toBeGreaterThan(15));

it.each(needed.map(([path]) => path))('%s', (path) => {
  const { license, licenses = [] } = JSON.parse(readFileSync(join(root, path, 'package.json'), 'utf8')) as Package;
  const offered = license === undefined ? licenses.map(({ type }) => type) : [license];
  expect(offered.filter((each) => FREE.has(each))).not.toEqual([]);
});
