interface Folder {
  readonly mutate: readonly string[];
  readonly tests: readonly string[];
  /** Left out: they take long and say again what the others say. */
  readonly without: readonly string[];
  /** Run after all others, in this order. */
  readonly slow: readonly string[];
}

/** What is mutated of the engine, by folder (`share` in three), each with the tests that have to tell. */
export const FOLDERS: Readonly<Record<string, Folder>> = {
  number: {
    mutate: ['src/number/**/*.ts'],
    tests: ['tests/engine/number/**/*.test.ts', 'tests/published/{cash,currency,decimal-vectors,rounding-law}.test.ts'],
    without: [],
    slow: ['decimal-vectors.test.ts', 'locale-parse.test.ts'],
  },
  overlap: {
    mutate: ['src/overlap/**/*.ts'],
    tests: ['tests/engine/overlap/**/*.test.ts', 'tests/published/{labour-formula,overlap-sets,units}.test.ts'],
    without: [],
    slow: ['overlap-sets.test.ts', 'share-again.test.ts'],
  },
  pricing: {
    mutate: ['src/pricing/**/*.ts'],
    tests: [
      'tests/engine/pricing/**/*.test.ts',
      'tests/engine/overlap/includes.test.ts',
      'tests/engine/replay/replay.test.ts',
      'tests/published/{cards,cash,invoices,labour-formula,units}.test.ts',
    ],
    without: [],
    slow: ['invoices.test.ts', 'cliff-ways.test.ts', 'pricer.test.ts', 'replay.test.ts'],
  },
  consent: {
    mutate: ['src/consent/**/*.ts'],
    tests: ['tests/engine/consent/**/*.test.ts', 'tests/published/headroom.test.ts'],
    without: [],
    slow: [],
  },
  share: {
    mutate: ['src/share/**/*.ts', '!src/share/budget*.ts', '!src/share/{text-model,text-coder,logistic,guesses,dictionary}.ts'],
    tests: ['tests/engine/share/**/*.test.ts', 'tests/published/jws.test.ts'],
    without: ['tests/engine/share/{tampered,lengths,canary,budget,text-coder}.test.ts'],
    slow: ['jws.test.ts', 'platform.test.ts', 'reply.test.ts', 'seal.test.ts', 'customer-copy.test.ts'],
  },
  'share-text': {
    mutate: ['src/share/{text-model,text-coder,logistic,guesses}.ts'],
    tests: ['tests/engine/share/{text-coder,copy-in-full,seal}.test.ts'],
    without: [],
    slow: ['text-coder.test.ts', 'seal.test.ts'],
  },
  'share-budget': {
    mutate: ['src/share/budget*.ts'],
    tests: ['tests/engine/share/budget.test.ts'],
    without: [],
    slow: [],
  },
};
