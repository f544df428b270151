import { defineConfig } from 'vitest/config';
import { findChromium } from './tests/support/find-chromium.mjs';

const chromium = findChromium();

export default defineConfig({
  test: {
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
          testTimeout: 60_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
