import type { Estimate } from '../documents/estimate.js';
import type { OperationLine } from '../documents/lines.js';
import { limitsText } from '../findings/judge-reading.js';
import { findingName } from '../findings/round-words.js';
import { decimal } from '../number/decimal.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import { type ApprovedWork, operationTitle } from './approved.js';
import { type SheetPart, type SheetParts, together } from './sheet-parts.js';
import type { Unit } from './units.js';
import type { WorkEntry } from './work-sheet.js';

/** An approved operation that is part of another one. */
export interface IncludedWork {
  readonly line: string;
  readonly operation: string;
  readonly title: string;
  readonly positions: readonly string[];
  readonly findings: readonly string[];
  readonly parts: readonly SheetPart[];
}

/** By line: the approved operations that it includes. */
export function includedWork({ estimate, index, priced }: ApprovedWork, parts: SheetParts): Map<string, IncludedWork[]> {
  const included = new Map<string, IncludedWork[]>();
  for (const { id, includedIn } of priced.lines) {
    const line = estimate.lines.find((each) => each.id === id);
    if (includedIn === null || line?.kind !== 'operation') continue;
    const told = {
      line: id,
      operation: line.operation,
      title: operationTitle(line, index),
      positions: line.positions,
      findings: findingsOf(line, () => true, estimate, index),
      parts: parts.ofIncluded(id),
    };
    included.set(includedIn, [...(included.get(includedIn) ?? []), told]);
  }
  return included;
}

/** What the sheet says of units of one line, and the ids of the cautions that come before them. */
export function workTold(
  units: readonly Unit[],
  { estimate, index, priced }: ApprovedWork,
  parts: SheetParts,
  included: ReadonlyMap<string, readonly IncludedWork[]>,
): { entry: Omit<WorkEntry, 'kind' | 'n' | 'depth' | 'cautions'>; cautions: string[] } {
  const { line, operation } = units[0]!;
  const first = units.some((unit) => unit.first);
  const positions = units.flatMap((unit) => unit.positions);
  const elsewhere = line.positions.filter((position) => !positions.includes(position));
  const includes = first ? (included.get(line.id) ?? []) : [];
  const method = (index.catalogue.methods ?? []).filter(({ closing }) => closing === operation.id);
  const used = method.find(({ id }) => estimate.rounds.some((round) => round.methodId === id)) ?? method[0];
  const extra = line.extraHours;
  return {
    entry: {
      line: line.id,
      title: operation.title,
      positions,
      findings: findingsOf(line, (at) => positions.includes(at) || (first && !elsewhere.includes(at)), estimate, index),
      extraHours: first && extra !== null && !decimal(extra.hours).isZero() ? extra : null,
      parts: together(units.flatMap((unit) => parts.of(unit))),
      includes,
      overlaps: overlapping(
        line,
        priced.lines.filter((other) => other.priced).map((other) => other.id),
        estimate,
        index,
      ),
      limits: used === undefined ? '' : limitsText(used),
      closingTest: used !== undefined,
      note: first ? line.note : '',
    },
    cautions: [
      ...(used?.cautions ?? []),
      ...operation.cautions,
      // What an included operation would have been opened for is done within this one.
      ...includes.flatMap((inner) => [
        ...index.operations.get(inner.operation)!.cautions,
        ...index.stepsOf.get(inner.operation)!.flatMap(({ step }) => step.cautions),
      ]),
    ],
  };
}

function findingsOf(line: OperationLine, at: (position: string) => boolean, estimate: Estimate, index: CatalogueIndex): string[] {
  return estimate.findings
    .filter((finding) => line.findings.includes(finding.id) && at(finding.position))
    .map((finding) => findingName(finding, index.catalogue));
}

function overlapping(line: OperationLine, priced: readonly string[], estimate: Estimate, index: CatalogueIndex): string[] {
  const declared = index.overlaps.get(line.operation);
  if (declared === undefined) return [];
  const others = estimate.lines.filter((other) => other.kind === 'operation' && priced.includes(other.id) && declared.has(other.operation));
  return [...new Set(others.map((other) => operationTitle(other as OperationLine, index)))];
}
