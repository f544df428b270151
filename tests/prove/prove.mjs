/** Builds the proofs as the package is built, then runs them: a loader that compiles while it runs would take its time from each worker. */
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';

const outDir = fileURLToPath(new URL(`../../node_modules/.prove/${process.pid}/`, import.meta.url));

await build({
  configFile: false,
  logLevel: 'warn',
  build: {
    ssr: fileURLToPath(new URL('main.ts', import.meta.url)),
    outDir,
    target: 'node20',
    rolldownOptions: { output: { entryFileNames: 'main.mjs' } },
  },
});
await import(pathToFileURL(`${outDir}main.mjs`).href);
