import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'vite';
import type { TestProject } from 'vitest/node';
import { absentModules } from '../../../components/grid/absent/alias.js';

declare module 'vitest' {
  interface ProvidedContext {
    /** The folder with the demonstration as `npm run build:demo` makes it, and below `bare/` a page of the tests' own. Only to be read. */
    demo: string;
  }
}

const root = join(import.meta.dirname, '../../..');

/** Before all browser tests: builds once what most of them look at. */
export default async function buildDemo(project: TestProject): Promise<() => Promise<void>> {
  const output = join(root, 'test-output');
  await mkdir(output, { recursive: true });
  const folder = await mkdtemp(join(output, 'demo-'));
  const { NODE_ENV } = process.env;
  // Else libraries are taken in their versions for development.
  process.env['NODE_ENV'] = 'production';
  await build({ configFile: join(root, 'vite.config.ts'), mode: 'demo', logLevel: 'error', build: { outDir: folder } });
  await build({
    configFile: false,
    root: join(root, 'tests/browser/estimate-page'),
    base: './',
    publicDir: false,
    logLevel: 'error',
    resolve: { alias: absentModules },
    build: { outDir: join(folder, 'bare'), target: 'es2022', modulePreload: { polyfill: false } },
  });
  if (NODE_ENV === undefined) delete process.env['NODE_ENV'];
  else process.env['NODE_ENV'] = NODE_ENV;
  project.provide('demo', folder);
  return () => rm(folder, { recursive: true, force: true });
}
