import { test, TestRunner } from 'vitest';
import type { VitestRunnerImportSource } from '@vitest/runner';

/**
 * A test file that a mutant keeps from loading has no tests, and so none that fail: the mutant would count as a survivor.
 * Here such a file has one test, which fails.
 */
export default class LoadRunner extends TestRunner {
  override async importFile(path: string, source: VitestRunnerImportSource): Promise<unknown> {
    try {
      return await super.importFile(path, source);
    } catch (fault) {
      if (source !== 'collect') throw fault;
      // Whatever names of tests were asked for.
      this.config.testNamePattern = undefined;
      test('the file loads', () => {
        throw fault;
      });
      return undefined;
    }
  }
}
