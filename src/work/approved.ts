import type { Estimate } from '../documents/estimate.js';
import type { Line, OperationLine } from '../documents/lines.js';
import type { Problem } from '../documents/problem.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import { type Documents, prepare } from '../pricing/documents.js';
import type { PricedEstimate } from '../pricing/priced-estimate.js';
import { Pricer } from '../pricing/pricer.js';

/** What the workshop's papers are made from. */
export interface ApprovedWork {
  readonly estimate: Estimate;
  readonly index: CatalogueIndex;
  /** The estimate with exactly its approved lines priced: each step and its parts go with a line that is really done. */
  readonly priced: PricedEstimate;
}

/** The ids of the lines that the customer has approved. */
export function approvedIds(estimate: Estimate): Set<string> {
  return new Set(estimate.lines.filter((line) => line.decision === 'approved').map((line) => line.id));
}

/** Checks the documents and prices what is approved; the problems where a document cannot be used. */
export function readApproved(documents: Documents): { ok: true; work: ApprovedWork } | { ok: false; problems: readonly Problem[] } {
  const read = prepare(documents);
  if (!read.ok) return read;
  const { estimate, index, rates } = read.prepared;
  const priced = new Pricer(index, rates).price(estimate, approvedIds(estimate));
  return { ok: true, work: { estimate, index, priced } };
}

/** The title of a line as people say it: with the positions that it is for. */
export function lineWords(line: Line, index: CatalogueIndex): string {
  if (line.kind === 'note') return line.text;
  if (line.kind !== 'operation') return line.title;
  return atPositions(operationTitle(line, index), line.positions);
}

export function operationTitle(line: OperationLine, index: CatalogueIndex): string {
  return index.operations.get(line.operation)?.title ?? line.operation;
}

/** "Replace a heater hose (feed, return)". */
export function atPositions(title: string, positions: readonly string[]): string {
  return positions.length === 0 ? title : `${title} (${positions.join(', ')})`;
}
