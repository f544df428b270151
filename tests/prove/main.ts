/**
 * `npm run prove`: the proofs in their long form. `npm run prove -- oracle links --seed 7 --cases 5000 --workers 2`, and
 * `--stretch 12` for one stretch of a run alone, as a fault is told. `tests` are those of the engine that draw at random.
 */
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { BenchOfWorkers, type Report } from './bench-of-workers.js';
import { drawnTests } from './drawn-tests.js';
import type { Proof } from './proof.js';
import { ProgressBar } from './progress-bar.js';
import { PROOFS } from './proofs.js';
import { tell, type Told } from './report.js';
import { STRETCH, work } from './work.js';

/** What the engine's tests that draw at random are called on the command line. */
const TESTS = 'tests';

if (process.argv[2] === 'worker') work(PROOFS);
else process.exitCode = await prove();

async function prove(): Promise<number> {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { seed: { type: 'string' }, cases: { type: 'string' }, workers: { type: 'string' }, stretch: { type: 'string' } },
  });
  const seed = wholeNumber(values.seed) ?? Date.now() % 2 ** 31;
  const stretch = wholeNumber(values.stretch);
  const workers = wholeNumber(values.workers) ?? availableParallelism();
  const asked =
    positionals.length === 0
      ? PROOFS
      : PROOFS.filter(({ name }) => positionals.some((each) => name === each || name.startsWith(`${each}-`)));
  const withTests = positionals.length === 0 || positionals.includes(TESTS);
  if (asked.length === 0 && !withTests) {
    const names = [...PROOFS.map(({ name }) => name), TESTS];
    console.error(`There is no proof called ${positionals.join(', ')}. There are: ${names.join(', ')}.`);
    return 2;
  }
  console.log(`Seed ${seed}, ${workers} workers. The same again: npm run prove -- ${positionals.join(' ')} --seed ${seed}`);
  const bench = new BenchOfWorkers(fileURLToPath(import.meta.url), workers);
  let isSound = true;
  for (const proof of asked) {
    const told = await one(bench, proof, seed, wholeNumber(values.cases) ?? proof.cases, stretch);
    isSound = tell(proof, seed, told) && isSound;
  }
  if (withTests) isSound = drawnTests(seed) && isSound;
  console.log(isSound ? '\nAll proofs hold.' : '\nNot all proofs hold.');
  return isSound ? 0 : 1;
}

async function one(bench: BenchOfWorkers, proof: Proof, seed: number, cases: number, stretch: number | null): Promise<Told> {
  const stretches = stretch === null ? Array.from({ length: Math.ceil(cases / STRETCH) }, (_, i) => i) : [stretch];
  const all = stretch === null ? cases : Math.min(STRETCH, cases - stretch * STRETCH);
  console.log(`\n${proof.name}: ${all.toLocaleString('en')} × ${proof.what}`);
  const bar = new ProgressBar(all);
  const start = Date.now();
  const reports: Report[] = await bench.run(proof, seed, stretches, cases, (done) => bar.at(done));
  bar.end();
  return { reports, seconds: (Date.now() - start) / 1000, isWhole: stretch === null && cases >= proof.cases / 100 };
}

function wholeNumber(text: string | undefined): number | null {
  if (text === undefined) return null;
  if (/^-?\d+$/.test(text)) return Number(text);
  throw new Error(`"${text}" is not a whole number.`);
}
