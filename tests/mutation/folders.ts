interface TestsOfFolder {
  readonly tests: readonly string[];
  /** Left out: they take long and say again what the others say. */
  readonly without: readonly string[];
  /** Run after all others, in this order. */
  readonly slow: readonly string[];
}

/** The folders of the engine that are mutated, each with the tests that have to tell. */
export const FOLDERS: Readonly<Record<string, TestsOfFolder>> = {
  number: {
    tests: ['tests/engine/number/**/*.test.ts', 'tests/published/{cash,currency,decimal-vectors,rounding-law}.test.ts'],
    without: [],
    slow: ['decimal-vectors.test.ts', 'locale-parse.test.ts'],
  },
  overlap: {
    tests: ['tests/engine/overlap/**/*.test.ts', 'tests/published/{labour-formula,overlap-sets,units}.test.ts'],
    without: [],
    slow: ['overlap-sets.test.ts', 'share-again.test.ts'],
  },
  pricing: {
    tests: ['tests/engine/pricing/**/*.test.ts', 'tests/published/{cards,cash,invoices,labour-formula,units}.test.ts'],
    without: [],
    slow: ['invoices.test.ts', 'cliff-ways.test.ts', 'pricer.test.ts'],
  },
  consent: {
    tests: ['tests/engine/consent/**/*.test.ts', 'tests/published/headroom.test.ts'],
    without: [],
    slow: [],
  },
  share: {
    tests: ['tests/engine/share/**/*.test.ts', 'tests/published/jws.test.ts'],
    without: ['tests/engine/share/{tampered,lengths,canary}.test.ts'],
    slow: ['jws.test.ts', 'seal.test.ts', 'text-coder.test.ts', 'customer-copy.test.ts', 'budget.test.ts'],
  },
};
