import type { Finding } from '../../src/documents/estimate.js';
import type { Line, OperationLine } from '../../src/documents/lines.js';
import type { Unanswered } from '../../src/findings/propose-lines.js';
import { cameToLight } from '../../src/findings/round-words.js';
import { rowOf } from '../../src/store/commands.js';
import type { SheetCell, SheetRow } from '../grid/sheet.js';
import { entered, type SheetView, shown } from './context.js';
import { type FindingColumn, SPARE_FINDING } from './finding-columns.js';
import { waysFor, wayText } from './remedies.js';

const WHY_UNANSWERED: Readonly<Record<Unanswered['reason'], string>> = {
  incomplete: 'Unanswered: say which component, and what is wrong with it.',
  'no-remedy': 'Unanswered: the catalogue has no remedy for this. Choose an operation here, or add a line of your own.',
  'not-proposed': 'Unanswered: no line puts this right yet. Press “Propose lines”, or choose an operation here.',
};

/** The findings grid: one row for each finding, and a spare one. */
export function findingRows(view: SheetView): SheetRow[] {
  const unanswered = new Map(view.proposal.unanswered.map((entry) => [entry.finding, entry.reason]));
  const answers = answersByFinding(view.state.estimate.lines);
  const rows = view.state.estimate.findings.map((finding) =>
    findingRow(finding, view, answers.get(finding.id) ?? [], unanswered.get(finding.id)),
  );
  return [...rows, spareRow(view)];
}

function findingRow(
  finding: Finding,
  view: SheetView,
  answers: readonly OperationLine[],
  unanswered: Unanswered['reason'] | undefined,
): SheetRow {
  const row = rowOf('findings', finding.id);
  const cell = (column: FindingColumn, value: SheetCell): SheetCell => entered(view, row, column, value);
  const readings = finding.seen.flatMap((evidence) =>
    [evidence.reading, evidence.note, evidence.photo === '' ? '' : 'photo'].filter((text) => text !== ''),
  );
  const light = cameToLight(finding, view.state.estimate, view.catalogue.catalogue);
  const codes = finding.codes === undefined ? {} : { note: `Explains ${finding.codes.join(', ')}` };
  return {
    id: row,
    label: `Finding: ${[componentTitle(finding, view), finding.position, finding.fault].filter((text) => text !== '').join(', ')}`,
    level: 'main',
    cells: {
      component: cell('component', { text: componentTitle(finding, view), editor: 'choice' }),
      position: cell('position', { text: finding.position, editor: 'choice' }),
      fault: cell('fault', { text: finding.fault, editor: 'choice', ...codes }),
      seen: cell('seen', {
        text: finding.seen
          .map((evidence) => evidence.how)
          .filter((how) => how !== '')
          .join('; '),
        editor: 'choice',
        ...(readings.length === 0 ? {} : { note: readings.join('; ') }),
      }),
      urgency: cell('urgency', { text: finding.urgency, editor: 'choice', ...(finding.urgency === 'unsafe' ? { marks: ['strong'] } : {}) }),
      round: cell('round', { text: String(finding.round), editor: 'text', ...(light === null ? {} : { note: light }) }),
      remedy: cell('remedy', remedyCell(finding, view, answers, unanswered)),
      text: cell('text', { text: finding.text, editor: 'text' }),
    },
  };
}

/** A finding whose component is not in the catalogue holds what was typed instead. */
export function componentTitle(finding: Finding, view: Pick<SheetView, 'catalogue'>): string {
  return view.catalogue.catalogue.components.find((component) => component.id === finding.component)?.title ?? finding.component;
}

function remedyCell(
  finding: Finding,
  view: SheetView,
  answers: readonly OperationLine[],
  unanswered: Unanswered['reason'] | undefined,
): SheetCell {
  if (unanswered !== undefined) {
    return { text: 'unanswered', edit: '', editor: 'choice', note: WHY_UNANSWERED[unanswered], marks: ['quiet'] };
  }
  const text = wayText(
    answers.map((line) => line.operation),
    view.catalogue,
  );
  const others = waysFor(finding, view.catalogue).filter((way) => way.text !== text);
  if (others.length === 0) return { text, editor: 'choice' };
  return {
    text: `${text} (or …)`,
    edit: text,
    editor: 'choice',
    note: `Instead: ${others.map((way) => way.text).join('; ')}. Open the list to choose.`,
  };
}

function spareRow(view: SheetView): SheetRow {
  const columns: readonly FindingColumn[] = ['position', 'fault', 'seen', 'urgency', 'round', 'text'];
  const empty = columns.map(
    (column) => [column, { text: '', editor: column === 'round' || column === 'text' ? 'text' : 'choice' }] as const,
  );
  const hint = view.state.estimate.findings.length === 0 ? 'Type what was found' : 'Next finding';
  return {
    id: SPARE_FINDING,
    label: 'New finding',
    level: 'spare',
    cells: { component: { text: hint, edit: '', editor: 'choice', marks: ['quiet'] }, ...Object.fromEntries(empty), remedy: shown('') },
  };
}

function answersByFinding(lines: readonly Line[]): Map<string, OperationLine[]> {
  const answers = new Map<string, OperationLine[]>();
  for (const line of lines) {
    if (line.kind !== 'operation') continue;
    for (const finding of line.findings) answers.set(finding, [...(answers.get(finding) ?? []), line]);
  }
  return answers;
}
