import type { Finding } from '../../src/documents/estimate.js';
import type { Decision, Line } from '../../src/documents/lines.js';
import { chooseRemedy } from '../../src/findings/choose-remedy.js';
import { withoutClosing } from '../../src/findings/closing-tests.js';
import { propose } from '../../src/findings/propose-lines.js';
import type { Command, ListName } from '../../src/store/commands.js';
import type { SheetAction, SheetSelection } from '../grid/sheet.js';
import type { SheetView } from './context.js';
import { readRow } from './line-columns.js';
import { waysFor } from './remedies.js';
import { withPart } from './sub-row-edits.js';

/** An entry of a row menu, with what it does. Empty commands mean that it cannot be done now. */
export interface RowAction extends SheetAction {
  /** What it is called among the steps of undo. */
  readonly label: string;
  readonly commands: readonly Command[];
  /** The finding whose evidence it opens, instead of changing anything. */
  readonly evidence?: string;
}

/** What can be done with the selected rows of the lines grid. */
export function lineActions(selection: SheetSelection, view: SheetView): RowAction[] {
  const { estimate } = view.state;
  const rows = selection.rows.map(readRow);
  const ids = [...new Set(rows.flatMap((row) => ('line' in row ? [row.line] : [])))];
  const lines = estimate.lines.filter((line) => ids.includes(line.id));
  const discounts = rows.flatMap((row) => (row.of === 'discount' ? [row.discount] : []));
  const active = readRow(selection.row);
  const line = 'line' in active ? estimate.lines.find(({ id }) => id === active.line) : undefined;

  const actions: RowAction[] = [...partActions(active, line), ...extraActions(line), ...decisionActions(lines)];
  if (lines.length > 0) actions.push(...moveActions('lines', estimate.lines, ids));
  const removed: Command[] = [];
  if (ids.length > 0) {
    removed.push({ do: 'remove', list: 'lines', ids });
    const rounds = withoutClosing(estimate, new Set(ids), view.catalogue.catalogue);
    if (rounds !== estimate.rounds) removed.push({ do: 'set-rounds', rounds });
  }
  if (discounts.length > 0) removed.push({ do: 'remove', list: 'discounts', ids: discounts });
  const count = ids.length + discounts.length;
  if (count > 0) actions.push(action('remove', count === 1 ? 'Remove the line' : `Remove ${count} lines`, removed));
  return actions;
}

/** What can be done with the selected rows of the findings grid. */
export function findingActions(selection: SheetSelection, view: SheetView): RowAction[] {
  const { estimate } = view.state;
  const ids = selection.rows.filter((row) => !row.endsWith('+')).map((row) => row.slice('findings:'.length));
  const findings = estimate.findings.filter(({ id }) => ids.includes(id));
  if (findings.length === 0) return [];
  const actions: RowAction[] = [];
  if (findings.length === 1) actions.push(...wayActions(findings[0]!, view));
  const proposed = propose(estimate, view.catalogue.catalogue, new Set(ids)).lines;
  if (proposed !== estimate.lines) actions.push(action('propose', 'Propose lines', [{ do: 'set-lines', lines: proposed }]));
  if (findings.length === 1) actions.push({ ...action('evidence', 'Evidence and photos …', []), evidence: ids[0]! });
  actions.push(...moveActions('findings', estimate.findings, ids));
  const title = ids.length === 1 ? 'Remove the finding' : `Remove ${ids.length} findings`;
  actions.push(action('remove', title, [{ do: 'remove', list: 'findings', ids }]));
  return actions;
}

function wayActions(finding: Finding, view: SheetView): RowAction[] {
  const answering = view.state.estimate.lines.flatMap((line) =>
    line.kind === 'operation' && line.findings.includes(finding.id) ? [line.operation] : [],
  );
  const ways = waysFor(finding, view.catalogue).filter((way) => way.operations.join() !== answering.join());
  if (answering.length === 0) return [];
  return ways.map((way, i) =>
    action(`way ${i}`, `Instead: ${way.text}`, [{ do: 'set-lines', lines: chooseRemedy(view.state.estimate, finding, way.operations) }]),
  );
}

function partActions(row: ReturnType<typeof readRow>, line: Line | undefined): RowAction[] {
  if (row.of !== 'part' || line?.kind !== 'operation') return [];
  const omitted = line.parts.some((part) => part.part === row.id && part.omit);
  const entry = withPart(line, row.id, omitted ? { omit: false } : { omit: true });
  return [action('omit', omitted ? 'Take the part in again' : 'Leave the part out', [{ do: 'put', list: 'lines', entry }])];
}

function extraActions(line: Line | undefined): RowAction[] {
  if (line === undefined) return [];
  const put = (changes: object): Command => ({ do: 'put', list: 'lines', entry: { ...line, ...changes } as Line });
  const actions: RowAction[] = [];
  if (line.kind === 'operation' && line.extraHours === null) {
    actions.push(action('extra', 'Add extra hours', [put({ extraHours: { hours: '0.5', reason: 'Seized fasteners' } })]));
  }
  if (line.note === '' && line.kind !== 'note') actions.push(action('note', 'Add a note', [put({ note: 'Note' })]));
  return actions;
}

const DECISION_ACTIONS: readonly (readonly [Decision, string])[] = [
  ['approved', 'Approve'],
  ['declined', 'Decline'],
  ['deferred', 'Defer'],
  ['proposed', 'Back to proposed'],
];

function decisionActions(lines: readonly Line[]): RowAction[] {
  const deciding = lines.filter((line) => line.kind !== 'note');
  if (deciding.length === 0) return [];
  return DECISION_ACTIONS.filter(([decision]) => deciding.some((line) => line.decision !== decision)).map(([decision, title]) =>
    action(
      decision,
      title,
      deciding.map((line): Command => ({ do: 'put', list: 'lines', entry: { ...line, decision } })),
    ),
  );
}

/** One place up or down, together. */
function moveActions(list: ListName, entries: readonly { readonly id: string }[], ids: readonly string[]): RowAction[] {
  const places = entries.flatMap(({ id }, i) => (ids.includes(id) ? [i] : []));
  const above = entries[places[0]! - 1];
  const below = entries[places.at(-1)! + 1];
  const after = entries[places.at(-1)! + 2];
  return [
    { ...action('up', 'Move up', above === undefined ? [] : [{ do: 'move', list, ids, before: above.id }]), disabled: above === undefined },
    {
      ...action('down', 'Move down', below === undefined ? [] : [{ do: 'move', list, ids, before: after?.id ?? null }]),
      disabled: below === undefined,
    },
  ];
}

function action(id: string, title: string, commands: readonly Command[]): RowAction {
  return { id, title, label: title.toLowerCase(), commands };
}
