/**
 * Builds the bench as the package is built, with the package itself and a page for the browser beside it, then runs it: a
 * loader that compiles while it runs (tsx) keeps the names of functions at a price that would be measured too.
 */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';

const root = fileURLToPath(new URL('../../', import.meta.url));
const outDir = join(root, 'node_modules/.bench');
process.env.NODE_ENV = 'production';
const asked = process.argv.slice(2);
const isAsked = (/** @type {string} */ part) => asked.length === 0 || asked.includes(part);

rmSync(outDir, { recursive: true, force: true });
mkdirSync(join(outDir, 'package'), { recursive: true });
writeFileSync(join(outDir, 'package/package.json'), JSON.stringify({ type: 'module', sideEffects: ['./*.define.js'] }));

for (const mode of isAsked('sizes') ? ['package', 'one-file-customer', 'customer-page'] : []) {
  await build({
    configFile: join(root, 'vite.config.ts'),
    mode,
    logLevel: 'warn',
    build: { outDir: join(outDir, 'package'), emptyOutDir: false },
  });
}
if (isAsked('sheet')) await build({ configFile: join(root, 'vite.config.ts'), mode: 'bench', logLevel: 'warn' });
await build({
  configFile: false,
  logLevel: 'warn',
  build: {
    ssr: join(root, 'tests/bench/run.ts'),
    outDir,
    emptyOutDir: false,
    target: 'node20',
    rolldownOptions: { output: { entryFileNames: 'run.mjs' } },
  },
});
await import(pathToFileURL(join(outDir, 'run.mjs')).href);
