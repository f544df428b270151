import type { Catalogue, Method } from '../documents/catalogue.js';
import type { Estimate } from '../documents/estimate.js';
import type { Line } from '../documents/lines.js';

/** A test that proves the repair: the operation that repeats a test method which was used. */
export interface ClosingTest {
  readonly method: Method;
  readonly operation: string;
  /** The line that does it, or null. */
  readonly line: string | null;
  /** There is work on what the method found, so there is something to prove. */
  readonly needed: boolean;
  /** A person took it out of the lines and wants it no more. */
  readonly unwanted: boolean;
}

/** The closing tests of the methods that the test rounds used, each once. */
export function closingTests({ rounds, findings }: Estimate, lines: readonly Line[], { methods = [] }: Catalogue): ClosingTest[] {
  const operations = lines.filter((line) => line.kind === 'operation');
  return methods.flatMap((method) => {
    const used = rounds.filter((round) => round.methodId === method.id);
    if (method.closing === null || used.length === 0) return [];
    const found = new Set(findings.filter((finding) => used.some((round) => round.n === finding.round)).map((finding) => finding.id));
    return [
      {
        method,
        operation: method.closing,
        line: operations.find((line) => line.operation === method.closing)?.id ?? null,
        needed: operations.some(
          (line) => line.decision !== 'declined' && line.decision !== 'deferred' && line.findings.some((id) => found.has(id)),
        ),
        unwanted: used.some((round) => round.closing === false),
      },
    ];
  });
}

/** The operations to propose so that every repair is proved: needed, not there yet, and not taken out by a person. */
export function closingToPropose(estimate: Estimate, lines: readonly Line[], catalogue: Catalogue): string[] {
  const missing = closingTests(estimate, lines, catalogue).filter(({ line, needed, unwanted }) => line === null && needed && !unwanted);
  return [...new Set(missing.map(({ operation }) => operation))];
}

/**
 * The test rounds as they remember that lines were taken out: a closing test among them is not proposed again. The same
 * rounds where none is.
 */
export function withoutClosing(estimate: Estimate, removed: ReadonlySet<string>, catalogue: Catalogue): Estimate['rounds'] {
  const left = estimate.lines.filter((line) => !removed.has(line.id));
  const gone = closingTests(estimate, estimate.lines, catalogue).filter(
    ({ line, operation }) => line !== null && !left.some((other) => other.kind === 'operation' && other.operation === operation),
  );
  const methods = new Set(gone.map(({ method }) => method.id));
  if (methods.size === 0) return estimate.rounds;
  return estimate.rounds.map((round) =>
    round.methodId !== undefined && methods.has(round.methodId) ? { ...round, closing: false } : round,
  );
}
