import { defineConfig } from 'vitest/config';
import { findChromium } from './tests/support/find-chromium.mjs';

const chromium = findChromium();

export default defineConfig({
  test: {
    // The browser tests wait a good deal, so two files at a time suit a machine of two cores.
    maxWorkers: 2,
    reporters: ['default', './tests/support/count-reporter.ts'],
    projects: [
      { test: { name: 'engine', include: ['tests/engine/**/*.test.ts'], setupFiles: ['tests/support/steady.ts'], testTimeout: 120_000 } },
      { test: { name: 'published', include: ['tests/published/**/*.test.ts'], testTimeout: 60_000 } },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['./tests/browser/support/build-demo.ts'],
          env: chromium === null ? {} : { CHROMIUM_PATH: chromium },
          // A busy machine is slow, not wrong.
          expect: { poll: { timeout: 15_000 } },
          testTimeout: 60_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
