import type { Estimate, Finding, TestRound } from '../documents/estimate.js';

/** The part of an estimate that says whether more may be found. */
export type Rounds = Pick<Estimate, 'rounds' | 'findings'>;

/** One test round with what it found. */
export interface FoundRound {
  readonly round: TestRound;
  readonly findings: readonly Finding[];
  /** Marked clean, and nothing is recorded in it. */
  readonly clean: boolean;
}

/** The test rounds in their order, each with what it found. */
export function foundRounds({ rounds, findings }: Rounds): FoundRound[] {
  return [...rounds]
    .sort((a, b) => a.n - b.n)
    .map((round) => {
      const found = findings.filter((finding) => finding.round === round.n);
      return { round, findings: found, clean: round.clean && found.length === 0 };
    });
}

/**
 * Whether the list of findings is complete: there were test rounds, and the last one was clean. A large fault hides a
 * small one, so until then more may be found.
 */
export function listComplete(estimate: Rounds): boolean {
  const last = foundRounds(estimate).at(-1);
  return last !== undefined && last.clean && estimate.findings.every((finding) => finding.round < last.round.n);
}

/**
 * What hid a finding of a later round: the findings of the last round before it that found anything; of those the ones that
 * were plugged or isolated, where that is recorded. None for the first round.
 */
export function hiddenBy(finding: Finding, estimate: Rounds): Finding[] {
  const before = foundRounds(estimate).findLast(({ round, findings }) => round.n < finding.round && findings.length > 0);
  if (before === undefined) return [];
  const plugged = before.findings.filter(isPlugged);
  return plugged.length > 0 ? plugged : [...before.findings];
}

export function isPlugged(finding: Finding): boolean {
  return (finding.plugged ?? '').trim() !== '';
}
