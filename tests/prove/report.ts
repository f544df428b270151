/** What came of a proof, in words for the terminal. */
import { mkdirSync, writeFileSync } from 'node:fs';
import type { Report } from './bench-of-workers.js';
import type { Proof } from './proof.js';
import { STRETCH } from './work.js';

export interface Told {
  readonly reports: readonly Report[];
  readonly seconds: number;
  /** Enough cases to ask how often each thing was met. */
  readonly isWhole: boolean;
}

const FAULTS_SHOWN = 5;
const LONGEST_SHOWN = 3000;

/** Tells it. @returns whether the proof holds */
export function tell(proof: Proof, seed: number, { reports, seconds, isWhole }: Told): boolean {
  const tried = reports.reduce((sum, { outcome }) => sum + (outcome?.tried ?? 0), 0);
  const counts = new Map<string, number>();
  for (const { outcome } of reports) for (const [what, n] of outcome?.counts ?? []) counts.set(what, (counts.get(what) ?? 0) + n);
  for (const what of proof.reach?.keys() ?? []) if (!counts.has(what)) counts.set(what, 0);

  const faults = reports.flatMap((report) => {
    const fault = report.lost ?? report.outcome?.fault ?? null;
    return fault === null ? [] : [{ fault, stretch: report.stretch }];
  });
  const slow = reports.flatMap(({ outcome, stretch }) => (outcome?.slow ?? []).map((each) => ({ ...each, stretch })));
  const rare = [...(isWhole ? (proof.reach ?? []) : [])].filter(([what, least]) => counts.get(what)! <= (tried * least) / 100);

  console.log(`  ${tried.toLocaleString('en')} cases in ${seconds.toFixed(0)} s: ${faults.length} faults, ${slow.length} slow`);
  for (const [what, n] of [...counts].sort()) {
    console.log(`    ${n.toLocaleString('en').padStart(9)}  ${((100 * n) / Math.max(1, tried)).toFixed(1).padStart(5)} %  ${what}`);
  }
  for (const [what, least] of rare)
    console.log(`  Too rare: ${what} is met by at most ${least} of a hundred cases, so nothing is proved of it.`);
  const again = (stretch: number): string => `npm run prove -- ${proof.name} --seed ${seed} --stretch ${stretch}`;
  for (const { at, what, milliseconds, stretch } of slow.slice(0, FAULTS_SHOWN))
    console.log(`  Slow: ${what} took ${milliseconds} ms in case ${at}. Again: ${again(stretch)}`);
  for (const { fault, stretch } of faults.slice(0, FAULTS_SHOWN)) {
    console.log(`  Fault. Again: ${again(stretch)}\n    ${shown(fault, keep(proof.name, stretch, fault)).replaceAll('\n', '\n    ')}`);
  }
  if (faults.length > FAULTS_SHOWN) console.log(`  … and ${faults.length - FAULTS_SHOWN} more faults.`);
  if (faults.length > 0) console.log(`  A stretch of ${STRETCH} cases ends with its first fault.`);
  return faults.length === 0 && slow.length === 0 && rare.length === 0;
}

/** The smallest case whole, beside the terminal. */
function keep(name: string, stretch: number, fault: string): string {
  const path = `test-output/prove/${name}-${stretch}.txt`;
  mkdirSync('test-output/prove', { recursive: true });
  writeFileSync(path, fault);
  return path;
}

function shown(fault: string, path: string): string {
  return fault.length <= LONGEST_SHOWN ? fault : `${fault.slice(0, LONGEST_SHOWN)}…\n(whole in ${path})`;
}
