import type { Catalogue } from '../documents/catalogue.js';
import type { Finding } from '../documents/estimate.js';
import { foundRounds, hiddenBy, isPlugged, listComplete, type Rounds } from './rounds.js';

/**
 * Why more may be found, in one sentence; empty when the list is complete, and for plain work that nothing was tested or
 * found for.
 */
export function whyIncomplete(estimate: Rounds): string {
  if (listComplete(estimate)) return '';
  const last = foundRounds(estimate).at(-1);
  if (last === undefined && estimate.findings.length === 0) return '';
  if (last === undefined) return 'More may be found: no test round is recorded.';
  const { round, findings } = last;
  const later = estimate.findings.filter((finding) => finding.round > round.n).length;
  if (later > 0) return `More may be found: ${counted(later)} recorded in a round after the last one, round ${round.n}.`;
  if (findings.length === 0) return `More may be found: round ${round.n} is not finished.`;
  if (round.clean) return `More may be found: round ${round.n} is marked clean, but ${counted(findings.length)} recorded in it.`;
  return `More may be found: round ${round.n}, the last one, was not clean. It found ${findings.length}.`;
}

/** The test rounds in one line: what each found. */
export function roundsText(estimate: Rounds): string {
  return foundRounds(estimate)
    .map(({ round, findings, clean }) => {
      const result = clean ? 'clean' : findings.length === 0 ? 'nothing found yet' : `${findings.length} found`;
      return `Round ${round.n}${round.method === '' ? '' : ` (${round.method})`}: ${result}`;
    })
    .join(' · ');
}

/**
 * That a finding of a later round came to light only after something else was plugged or isolated; null for one of the first
 * round. Where nobody recorded the plugging, it says only what had been found before.
 */
export function cameToLight(finding: Finding, estimate: Rounds, catalogue: Pick<Catalogue, 'components'>): string | null {
  const hid = hiddenBy(finding, estimate);
  if (hid.length === 0) return null;
  const names = hid.map((other) => findingName(other, catalogue)).join('; ');
  return hid.every(isPlugged)
    ? `Came to light only in round ${finding.round}, after this was plugged or isolated: ${names}.`
    : `Came to light only in round ${finding.round}. Found before it: ${names}.`;
}

/** `Radiator hose, lower: split along the seam`; a component that the catalogue lacks goes by what was typed. */
export function findingName(finding: Finding, catalogue: Pick<Catalogue, 'components'>): string {
  const component = catalogue.components.find(({ id }) => id === finding.component)?.title ?? finding.component;
  const place = [component, finding.position].filter((words) => words !== '').join(', ');
  return [place, finding.fault].filter((words) => words !== '').join(': ') || 'a finding without words';
}

function counted(findings: number): string {
  return findings === 1 ? '1 finding is' : `${findings} findings are`;
}
