/** What npm gets: built and packed from a copy of the project, unpacked as a shop's page would have it, and tried there. */
import { execFile } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { parseCatalogue, parseEstimate, parseRates, priceEstimate } from '../../src/index.js';
import { filesIn, type ImportGraph, reach, readImports } from '../support/imports.js';
import { BUDGETS, GRID_APART, kilobytes, loadedAtFirst, ONLY_PRICES, pageBundle, RATES_AT_FIRST } from '../support/sizes.js';

const root = fileURLToPath(new URL('../../', import.meta.url));
const work = mkdtempSync(join(tmpdir(), 'baysheet-package-'));
const copy = join(work, 'project');
const page = join(work, 'page');
const installed = join(page, 'node_modules', 'baysheet');

interface Manifest {
  readonly dependencies: Record<string, string>;
  readonly exports: Record<string, string | Record<string, string>>;
  readonly sideEffects: readonly string[];
  readonly customElements: string;
}
const manifest: Manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
let modules: ImportGraph;
const entries = Object.keys(manifest.exports).filter((name) => !name.includes('json'));

/** Fails with all that the command has printed, since compilers report faults on their standard output. */
async function run(command: string, args: readonly string[], options: { cwd?: string } = {}): Promise<{ stdout: string }> {
  try {
    // Test runners set another NODE_ENV, with which a build takes libraries in their versions for development.
    return await promisify(execFile)(command, args, { ...options, env: { ...process.env, NODE_ENV: 'production' } });
  } catch (fault) {
    const { message, stdout = '' } = fault as Error & { stdout?: string };
    throw new Error(`${message}\n${stdout}`, { cause: fault });
  }
}

beforeAll(async () => {
  const left = new Set(['node_modules', '.git', 'dist', 'dist-demo', 'tests', 'test-output', 'coverage']);
  for (const name of readdirSync(root)) {
    if (!left.has(name)) cpSync(join(root, name), join(copy, name), { recursive: true });
  }
  symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'), 'junction');
  await run('npm', ['run', 'build', '--ignore-scripts'], { cwd: copy });
  await run('npm', ['pack', '--pack-destination', work], { cwd: copy });

  mkdirSync(installed, { recursive: true });
  await run('tar', ['-xzf', tarball(), '-C', installed, '--strip-components=1']);
  for (const name of Object.keys(manifest.dependencies)) {
    const place = join(page, 'node_modules', name);
    mkdirSync(join(place, '..'), { recursive: true });
    symlinkSync(join(root, 'node_modules', name), place, 'junction');
  }
  modules = readImports(installed, ['dist']);
}, 300_000);
afterAll(() => rmSync(work, { recursive: true, force: true }));

function tarball(): string {
  return join(
    work,
    readdirSync(work).find((name) => name.endsWith('.tgz'))!,
  );
}

/** Runs a module in Node as it would run in a project that has installed the package; gives what it prints. */
async function inNode(code: string): Promise<string> {
  const { stdout } = await run(process.execPath, ['--input-type=module', '-e', code], { cwd: page });
  return stdout;
}

function importable(entry: string): string {
  return JSON.stringify(entry.replace(/^\./, 'baysheet'));
}

it('holds what a page needs and nothing else', () => {
  const names = filesIn(installed).map((path) => relative(installed, path).split(sep).join('/'));
  const expected =
    /^(package\.json|README\.md|LICENSE|rates\/.+\.(json|md)|dist\/[^/]+\.(js|json|md)|dist\/(shared|customer-page)\/[^/]+\.js|dist\/types\/.+\.d\.ts)$/;
  expect(names.filter((name) => !expected.test(name))).toEqual([]);
  expect(names).toContain('LICENSE');
});

it('leads every entry to a file', () => {
  for (const [entry, target] of Object.entries(manifest.exports)) {
    for (const path of typeof target === 'string' ? [target] : Object.values(target)) {
      const places = path.includes('*') ? readdirSync(join(installed, path, '..')) : [path];
      expect(places.length, entry).toBeGreaterThan(0);
      if (!path.includes('*')) expect(existsSync(join(installed, path)), `${entry}: ${path}`).toBe(true);
    }
  }
});

it('is clean under publint', async () => {
  const { stdout } = await run(process.execPath, [bin('publint'), '--strict', installed]);
  expect(stdout).toContain('All good');
});

it('has types that resolve wherever modules do', async () => {
  const { stdout } = await run(process.execPath, [
    bin('@arethetypeswrong/cli', 'attw'),
    tarball(),
    '--profile',
    'esm-only',
    '--format',
    'json',
  ]);
  expect(JSON.parse(stdout).analysis.types.kind).toBe('included');
});

it('prices in Node, without a document, what the sources price', async () => {
  const read = (path: string): unknown => JSON.parse(readFileSync(join(root, path), 'utf8'));
  const [estimate, catalogue, rates] = [
    parseEstimate(read('demo/van.estimate.json')),
    parseCatalogue(read('rates/catalogue.demo.json')),
    parseRates(read('rates/card.demo.json')),
  ];
  if (!estimate.ok || !catalogue.ok || !rates.ok) throw new Error('the demo does not read');
  const printed = await inNode(`
    import { readFileSync } from 'node:fs';
    import { createRequire } from 'node:module';
    import { parseCatalogue, parseEstimate, parseRates, priceEstimate } from 'baysheet/engine';
    if (typeof document !== 'undefined') throw new Error('there is a document');
    const { resolve } = createRequire(import.meta.url);
    const read = (path) => readFileSync(path, 'utf8');
    const estimate = parseEstimate(read(${JSON.stringify(join(root, 'demo/van.estimate.json'))}));
    const catalogue = parseCatalogue(read(resolve('baysheet/rates/catalogue.demo.json')));
    const rates = parseRates(read(resolve('baysheet/rates/card.demo.json')));
    console.log(JSON.stringify(priceEstimate({ estimate: estimate.value, catalogue: catalogue.value, rates: rates.value })));
  `);
  const expected = priceEstimate({ estimate: estimate.value, catalogue: catalogue.value, rates: rates.value });
  expect(JSON.parse(printed)).toEqual(expected);
});

it.each(entries)('%s loads in Node, as on a server that only puts pages together', async (entry) => {
  expect(Number(await inNode(`console.log(Object.keys(await import(${importable(entry)})).length)`))).toBeGreaterThan(0);
});

it('registers the element with define alone', async () => {
  const registered = (entry: string): Promise<string> =>
    inNode(`
      await import('lit');
      const names = [];
      customElements.define = (name) => names.push(name);
      await import(${JSON.stringify(entry)});
      console.log(names.join());
    `);
  expect(await registered('baysheet/estimate/class')).toBe('\n');
  expect(await registered('baysheet/estimate/define')).toBe('baysheet-estimate\n');
  expect(await registered('baysheet/customer/class')).toBe('\n');
  expect(await registered('baysheet/customer/define')).toBe('baysheet-customer\n');
  expect(await registered('baysheet/rates/class')).toBe('\n');
  expect(await registered('baysheet/rates/define')).toBe('baysheet-rates\n');
});

it('declares exactly the modules that register an element as having side effects', () => {
  const scripts = [...modules.keys()].filter((name) => name.endsWith('.js'));
  // Called by whatever name a compiler has given it: define('baysheet-estimate', BaysheetEstimate).
  const registering = scripts.filter((name) =>
    /\(\s*["'`]baysheet-(estimate|customer|rates)["'`]\s*,\s*[\w$]+\s*\)/.test(readFileSync(join(installed, name), 'utf8')),
  );
  const declared = manifest.sideEffects.filter((name) => name.startsWith('./dist/')).map((name) => name.slice(2));
  expect(registering.sort()).toEqual([...declared].sort());
});

it('needs nothing beside estimate.js, customer.js or rates.js for one script tag, and in npm’s modules only its dependencies', () => {
  const packages = (entry: string): string[] => [...reach(modules, entry).keys()].filter((name) => !name.startsWith('dist/'));
  for (const file of ['dist/estimate.js', 'dist/customer.js', 'dist/rates.js']) expect([...reach(modules, file).keys()]).toEqual([file]);
  for (const entry of [
    'dist/engine.js',
    'dist/estimate.class.js',
    'dist/estimate.define.js',
    'dist/customer.class.js',
    'dist/customer.define.js',
    'dist/rates.class.js',
    'dist/rates.define.js',
    'dist/storage.js',
    'dist/storage.cluster.js',
  ]) {
    for (const name of packages(entry)) expect(Object.keys(manifest.dependencies), entry).toContain(name);
  }
  expect(packages('dist/engine.js')).toContain('decimal.js');
  expect(packages('dist/engine.js')).not.toContain('lit');
  expect(packages('dist/storage.js').sort()).toEqual(['@noble/hashes', 'idb']);
  // Only who asks for the cluster loads its client.
  const withClient = [...modules.keys()].filter((file) => packages(file).some((name) => name.startsWith('@nats-io/')));
  expect(withClient.filter((file) => file.endsWith('.js'))).toEqual(['dist/storage.cluster.js']);
});

it('describes the element to editors', () => {
  const described = JSON.parse(readFileSync(join(installed, manifest.customElements), 'utf8'));
  const listed: { path: string; declarations: { tagName?: string; events?: { name: string }[] }[] }[] = described.modules;
  for (const { path } of listed) expect(existsSync(join(installed, path)), path).toBe(true);
  const element = listed.flatMap(({ declarations }) => declarations).find(({ tagName }) => tagName === 'baysheet-estimate');
  expect(element?.events?.map(({ name }) => name)).toContain('baysheet-change');
});

it.each(Object.entries(BUDGETS))(
  '%s stays within %d KB',
  async (entry, budget) => {
    const size = kilobytes(await pageBundle(page, `export * from ${importable(entry)};`, { codeSplitting: false }));
    console.log(`baysheet${entry.slice(1)}: ${size.toFixed(1)} KB min+gzip, budget ${budget} KB`);
    expect(size).toBeLessThan(budget);
  },
  60_000,
);

it(`./rates shows the rate card with ${RATES_AT_FIRST} KB besides the grid`, async () => {
  const chunks = await pageBundle(page, `export * from ${importable('./rates/define')};`, GRID_APART);
  const { own, grid } = loadedAtFirst(chunks);
  const size = kilobytes(own);
  console.log(
    `baysheet/rates at first: ${size.toFixed(1)} KB min+gzip, budget ${RATES_AT_FIRST} KB; the grid ${kilobytes(grid).toFixed(1)} KB`,
  );
  expect(size).toBeLessThan(RATES_AT_FIRST);
  // The grid chunk holds the grid alone.
  const inGrid = grid
    .flatMap(({ modules }) => Object.keys(modules))
    .filter((name) => !/[\\/](handsontable|shared[\\/]grid(-library)?\.js)|rolldown/.test(name));
  expect(inGrid).toEqual([]);
  const first = own.map(({ code }) => code).join('');
  // Words of the parts that come later: the two dialogs, versions, worked examples, the what-if, the import of tables.
  for (const words of [
    'No version is ever overwritten',
    'Put on the card',
    'Difference between two',
    'Worked examples',
    'What the change would have done',
    'the table itself, pasted',
  ]) {
    expect(
      chunks.some(({ code }) => code.includes(words)),
      words,
    ).toBe(true);
    expect(first, words).not.toContain(words);
  }
}, 60_000);

it(`a program that only prices is ${ONLY_PRICES} KB: of the engine it holds what it calls`, async () => {
  const engine = importable('./engine');
  const only = await pageBundle(page, `export { priceEstimate } from ${engine};`, { codeSplitting: false });
  const all = await pageBundle(page, `export * from ${engine};`, { codeSplitting: false });
  const size = kilobytes(only);
  console.log(`priceEstimate of baysheet/engine: ${size.toFixed(1)} KB min+gzip, budget ${ONLY_PRICES} KB`);
  expect(size).toBeLessThan(ONLY_PRICES);
  const libraries = (chunks: typeof only): string[] => {
    const used = chunks.flatMap(({ modules }) =>
      Object.entries(modules).flatMap(([name, { renderedLength }]) => (renderedLength > 0 ? [name] : [])),
    );
    return [
      ...new Set(used.flatMap((name) => /[\\/]node_modules[\\/]((?:@[^\\/]+[\\/])?[^\\/]+)[\\/](?!.*node_modules)/.exec(name)?.[1] ?? [])),
    ]
      .filter((name) => name !== 'baysheet')
      .sort();
  };
  expect(libraries(only)).toEqual(['decimal.js', 'valibot']);
  expect(libraries(all)).toEqual(['@noble/hashes', 'd3-dsv', 'decimal.js', 'jose', 'valibot']);
  // Links, replays, the work sheet.
  for (const words of ['Hay que cambiar la bomba', 'The range ends before it begins', 'Test again before parts are ordered.']) {
    expect(all[0]!.code, words).toContain(words);
    expect(only[0]!.code, words).not.toContain(words);
  }
}, 60_000);

function bin(name: string, command = name): string {
  const folder = join(root, 'node_modules', name);
  const { bin: bins } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  return join(folder, typeof bins === 'string' ? bins : bins[command]);
}
