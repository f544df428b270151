/** The README says what shows each of its statements: those commands exist and find tests. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { PROOFS } from '../prove/proofs.js';

const root = join(import.meta.dirname, '../..');
const readme = readFileSync(join(root, 'README.md'), 'utf8');
const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { scripts: Record<string, string> };
const proofs = /^## Proof\n(.*?)^## /ms.exec(readme)![1]!;
const commands = [...proofs.matchAll(/`((?:[A-Z_]+=\S+ )?npm [^`]+)`/g)].map(([, command]) => command!);
const files = readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' })
  .filter((file) => /^(engine|published|browser)\b.*\.test\.ts$/.test(file))
  .map((file) => `tests/${file.replaceAll('\\', '/')}`);

it('there is a command in every row', () => {
  const rows = proofs.split('\n').filter((line) => /^\| (?!what is said)/.test(line));
  expect(rows.length).toBeGreaterThan(15);
  expect(rows.filter((row) => !/`(?:[A-Z_]+=\S+ )?npm [^`]+` \|$/.test(row))).toEqual([]);
});

it.each(commands)('%s', (command) => {
  const [, script, asked = ''] = /npm (?:run )?(\w+)(?: -- (.*))?$/.exec(command)!;
  expect(Object.keys(scripts)).toContain(script);
  for (const word of asked.split(' ').filter((each) => each !== '')) {
    if (script === 'test') expect(files.filter((file) => file.includes(word))).not.toEqual([]);
    else expect(PROOFS.filter(({ name }) => name === word || name.startsWith(`${word}-`))).not.toEqual([]);
  }
});
