import type { Estimate } from './estimate.js';
import { LIMITS } from './limits.js';
import { type Problem, warning } from './problem.js';
import { duplicates, tooMany } from './references.js';

/** What a schema cannot say of an estimate by itself: nothing stands twice, and references inside it lead somewhere. */
export function checkEstimateReferences(estimate: Estimate): Problem[] {
  const findings = new Set(estimate.findings.map((finding) => finding.id));
  const lines = new Set(estimate.lines.map((line) => line.id));
  return [
    ...tooMany(estimate.discounts, LIMITS.discounts, 'discounts', 'discounts'),
    ...duplicates(
      estimate.findings.map((finding) => finding.id),
      'findings',
    ),
    ...duplicates(
      estimate.lines.map((line) => line.id),
      'lines',
    ),
    ...duplicates(
      estimate.discounts.map((discount) => discount.id),
      'discounts',
    ),
    ...duplicates(
      estimate.rounds.map((round) => String(round.n)),
      'rounds',
      'n',
    ),
    ...estimate.lines.flatMap((line, i) => {
      if (line.kind !== 'operation') return [];
      return [
        ...tooMany(line.positions, LIMITS.positions, 'positions', `lines[${i}].positions`),
        ...duplicates(line.positions, `lines[${i}].positions`, ''),
        ...duplicates(
          line.parts.map((part) => part.part),
          `lines[${i}].parts`,
          'part',
        ),
        ...lost(line.findings, findings, 'finding', `lines[${i}].findings`),
      ];
    }),
    ...estimate.discounts.flatMap((discount, i) => lost(discount.lines, lines, 'line', `discounts[${i}].lines`)),
  ];
}

/** A reference to something that has been removed is harmless, so it only warns: an estimate must always open again. */
function lost(ids: readonly string[], known: ReadonlySet<string>, what: string, path: string): Problem[] {
  return ids.flatMap((id, i) =>
    known.has(id)
      ? []
      : [warning('lost-reference', `${path}[${i}]`, `There is no ${what} "${id}" in this estimate.`, 'Name another, or take it out.')],
  );
}
