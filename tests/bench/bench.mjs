/**
 * Builds the bench as the package is built, then runs it: a loader that compiles while it runs (tsx) keeps the names of
 * functions at a price that would be measured too.
 */
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';

const outDir = fileURLToPath(new URL('../../node_modules/.bench/', import.meta.url));

await build({
  configFile: false,
  logLevel: 'warn',
  build: { ssr: fileURLToPath(new URL('run.ts', import.meta.url)), outDir, target: 'node20', rolldownOptions: { output: { entryFileNames: 'run.mjs' } } },
});
await import(pathToFileURL(`${outDir}run.mjs`).href);
