import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { FOLDERS } from './folders.js';

const folder = process.env['MUTATE_FOLDER'] ?? 'number';

/** Quick files first: most mutants are found by the tests of their own module. */
class QuickFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const last = FOLDERS[folder]!.slow;
    const rank = ({ moduleId }: TestSpecification): number => last.findIndex((name) => moduleId.endsWith(name));
    return files.toSorted((a, b) => rank(a) - rank(b) || a.moduleId.localeCompare(b.moduleId));
  }
}

/** The tests that `npm run mutate` puts mutants before: those of one folder of the engine, without the long ones. */
export default defineConfig({
  test: {
    include: [...FOLDERS[folder]!.tests],
    exclude: [...FOLDERS[folder]!.without],
    runner: 'tests/mutation/runner.ts',
    env: { EDITS: '40', BAYSHEET_SEED: '1' },
    testTimeout: 120_000,
    sequence: { sequencer: QuickFirst },
  },
});
