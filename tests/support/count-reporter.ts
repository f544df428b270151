import type { Reporter, TestModule } from 'vitest/node';

/** Ends a run with one plain line, `N passed, N failed`, for scripts that read nothing else. */
export default class CountReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly unknown[]): void {
    let passed = 0;
    // An error outside of any test, and a file that could not be collected, fail the run too.
    let failed = unhandledErrors.length;
    for (const module of modules) {
      failed += module.errors().length;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'passed') passed += 1;
        else if (state === 'failed') failed += 1;
      }
    }
    // The reporter beside this one still has its summary to print.
    process.once('exit', () => process.stdout.write(`${passed} passed, ${failed} failed\n`));
  }
}
