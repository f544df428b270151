/**
 * Mutation testing: `npm run mutate` for all folders, `npm run mutate -- number overlap:src/overlap/carry.ts` for some of them.
 * Prints the scores; reports with every survivor are in `test-output/mutation/`, what is known of them in `survivors.md`.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { FOLDERS } from './folders.js';

const REPORTS = 'test-output/mutation';
const AIM = 90;

const asked = process.argv.slice(2);
const results = (asked.length > 0 ? asked : Object.keys(FOLDERS)).map((target) => ({ target, ...mutate(target) }));
console.table(results);
if (!results.every(({ score }) => score >= AIM)) process.exitCode = 1;

function mutate(target: string): Scores {
  const [name, file] = target.split(':') as [string, string?];
  const folder = FOLDERS[name];
  if (folder === undefined) throw new Error(`No such folder: ${name}. There are: ${Object.keys(FOLDERS).join(', ')}.`);
  mkdirSync(REPORTS, { recursive: true });
  const report = `${REPORTS}/${target.replace(/[^a-z0-9-]+/gi, '-')}.json`;
  rmSync(report, { force: true });

  const config = report.replace(/json$/, 'config.json');
  const common = JSON.parse(readFileSync('tests/mutation/stryker.config.json', 'utf8')) as object;
  const mutated = file === undefined ? folder.mutate : [file];
  const htmlReporter = { fileName: report.replace(/json$/, 'html') };
  writeFileSync(config, JSON.stringify({ ...common, mutate: mutated, jsonReporter: { fileName: report }, htmlReporter }));
  spawnSync('npx', ['stryker', 'run', config], { stdio: 'inherit', env: { ...process.env, MUTATE_FOLDER: name } });
  return existsSync(report) ? scores(report) : { mutants: 0, killed: 0, timeout: 0, survived: 0, uncovered: 0, score: 0 };
}

interface Scores {
  readonly mutants: number;
  readonly killed: number;
  readonly timeout: number;
  readonly survived: number;
  readonly uncovered: number;
  /** Detected mutants of a hundred; those that are ignored do not count. */
  readonly score: number;
}

function scores(report: string): Scores {
  const { files } = JSON.parse(readFileSync(report, 'utf8')) as { files: Record<string, { mutants: { status: string }[] }> };
  const all = Object.values(files).flatMap(({ mutants }) => mutants.map(({ status }) => status));
  const count = (status: string): number => all.filter((each) => each === status).length;
  const [killed, timeout, survived, uncovered] = [count('Killed'), count('Timeout'), count('Survived'), count('NoCoverage')];
  const mutants = killed + timeout + survived + uncovered;
  return { mutants, killed, timeout, survived, uncovered, score: Math.round((10_000 * (killed + timeout)) / mutants) / 100 };
}
