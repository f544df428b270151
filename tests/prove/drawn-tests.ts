/** The tests that draw at random, with other draws than `npm test` makes; those that are a proof in short run in their long form instead. */
import { spawnSync } from 'node:child_process';

const FILES = [
  'properties.test.ts',
  'share/budget.test.ts',
  'share/customer-copy.test.ts',
  'share/seal.test.ts',
  'share/text-coder.test.ts',
  'exchange/guard.test.ts',
  'exchange/lines.test.ts',
  'exchange/read-table.test.ts',
  'number/allocate.test.ts',
  'pricing/cliff-ways.test.ts',
  'pricing/discounted.test.ts',
  'replay/changes.test.ts',
  'replay/goal.test.ts',
  'replay/replay.test.ts',
  'versions/content-hash.test.ts',
];

/** Runs them. @returns whether they pass */
export function drawnTests(seed: number): boolean {
  console.log(`\ntests: those that draw at random. The same again: npm run prove -- tests --seed ${seed}`);
  const files = FILES.map((name) => `tests/engine/${name}`);
  const { status } = spawnSync(process.execPath, ['node_modules/vitest/vitest.mjs', 'run', '--project', 'engine', ...files], {
    env: { ...process.env, BAYSHEET_SEED: String(seed) },
    stdio: 'inherit',
  });
  return status === 0;
}
