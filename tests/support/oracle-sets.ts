/**
 * Operations as weighted sets of shared steps, in two forms: with their steps, where the engine should find the union, and
 * known by their hours alone with declared overlaps, where it should find the bound of Hunter and Worsley.
 */
import { aCatalogue, aRateCard, aStep, anEstimate, anOperation, operationLine } from './builders.js';
import type { Documents } from './oracle-documents.js';

/** Whole hours of each step. */
export type Weights = Record<string, number>;

export function weigh(steps: Iterable<string>, weights: Weights): number {
  return [...steps].reduce((total, step) => total + weights[step]!, 0);
}

export function inCommon(a: string, b: string): string {
  return [...a].filter((step) => b.includes(step)).join('');
}

/** Each set is a word whose letters are its steps. Operations that consist of shared steps and nothing else. */
export function asSteps(sets: readonly string[], weights: Weights): Documents {
  const steps = Object.entries(weights).map(([id, hours]) => aStep(id, String(hours)));
  const operations = sets.map((set, i) => anOperation(`op${i}`, String(weigh(set, weights)), { steps: [...set] }));
  const lines = sets.map((_, i) => operationLine(`l${i}`, `op${i}`));
  return { estimate: anEstimate(lines), catalogue: aCatalogue({ steps, operations }), rates: aRateCard() };
}

/** The same operations by their hours alone, with the hours that each two of them have in common declared. */
export function asDeclared(sets: readonly string[], weights: Weights): Documents {
  const operations = sets.map((set, i) => anOperation(`op${i}`, String(weigh(set, weights))));
  const overlaps = sets.flatMap((a, i) =>
    sets.slice(i + 1).map((b, j) => ({
      between: [`op${i}`, `op${i + 1 + j}`] as [string, string],
      hours: String(weigh(inCommon(a, b), weights)),
    })),
  );
  const lines = sets.map((_, i) => operationLine(`l${i}`, `op${i}`));
  return { estimate: anEstimate(lines), catalogue: aCatalogue({ operations, overlaps }), rates: aRateCard() };
}
