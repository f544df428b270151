/** Imports run one way (rates ← src ← components ← demo); a fault is told with the chain of imports that makes it. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { filesIn, type ImportGraph, reach, readImports } from '../support/imports.js';

const root = fileURLToPath(new URL('../../', import.meta.url));
const graph = readImports(root, ['rates', 'src', 'components', 'demo']);

const LAYERS = ['rates', 'src', 'components', 'demo'];
const ENGINE_LAYERS = ['number', 'documents', 'overlap', 'pricing'];
/** The packages of the engine, and the folders of `src` that may import them. None needs a document. */
const ENGINE_PACKAGES: Readonly<Record<string, readonly string[]>> = {
  'decimal.js': ['number'],
  valibot: ['documents', 'consent', 'share'],
  '@noble/hashes': ['consent', 'versions'],
  jose: ['share'],
  'd3-dsv': ['exchange'],
};

/** Index of the layer of a file; what is in no layer is above them all. */
function rank(layers: readonly string[], folder: string | undefined): number {
  const i = layers.indexOf(folder ?? '');
  return i === -1 ? layers.length : i;
}

function layer(file: string): number {
  return rank(LAYERS, file.split('/')[0]);
}

/** Files straight in `src/` are above every folder in it. */
function engineLayer(file: string): number {
  const [, folder, rest] = file.split('/');
  return rest === undefined ? ENGINE_LAYERS.length + 1 : rank(ENGINE_LAYERS, folder);
}

/** Imports that lead to a higher layer, each as the chain from the entry that loads it, or as the import alone. */
function upward(files: ImportGraph, entries: readonly string[], layerOf: (file: string) => number): string[] {
  const faults = [...files].flatMap(([file, imports]) =>
    imports.filter(({ to }) => files.has(to) && layerOf(to) > layerOf(file)).map(({ to }) => ({ file, to })),
  );
  return faults.map(({ file, to }) => {
    const chain = entries.map((entry) => reach(files, entry).get(file)).find((found) => found !== undefined);
    return [...(chain ?? [file]), to].join(' → ');
  });
}

/** Chains from `entry` to anything that `forbidden` names. */
function chainsTo(files: ImportGraph, entry: string, forbidden: (name: string) => boolean): string[] {
  return [...reach(files, entry)].filter(([name]) => forbidden(name)).map(([, chain]) => chain.join(' → '));
}

const isPackage = (name: string): boolean => !graph.has(name) && !/\.(json|css)$/.test(name);
const elementModules = [...graph.keys()].filter((file) => /^components\/[^/]+\/define\.ts$/.test(file));
const entries = ['src/index.ts', ...elementModules, 'demo/price.ts'];

describe('direction of the imports', () => {
  it('rates holds data only', () => {
    const others = filesIn(`${root}rates`).filter((path) => !/\.(json|md)$/.test(path));
    expect(others).toEqual([]);
  });

  it('rates ← src ← components ← demo', () => {
    expect(upward(graph, entries, layer)).toEqual([]);
  });

  it('number ← documents ← overlap ← pricing ← the rest of src', () => {
    const engine = new Map([...graph].filter(([file]) => file.startsWith('src/')));
    expect(engine.size).toBeGreaterThan(40);
    expect(upward(engine, entries, engineLayer)).toEqual([]);
  });

  it('the workshop’s papers are made from findings and prices, and nothing of the engine is made from them', () => {
    const users = [...graph].filter(
      ([file, imports]) => file.startsWith('src/') && !file.startsWith('src/work/') && imports.some(({ to }) => to.startsWith('src/work/')),
    );
    expect(users.map(([file]) => file)).toEqual(['src/index.ts']);
    const used = [...graph]
      .filter(([file]) => file.startsWith('src/work/'))
      .flatMap(([, imports]) => imports.map(({ to }) => to.split('/')[1]!));
    expect([...new Set(used)].sort()).toEqual(['documents', 'findings', 'number', 'overlap', 'pricing', 'work']);
  });

  // That the engine names nothing of the DOM is checked by the compiler: tsconfig.engine.json leaves its types out.
  it('the engine imports its own packages only, each in its folders', () => {
    for (const [file, imports] of graph) {
      const [layerName, folder] = file.split('/');
      if (layerName !== 'src') continue;
      const others = imports.filter(({ to }) => isPackage(to) && !ENGINE_PACKAGES[to]?.includes(folder ?? ''));
      expect(others, file).toEqual([]);
    }
  });

  it('the engine loads no package that needs a document', () => {
    expect(chainsTo(graph, 'src/index.ts', (name) => isPackage(name) && !(name in ENGINE_PACKAGES))).toEqual([]);
  });

  it('only components/grid imports the grid library', () => {
    const others = [...graph].filter(
      ([file, imports]) => !file.startsWith('components/grid/') && imports.some(({ to }) => to === 'handsontable'),
    );
    expect(others.map(([file]) => file)).toEqual([]);
  });

  it('only the cluster’s modules import its client, and no other entry reaches them', () => {
    const others = [...graph].filter(
      ([file, imports]) => !/^components\/storage\/cluster[^/]*\.ts$/.test(file) && imports.some(({ to }) => to.startsWith('@nats-io/')),
    );
    expect(others.map(([file]) => file)).toEqual([]);
    const isClient = (name: string): boolean => name.startsWith('@nats-io/');
    expect(chainsTo(graph, 'components/storage/cluster.ts', isClient)).not.toEqual([]);
    for (const entry of [...entries, 'components/storage/index.ts']) expect(chainsTo(graph, entry, isClient)).toEqual([]);
  });

  it('only the define module of an element registers as it is loaded, and no other module loads one', () => {
    expect(elementModules).toContain('components/estimate/define.ts');
    for (const [file, imports] of graph) {
      if (!file.startsWith('components/') || elementModules.includes(file)) continue;
      const text = readFileSync(root + file, 'utf8');
      expect(text, file).not.toMatch(/@customElement\b|^define\(/m);
      if (file !== 'components/define.ts') expect(text, file).not.toMatch(/customElements\s*\.\s*define|registry\s*\.\s*define/);
      expect(
        imports.map(({ to }) => to).filter((to) => elementModules.includes(to)),
        file,
      ).toEqual([]);
    }
  });
});

describe('the check itself', () => {
  const made: ImportGraph = new Map([
    ['src/index.ts', [{ to: 'src/pricing/a.ts', typeOnly: false }]],
    ['src/pricing/a.ts', [{ to: 'src/number/b.ts', typeOnly: false }]],
    [
      'src/number/b.ts',
      [
        { to: 'components/look/c.ts', typeOnly: false },
        { to: 'src/documents/d.ts', typeOnly: true },
      ],
    ],
    [
      'components/look/c.ts',
      [
        { to: 'lit', typeOnly: false },
        { to: 'handsontable', typeOnly: true },
      ],
    ],
    ['src/documents/d.ts', []],
  ]);

  it('tells the chain of a fault', () => {
    expect(upward(made, ['src/index.ts'], layer)).toEqual(['src/index.ts → src/pricing/a.ts → src/number/b.ts → components/look/c.ts']);
    expect(chainsTo(made, 'src/index.ts', (name) => name === 'lit')).toEqual([
      'src/index.ts → src/pricing/a.ts → src/number/b.ts → components/look/c.ts → lit',
    ]);
  });

  it('minds the direction of types but does not load them', () => {
    expect(upward(new Map([...made].filter(([file]) => file.startsWith('src/'))), [], engineLayer)).toEqual([
      'src/number/b.ts → src/documents/d.ts',
    ]);
    expect(chainsTo(made, 'src/index.ts', (name) => name === 'handsontable')).toEqual([]);
  });
});
