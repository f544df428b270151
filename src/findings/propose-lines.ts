import { type Catalogue, parseCatalogue, type Remedy } from '../documents/catalogue.js';
import { type Estimate, type Finding, parseEstimate } from '../documents/estimate.js';
import type { Line, OperationLine } from '../documents/lines.js';
import { isBlank } from '../documents/fields.js';
import { inDocument, type Problem } from '../documents/problem.js';
import { closingToPropose } from './closing-tests.js';
import { operationLine } from './new-line.js';

/** A finding that can be put right in more than one way. */
export interface Alternatives {
  readonly finding: string;
  /** What is proposed: the remedy's own operations. */
  readonly operations: readonly string[];
  /** What could be done instead, each a list of operations. */
  readonly instead: readonly (readonly string[])[];
}

/** A finding that no line answers, and why. */
export interface Unanswered {
  readonly finding: string;
  /** `incomplete`: no component or fault yet. `no-remedy`: the catalogue knows none. `not-proposed`: there is one, but no line for it. */
  readonly reason: 'incomplete' | 'no-remedy' | 'not-proposed';
}

export interface Proposal {
  /** All lines of the estimate: those that were there, and the new ones after them. */
  readonly lines: readonly Line[];
  readonly alternatives: readonly Alternatives[];
  readonly unanswered: readonly Unanswered[];
  /** Why nothing could be proposed, where a document cannot be used. */
  readonly problems: readonly Problem[];
}

/**
 * Lines for the findings: for each that no line answers yet, the operations of its remedy. One operation is one line;
 * what is found at a second position joins it there. Lines made by hand, edits, and lines that were decided on are
 * left as they are. Alternatives are told, not chosen; a finding without a remedy stays in `unanswered`. Where a test
 * round names a method of the catalogue, the test that closes it comes last, once, unless a person took it out.
 * Never throws.
 *
 * @param only ids of the findings to propose for; without it, all
 */
export function proposeLines(estimate: Estimate, catalogue: Catalogue, only?: Iterable<string>): Proposal {
  const readEstimate = parseEstimate(estimate);
  const readCatalogue = parseCatalogue(catalogue);
  if (!readEstimate.ok || !readCatalogue.ok) {
    const problems = [...inDocument('estimate', readEstimate.problems), ...inDocument('catalogue', readCatalogue.problems)];
    return { lines: readEstimate.ok ? readEstimate.value.lines : [], alternatives: [], unanswered: [], problems };
  }
  return propose(readEstimate.value, readCatalogue.value, only === undefined ? undefined : new Set(only));
}

/** `proposeLines` for documents that have been checked. */
export function propose(estimate: Estimate, catalogue: Catalogue, only?: ReadonlySet<string>): Proposal {
  let { lines } = estimate;
  const answered = answeredFindings(lines);
  const alternatives: Alternatives[] = [];
  for (const finding of estimate.findings) {
    const remedy = remedyFor(finding, catalogue);
    if (remedy === null) continue;
    if (remedy.instead.length > 0) alternatives.push({ finding: finding.id, operations: remedy.operations, instead: remedy.instead });
    if (answered.has(finding.id) || (only !== undefined && !only.has(finding.id))) continue;
    lines = answer(finding, remedy.operations, lines);
    answered.add(finding.id);
  }
  if (only === undefined || only.size > 0) {
    for (const operation of closingToPropose(estimate, lines, catalogue)) lines = [...lines, operationLine(operation, lines)];
  }
  const unanswered = estimate.findings
    .filter((finding) => !answered.has(finding.id))
    .map((finding) => ({
      finding: finding.id,
      reason: reasonOf(finding, catalogue),
    }));
  return { lines, alternatives, unanswered, problems: [] };
}

/** The remedy of the catalogue for what was found, or null. Case and space at the ends of the fault do not matter. */
export function remedyFor(finding: Finding, catalogue: Catalogue): Remedy | null {
  const fault = plain(finding.fault);
  return catalogue.remedies.find((remedy) => remedy.component === finding.component && plain(remedy.fault) === fault) ?? null;
}

/** The findings that a line says it puts right. */
export function answeredFindings(lines: readonly Line[]): Set<string> {
  return new Set(lines.flatMap((line) => (line.kind === 'operation' ? line.findings : [])));
}

/** Lines with the operations added that put one finding right. */
export function answer(finding: Finding, operations: readonly string[], lines: readonly Line[]): Line[] {
  let answered = [...lines];
  for (const operation of operations) {
    const open = answered.findIndex((line) => line.kind === 'operation' && line.operation === operation && line.decision === 'proposed');
    if (open >= 0) answered = answered.with(open, join(answered[open] as OperationLine, finding));
    else answered.push(join(operationLine(operation, answered), finding));
  }
  return answered;
}

function join(line: OperationLine, finding: Finding): OperationLine {
  const positions =
    isBlank(finding.position) || line.positions.includes(finding.position) ? line.positions : [...line.positions, finding.position];
  return { ...line, positions, findings: [...line.findings, finding.id] };
}

function reasonOf(finding: Finding, catalogue: Catalogue): Unanswered['reason'] {
  if (isBlank(finding.component) || isBlank(finding.fault)) return 'incomplete';
  return remedyFor(finding, catalogue) === null ? 'no-remedy' : 'not-proposed';
}

function plain(words: string): string {
  return words.trim().toLowerCase();
}
