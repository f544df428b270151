import type { Estimate, Finding } from '../documents/estimate.js';
import type { Line, OperationLine } from '../documents/lines.js';
import { isUntouched } from './new-line.js';
import { answer } from './propose-lines.js';

/**
 * Lines with one finding put right in another way: it leaves the lines that answered it, and joins or makes lines for
 * `operations`. A line that is then just an unedited operation that nothing asks for goes. Lines that were decided on stay as
 * they are: what a customer has approved is not changed behind their back.
 */
export function chooseRemedy(estimate: Estimate, finding: Finding, operations: readonly string[]): Line[] {
  const kept = estimate.lines.flatMap((line) => {
    if (line.kind !== 'operation' || line.decision !== 'proposed') return [line];
    if (!line.findings.includes(finding.id) || operations.includes(line.operation)) return [line];
    const left = leave(line, finding, estimate.findings);
    return left.findings.length === 0 && isUntouched(left) ? [] : [left];
  });
  const missing = operations.filter(
    (operation) => !kept.some((line) => line.kind === 'operation' && line.operation === operation && line.findings.includes(finding.id)),
  );
  return answer(finding, missing, kept);
}

function leave(line: OperationLine, finding: Finding, all: readonly Finding[]): OperationLine {
  const findings = line.findings.filter((id) => id !== finding.id);
  const stillAsked = all.some((other) => findings.includes(other.id) && other.position === finding.position);
  const positions = stillAsked ? line.positions : line.positions.filter((position) => position !== finding.position);
  return { ...line, findings, positions };
}
