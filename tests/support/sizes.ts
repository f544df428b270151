/** What a page's own bundler makes of the package, and how large that may be. */
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build, type Rolldown } from 'vite';

/**
 * Kilobytes (1000 bytes) after minifying and gzip: what the reader of a page waits for. Each is what was reached and at
 * most 3 % more, so that nothing grows by accident. An advisor opens the sheet once a morning on the shop's own machine, and the
 * grid library is nearly a third of it. A customer opens a link on a phone, on a slow network: what
 * `customer-page.js` shows the estimate with, and everything apart, is measured in `components/customer-light.test.ts`.
 */
export const BUDGETS: Readonly<Record<string, number>> = {
  './engine': 82,
  './estimate': 247,
  './customer': 52.8,
  './rates': 221,
  './storage': 14.2,
  './storage/cluster': 69.5,
};

/** An owner's page besides the grid chunk: what it loads before anybody looks beyond the rate card. */
export const RATES_AT_FIRST = 59;

/** A program that only prices, of the whole engine. */
export const ONLY_PRICES = 33.4;

/** What was aimed at; `rates` besides the grid chunk, and `customer` for the estimate as well as for all. */
export const AIMS = { customer: 35, ratesAtFirst: 60, estimate: 260 } as const;

/** Makes the scripts of a page whose only module is `code`. It stands in the folder `page`, beside the packages that it imports. */
export async function pageBundle(page: string, code: string, output: Rolldown.OutputOptions): Promise<Rolldown.OutputChunk[]> {
  // Test runners set another one, with which lit comes in its version for development.
  process.env['NODE_ENV'] = 'production';
  const main = join(page, 'main.js');
  const virtual = {
    name: 'page',
    resolveId: (id: string) => (id === main ? id : null),
    load: (id: string) => (id === main ? code : null),
  };
  const built = await build({
    root: page,
    configFile: false,
    logLevel: 'silent',
    publicDir: false,
    plugins: [virtual],
    build: {
      write: false,
      target: 'es2022',
      modulePreload: { polyfill: false },
      rolldownOptions: { input: main, preserveEntrySignatures: 'strict', output },
    },
  });
  const { output: files } = (Array.isArray(built) ? built[0] : built) as Rolldown.RolldownOutput;
  return files.filter((file) => file.type === 'chunk');
}

const GRID = 'grid-chunk';

/** The grid library and our own grid in a chunk of their own. lit would follow them into it, and belongs to the rest. */
export const GRID_APART: Rolldown.OutputOptions = {
  codeSplitting: {
    groups: [
      { name: 'lit', test: /[\\/]node_modules[\\/](@lit[\\/]|lit)/ },
      { name: GRID, test: /[\\/]handsontable[\\/]|[\\/]shared[\\/]grid(-library)?\.js$/ },
    ],
  },
};

/** The scripts of a page that are there before it does anything: its entry, and all that this imports. */
export function loadedAtFirst(chunks: readonly Rolldown.OutputChunk[]): {
  readonly own: Rolldown.OutputChunk[];
  readonly grid: Rolldown.OutputChunk[];
} {
  const named = new Map(chunks.map((chunk) => [chunk.fileName, chunk]));
  const first = new Set<Rolldown.OutputChunk>();
  const open = chunks.filter(({ isEntry }) => isEntry);
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    if (first.has(next)) continue;
    first.add(next);
    open.push(...next.imports.flatMap((name) => named.get(name) ?? []));
  }
  const isGrid = ({ name }: Rolldown.OutputChunk): boolean => name === GRID;
  return { own: [...first].filter((chunk) => !isGrid(chunk)), grid: [...first].filter(isGrid) };
}

/** Kilobytes after gzip. */
export function kilobytes(chunks: readonly { readonly code: string }[]): number {
  return chunks.reduce((sum, { code }) => sum + gzipSync(code, { level: 9 }).length, 0) / 1000;
}
