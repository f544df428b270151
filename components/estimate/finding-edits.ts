import type { Evidence, Finding, Urgency } from '../../src/documents/estimate.js';
import { chooseRemedy } from '../../src/findings/choose-remedy.js';
import { freeId } from '../../src/findings/new-line.js';
import { answeredFindings, propose, remedyFor } from '../../src/findings/propose-lines.js';
import { rowOf } from '../../src/store/commands.js';
import type { SheetEdit } from '../grid/sheet.js';
import type { Gesture } from './context.js';
import { type Outcome, type Reference } from './context.js';
import { foundChoices } from './finding-choices.js';
import { type FindingColumn, SPARE_FINDING } from './finding-columns.js';
import { waysFor } from './remedies.js';
import { sameWords } from './search.js';

const URGENCIES: readonly Urgency[] = ['unsafe', 'now', 'soon', 'watch'];

/** What the edits of one gesture in the findings grid come to; lines are proposed for findings that they complete. */
export function editFindings(edits: readonly SheetEdit[], gesture: Gesture, reference: Reference): void {
  const created = new Map<string, string>();
  for (const edit of edits) {
    const id = findingOf(edit, gesture, created);
    if (id === null) continue;
    const before = findingById(id, gesture);
    gesture.enter(
      rowOf('findings', id),
      edit.column,
      edit.text,
      enterFinding(edit.column as FindingColumn, edit.text.trim(), before, gesture, reference),
    );
    followUp(before, findingById(id, gesture), gesture, reference);
  }
}

/** The finding that an edit is about; an entry in an empty row makes one. */
function findingOf(edit: SheetEdit, gesture: Gesture, created: Map<string, string>): string | null {
  if (edit.row !== null && edit.row !== SPARE_FINDING) return edit.row.slice('findings:'.length);
  const place = edit.row ?? `extra ${edit.extra}`;
  const known = created.get(place);
  if (known !== undefined) return known;
  if (edit.text.trim() === '') return null;
  if (gesture.state.estimate.rounds.length === 0) gesture.run({ do: 'set-rounds', rounds: [{ n: 1, method: '', clean: false, note: '' }] });
  const { findings, rounds } = gesture.state.estimate;
  const finding: Finding = {
    id: freeId('f', findings),
    round: rounds.at(-1)!.n,
    component: '',
    position: '',
    fault: '',
    seen: [],
    urgency: 'soon',
    text: '',
  };
  gesture.run({ do: 'insert', list: 'findings', entry: finding, before: null });
  created.set(place, finding.id);
  return finding.id;
}

function enterFinding(column: FindingColumn, text: string, finding: Finding, gesture: Gesture, reference: Reference): Outcome {
  const put = (changes: Partial<Finding>): Outcome => ({ commands: [{ do: 'put', list: 'findings', entry: { ...finding, ...changes } }] });
  switch (column) {
    case 'component':
      return put(readComponent(text, reference));
    case 'position':
      return put({ position: text });
    case 'fault':
      return put({ fault: text });
    case 'seen':
      return put({ seen: readSeen(text, finding.seen) });
    case 'urgency': {
      const urgency = URGENCIES.find((word) => text !== '' && word.startsWith(text.toLowerCase()));
      return urgency === undefined ? { reason: `"${text}" is not an urgency. Write unsafe, now, soon or watch.` } : put({ urgency });
    }
    case 'round':
      return enterRound(text, finding, gesture);
    case 'remedy':
      return enterRemedy(text, finding, gesture, reference);
    case 'text':
      return put({ text });
  }
}

/** "Heater hose · feed · seeps at the joint", the title of a component, or words of the person's own. */
function readComponent(text: string, { catalogue }: Reference): Partial<Finding> {
  const component = catalogue.catalogue.components.find(({ title, id }) => sameWords(title, text) || id === text);
  if (component !== undefined) return { component: component.id };
  const whole = foundChoices(catalogue.catalogue).find((choice) => sameWords(choice.text, text));
  if (whole === undefined) return { component: text };
  return { component: whole.component, fault: whole.fault, ...(whole.position === '' ? {} : { position: whole.position }) };
}

/**
 * Ways of seeing with semicolons between them; what is known of one (reading, note, photo) stays with it, with the first of
 * that name to the first, and evidence without a name stays too.
 */
function readSeen(text: string, seen: readonly Evidence[]): Evidence[] {
  const left = seen.filter((evidence) => evidence.how !== '');
  const named = text
    .split(';')
    .map((how) => how.trim())
    .filter((how) => how !== '')
    .map((how) => {
      const at = left.findIndex((evidence) => evidence.how === how);
      return at < 0 ? { how, note: '', reading: '', photo: '' } : left.splice(at, 1)[0]!;
    });
  return [...named, ...seen.filter((evidence) => evidence.how === '')];
}

function enterRound(text: string, finding: Finding, gesture: Gesture): Outcome {
  const n = /^[1-9]\d{0,3}$/.test(text) ? Number(text) : null;
  if (n === null) return { reason: `"${text}" is not a test round. Write its number: 1, 2, 3 …` };
  const { rounds } = gesture.state.estimate;
  const put = { do: 'put', list: 'findings', entry: { ...finding, round: n } } as const;
  if (rounds.some((round) => round.n === n)) return { commands: [put] };
  const more = [...rounds, { n, method: rounds.at(-1)?.method ?? '', clean: false, note: '' }].sort((a, b) => a.n - b.n);
  return { commands: [put, { do: 'set-rounds', rounds: more }] };
}

function enterRemedy(text: string, finding: Finding, gesture: Gesture, reference: Reference): Outcome {
  if (text === '') return { commands: [] };
  const way =
    waysFor(finding, reference.catalogue).find((known) => sameWords(known.text, text))?.operations ??
    reference.catalogue.catalogue.operations
      .filter((operation) => sameWords(operation.title, text) || operation.id === text)
      .map(({ id }) => id)
      .slice(0, 1);
  if (way.length === 0) return { reason: `The catalogue has no operation called "${text}". Choose one from the list.` };
  return { commands: [{ do: 'set-lines', lines: chooseRemedy(gesture.state.estimate, finding, way) }] };
}

/** What a changed finding means for the lines: a new remedy, or another position. */
function followUp(before: Finding, after: Finding, gesture: Gesture, { catalogue }: Reference): void {
  const { estimate } = gesture.state;
  if (before.component !== after.component || before.fault !== after.fault) {
    const remedy = remedyFor(after, catalogue.catalogue);
    if (remedy === null) return;
    const lines = answeredFindings(estimate.lines).has(after.id)
      ? chooseRemedy(estimate, before, remedy.operations)
      : propose(estimate, catalogue.catalogue, new Set([after.id])).lines;
    gesture.run({ do: 'set-lines', lines });
  } else if (before.position !== after.position) {
    movePosition(before, after, gesture);
  }
}

/** Lines that answer the finding follow it to its new position, unless another finding still needs the old one. */
function movePosition(before: Finding, after: Finding, gesture: Gesture): void {
  const { findings, lines } = gesture.state.estimate;
  for (const line of lines) {
    if (line.kind !== 'operation' || !line.findings.includes(after.id) || line.decision !== 'proposed') continue;
    const needed = findings.some(
      (other) => other.id !== after.id && line.findings.includes(other.id) && other.position === before.position,
    );
    const kept = needed ? line.positions : line.positions.filter((position) => position !== before.position);
    const positions = after.position === '' || kept.includes(after.position) ? kept : [...kept, after.position];
    gesture.run({ do: 'put', list: 'lines', entry: { ...line, positions } });
  }
}

function findingById(id: string, gesture: Gesture): Finding {
  return gesture.state.estimate.findings.find((finding) => finding.id === id)!;
}
