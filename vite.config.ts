import { createReadStream, cpSync, existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve, sep } from 'node:path';
import vue from '@vitejs/plugin-vue';
import { build, defineConfig, type Plugin, type Rolldown, type UserConfig } from 'vite';
import { compactLiterals } from './components/compact-literals.js';
import { everythingAtOnce, lightLibraries } from './components/customer/light/alias.js';
import { lightPlugins } from './components/customer/light/plugins.js';
import { absentModules } from './components/grid/absent/alias.js';
import { makeExample } from './demo/customer-example.js';
import { documentListener } from './demo/server.js';

const root = import.meta.dirname;
const from = (path: string): string => resolve(root, path);

/**
 * In npm's build dependencies stay imports, so that a page that uses them too loads them once. Not the grid library: it
 * would bring its own dependencies, which we leave out.
 */
const { dependencies } = JSON.parse(readFileSync(from('package.json'), 'utf8')) as { dependencies: Record<string, string> };
const kept = Object.keys(dependencies).filter((name) => name !== 'handsontable');
const isKept = (id: string): boolean => kept.some((name) => id === name || id.startsWith(`${name}/`));

/** In KB: sizes after gzip are kept to a budget by tests/engine/package.test.ts instead. */
const BUDGET_IS_TESTED = Infinity;

const GRID_LIBRARY = 'grid-library';

/**
 * The grid library asks the document what it can do as soon as it is loaded. On a server, where a page is only put
 * together, there is none: it gets something that answers every question with itself, and so loads without a word.
 */
const withoutDocument = `
const nowhere = new Proxy(function () {}, { get: (_, key) => (key === Symbol.toPrimitive ? () => '' : nowhere), apply: () => nowhere, construct: () => nowhere });
const { window, document, navigator } = typeof globalThis.document === 'undefined' ? { window: nowhere, document: nowhere, navigator: nowhere } : globalThis;
`;

/**
 * The builds: `package` (modules for npm, dependencies left as imports), `one-file-NAME` for each element (all in one file
 * for one script tag), and without either the demo, which is also what the development server shows.
 */
export default defineConfig(({ mode }) => {
  if (mode === 'package') return packageBuild;
  if (mode === 'one-file-estimate') return oneFileBuild('estimate');
  if (mode === 'one-file-customer') return oneFileBuild('customer');
  if (mode === 'one-file-rates') return oneFileBuild('rates');
  if (mode === 'customer-page') return customerPageBuild;
  if (mode === 'bench') return benchPage;
  return demo;
});

const shared: UserConfig = {
  root,
  // Files that a script asks for lie beside it, wherever that is.
  base: './',
  publicDir: false,
  resolve: { alias: absentModules },
  worker: { format: 'es', rolldownOptions: { output: { entryFileNames: '[name].js' } } },
};

const packageBuild: UserConfig = {
  ...shared,
  plugins: [compactLiterals()],
  build: {
    outDir: from('dist'),
    emptyOutDir: true,
    target: 'es2022',
    chunkSizeWarningLimit: BUDGET_IS_TESTED,
    minify: false,
    lib: {
      entry: {
        engine: from('src/index.ts'),
        'estimate.class': from('components/estimate/baysheet-estimate.ts'),
        'estimate.define': from('components/estimate/define.ts'),
        'customer.class': from('components/customer/baysheet-customer.ts'),
        'customer.define': from('components/customer/define.ts'),
        'rates.class': from('components/rates/baysheet-rates.ts'),
        'rates.define': from('components/rates/define.ts'),
        storage: from('components/storage/index.ts'),
        'storage.cluster': from('components/storage/cluster.ts'),
      },
      formats: ['es'],
    },
    rolldownOptions: {
      external: isKept,
      output: {
        entryFileNames: '[name].js',
        chunkFileNames: 'shared/[name].js',
        codeSplitting: {
          groups: [
            { name: GRID_LIBRARY, test: /node_modules[\\/]handsontable[\\/]/ },
            // What two elements have in common, and so a page with both loads once.
            { name: 'grid', test: /components[\\/]grid[\\/]/ },
          ],
        },
        intro: (chunk) => (chunk.name === GRID_LIBRARY ? withoutDocument : ''),
      },
    },
  },
};

/** Scripts for pages that have no bundler of their own. */
const scriptBuild: UserConfig['build'] = {
  outDir: from('dist'),
  emptyOutDir: false,
  target: 'es2022',
  chunkSizeWarningLimit: BUDGET_IS_TESTED,
  modulePreload: false,
};

const oneFileBuild = (element: 'estimate' | 'customer' | 'rates'): UserConfig => ({
  ...shared,
  ...(element === 'customer' ? { resolve: { alias: [...lightLibraries, ...everythingAtOnce] } } : {}),
  plugins: element === 'customer' ? lightPlugins() : [compactLiterals()],
  build: {
    ...scriptBuild,
    // The licences of what is inside ask that their text comes along.
    license: { fileName: `licences-of-${element}.md` },
    // Not `lib`: that leaves white space in ES modules, for the sake of bundlers that this file is not for.
    rolldownOptions: {
      input: { [element]: from(`components/${element}/define.ts`) },
      preserveEntrySignatures: 'strict',
      output: { format: 'es', entryFileNames: '[name].js', codeSplitting: false },
    },
  },
});

/** For a page that a phone loads over a slow network: what the estimate is shown with in one file, and the rest when it stands. */
const customerPageBuild: UserConfig = {
  ...shared,
  resolve: { alias: [...lightLibraries] },
  plugins: lightPlugins(),
  build: {
    ...scriptBuild,
    license: { fileName: 'licences-of-customer.md' },
    // A library, so that nothing is put around `import()`.
    lib: { entry: { 'customer-page': from('components/customer/define.ts') }, formats: ['es'] },
    rolldownOptions: {
      preserveEntrySignatures: 'allow-extension',
      output: {
        entryFileNames: '[name].js',
        chunkFileNames: 'customer-page/[name].js',
        // In full, for a page and not for another bundler.
        minify: true,
        comments: { annotation: false },
      },
    },
  },
};

/** The sheet on a page of its own, for `npm run bench`. */
const benchPage: UserConfig = {
  ...shared,
  root: from('tests/bench/page'),
  plugins: [compactLiterals()],
  build: {
    outDir: from('node_modules/.bench/page'),
    emptyOutDir: true,
    target: 'es2022',
    chunkSizeWarningLimit: BUDGET_IS_TESTED,
    modulePreload: { polyfill: false },
  },
};

const demo: UserConfig = {
  ...shared,
  root: from('demo'),
  base: './',
  // A file that is not there is an error, not the first page again.
  appType: 'mpa',
  plugins: [
    compactLiterals(),
    vue({ template: { compilerOptions: { isCustomElement: (tag) => tag.startsWith('baysheet-') } } }),
    dataFiles(),
    customerFiles(),
    documents(),
  ],
  server: { fs: { allow: [root] } },
  build: {
    outDir: from('dist-demo'),
    emptyOutDir: true,
    target: 'es2022',
    chunkSizeWarningLimit: BUDGET_IS_TESTED,
    // Its inline script would not run under a strict content security policy.
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    rolldownOptions: { input: pages() },
  },
};

/**
 * Beside the demo's pages: `customer.js`, all in one file, which the sheet puts into an estimate that is sent as a file;
 * `customer-page.js` with its folder, for the customer's page; and the example that this page shows without a link.
 */
function customerFiles(): Plugin {
  /** Names are made short for the page that is published: it takes seconds. */
  const make = async (isPublished: boolean): Promise<Map<string, string>> => {
    const files = new Map([['customer-example.json', JSON.stringify(await makeExample(root))]]);
    for (const config of [oneFileBuild('customer'), customerPageBuild]) {
      const plugins = lightPlugins().filter(({ name }) => isPublished || name !== 'short-names');
      const built = await build({ ...config, plugins, configFile: false, logLevel: 'warn', build: { ...config.build, write: false } });
      const { output } = (Array.isArray(built) ? built[0] : built) as Rolldown.RolldownOutput;
      for (const file of output) if (file.type === 'chunk') files.set(file.fileName, file.code);
    }
    return files;
  };
  return {
    name: 'customer-files',
    configureServer({ middlewares }) {
      middlewares.use((request, response, next) => {
        const name = new URL(request.url ?? '', 'http://localhost').pathname.slice(1);
        if (!/^customer(-page|-example)?\.js(on)?$|^customer-page\//.test(name)) return next();
        make(false).then((files) => {
          if (!files.has(name)) return next();
          response.setHeader('Content-Type', name.endsWith('.json') ? 'application/json' : 'text/javascript; charset=utf-8');
          response.end(files.get(name));
        }, next);
      });
    },
    async generateBundle() {
      for (const [fileName, source] of await make(true)) this.emitFile({ type: 'asset', fileName, source });
    },
  };
}

function pages(): string[] {
  const folders = ['demo', 'demo/hosts'];
  return folders.flatMap((folder) =>
    readdirSync(from(folder))
      .filter((name) => name.endsWith('.html'))
      .map((name) => from(join(folder, name))),
  );
}

/** A shop's own back end for the demonstration that needs one: kept in memory, until the development server ends. */
function documents(): Plugin {
  return {
    name: 'documents',
    async configureServer({ middlewares }) {
      const answer = await documentListener({ folder: null });
      middlewares.use((request, response, next) => (request.url?.startsWith('/documents/') ? answer(request, response) : next()));
    },
  };
}

/** The documents that the demo's pages fetch: `rates/…` of the project and the estimates beside the pages. */
function dataFiles(): Plugin {
  return {
    name: 'data-files',
    configureServer({ middlewares }) {
      middlewares.use('/rates', (request, response, next) => {
        const path = join(root, 'rates', decodeURIComponent(new URL(request.url ?? '', 'http://localhost').pathname));
        if (!path.startsWith(from('rates') + sep) || !path.endsWith('.json') || !existsSync(path)) return next();
        response.setHeader('Content-Type', 'application/json; charset=utf-8');
        createReadStream(path).pipe(response);
      });
    },
    writeBundle({ dir }) {
      cpSync(from('rates'), join(dir!, 'rates'), { recursive: true });
      for (const name of readdirSync(from('demo'))) {
        if (name.endsWith('.estimate.json') || name.endsWith('.keys.json')) cpSync(from(join('demo', name)), join(dir!, name));
      }
    },
  };
}
