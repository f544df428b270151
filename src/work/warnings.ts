import type { Estimate } from '../documents/estimate.js';
import { type Problem, warning } from '../documents/problem.js';
import { closingTests } from '../findings/closing-tests.js';
import { whyIncomplete } from '../findings/round-words.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import type { PricedEstimate } from '../pricing/priced-estimate.js';
import { lineWords } from './approved.js';

/** Of a long list the beginning is enough: the sheet shows them all. */
const MOST_NAMED = 4;

/** Why one trip may not be enough yet. */
export function tripWarnings(estimate: Estimate, index: CatalogueIndex, priced: PricedEstimate): Problem[] {
  return [
    ...moreMayBeFound(estimate, 'Test again before parts are ordered.'),
    ...undecided(estimate, index, 'What is undecided is not on this list.'),
    ...unclear(estimate, index, priced, 'Its parts are missing here.'),
  ];
}

/** What the technician should know before the work is begun. */
export function workWarnings(estimate: Estimate, index: CatalogueIndex, priced: PricedEstimate): Problem[] {
  return [
    ...moreMayBeFound(estimate, 'Tell the advisor of whatever shows while it is open.'),
    ...undecided(estimate, index, 'What is undecided is not on this sheet.'),
    ...unclear(estimate, index, priced, 'Ask before it is begun.'),
    ...unproved(estimate, index),
  ];
}

/** A large fault hides a small one. An estimate without findings and rounds is of no test, so nothing is said of one. */
function moreMayBeFound(estimate: Estimate, hint: string): Problem[] {
  if (estimate.rounds.length === 0 && estimate.findings.length === 0) return [];
  const why = whyIncomplete(estimate);
  return why === '' ? [] : [warning('more-may-be-found', 'rounds', why, hint)];
}

function undecided(estimate: Estimate, index: CatalogueIndex, hint: string): Problem[] {
  const open = estimate.lines.filter((line) => line.decision === 'proposed' && line.kind !== 'note' && line.kind !== 'fee');
  if (open.length === 0) return [];
  const count = open.length === 1 ? '1 line is' : `${open.length} lines are`;
  const named = open.slice(0, MOST_NAMED).map((line) => lineWords(line, index));
  const rest = open.length > MOST_NAMED ? [`${open.length - MOST_NAMED} more`] : [];
  return [warning('undecided', 'lines', `${count} not decided yet: ${[...named, ...rest].join('; ')}.`, hint)];
}

/** A closing test that the approved work wants and that is not approved itself. */
function unproved(estimate: Estimate, index: CatalogueIndex): Problem[] {
  const approved = estimate.lines.filter((line) => line.decision === 'approved');
  return closingTests(estimate, approved, index.catalogue)
    .filter(({ line, needed, unwanted }) => line === null && needed && !unwanted)
    .map(({ operation }) => {
      const title = index.operations.get(operation)?.title ?? operation;
      return warning('no-closing-test', 'lines', `“${title}” is not among the approved work.`, 'Without it nothing proves the repair.');
    });
}

/** Approved lines that a fault keeps from being worked out. */
function unclear(estimate: Estimate, index: CatalogueIndex, priced: PricedEstimate, hint: string): Problem[] {
  const unpriced = new Set(priced.lines.filter((line) => !line.priced && line.kind !== 'note').map((line) => line.id));
  return estimate.lines.flatMap((line, i) =>
    line.decision === 'approved' && unpriced.has(line.id)
      ? [warning('unclear-line', `lines[${i}]`, `“${lineWords(line, index)}” cannot be worked out as it stands.`, hint)]
      : [],
  );
}
