import type { Line, OperationLine } from '../../src/documents/lines.js';
import { freeId, operationLine } from '../../src/findings/new-line.js';
import { rowOf } from '../../src/store/commands.js';
import type { SheetEdit } from '../grid/sheet.js';
import type { Gesture, Outcome, Reference } from './context.js';
import { enterDiscount, newDiscount } from './discount-edits.js';
import { readAmount, readQuantity } from './figures.js';
import { asKind, conditionOf, ownTitle, readKind } from './kinds.js';
import { type LineColumn, readRow, SPARE_LINE } from './line-columns.js';
import { sameWords } from './search.js';
import { enterSubRow } from './sub-row-edits.js';

/** What the edits of one gesture in the lines grid come to. */
export function editLines(edits: readonly SheetEdit[], gesture: Gesture, reference: Reference): void {
  for (const group of byNewRow(edits)) {
    const created = group.isNew ? newEntry(group.edits, gesture, reference) : null;
    for (const edit of group.edits) {
      const row = created ?? edit.row!;
      if (group.isNew && (created === null || edit.column === 'kind' || edit.column === 'work')) continue;
      const text = edit.text.trim();
      const outcome = enterLine(row, edit.column as LineColumn, text, gesture, reference);
      gesture.enter(row, edit.column, edit.text, outcome);
    }
  }
}

interface Group {
  readonly isNew: boolean;
  readonly edits: SheetEdit[];
}

/** Entries in rows that do not exist yet belong together: they decide what is made. */
function byNewRow(edits: readonly SheetEdit[]): Group[] {
  const groups = new Map<string, Group>();
  edits.forEach((edit, i) => {
    const isNew = edit.row === null || edit.row === SPARE_LINE;
    const key = isNew ? `new ${edit.row ?? edit.extra}` : `there ${i}`;
    const group = groups.get(key) ?? { isNew, edits: [] };
    group.edits.push(edit);
    groups.set(key, group);
  });
  return [...groups.values()];
}

/**
 * Makes the line (or discount) that the entries of an empty row describe, and gives its row; null where they say
 * nothing. Words that name an operation make an operation line; else the figures tell a part from labour; words alone
 * make a note, so that nothing typed is lost.
 */
function newEntry(edits: readonly SheetEdit[], gesture: Gesture, reference: Reference): string | null {
  const typed = (column: LineColumn): string => edits.find((edit) => edit.column === column)?.text.trim() ?? '';
  if (edits.every((edit) => edit.text.trim() === '')) return null;
  const work = typed('work');
  const kind = readKind(typed('kind'));
  if (kind === 'discount') return newDiscount(work, gesture);

  const { lines } = gesture.state.estimate;
  const operation = kind === null || kind === 'operation' ? operationCalled(work, reference) : undefined;
  const hasPrice = [typed('qty'), typed('cost'), typed('unit')].some((text) => text !== '');
  const guessed = hasPrice ? 'new part' : typed('book') === '' ? 'note' : 'labour';
  const blank: Line = { id: freeId('l', lines), kind: 'note', text: work, taxes: null, decision: 'proposed', note: '' };
  const line = operation !== undefined ? operationLine(operation, lines) : (asKind(blank, kind ?? guessed, work, reference.rates) ?? blank);
  gesture.run({ do: 'insert', list: 'lines', entry: line, before: null });

  const row = rowOf('lines', line.id);
  if (kind === 'operation' && operation === undefined) gesture.enter(row, 'kind', typed('kind'), { reason: noOperation(work) });
  if (kind === null && typed('kind') !== '') gesture.enter(row, 'kind', typed('kind'), { reason: notAKind(typed('kind')) });
  return row;
}

function enterLine(row: string, column: LineColumn, text: string, gesture: Gesture, reference: Reference): Outcome {
  const place = readRow(row);
  if (place.of === 'spare') return { commands: [] };
  if (place.of === 'discount') {
    const discount = gesture.state.estimate.discounts.find(({ id }) => id === place.discount);
    return discount === undefined ? { commands: [] } : enterDiscount(column, text, discount, reference);
  }
  const line = gesture.state.estimate.lines.find(({ id }) => id === place.line);
  if (line === undefined) return { commands: [] };
  if (place.of !== 'line')
    return line.kind === 'operation' || place.of === 'note' ? enterSubRow(place, column, text, line, reference) : { commands: [] };
  return enterMain(column, text, line, reference);
}

function enterMain(column: LineColumn, text: string, line: Line, reference: Reference): Outcome {
  const put = (changes: Partial<Line>): Outcome => ({ commands: [{ do: 'put', list: 'lines', entry: { ...line, ...changes } as Line }] });
  switch (column) {
    case 'work':
      return enterWork(text, line, reference);
    case 'kind':
      return enterKind(text, line, reference);
    case 'where':
      if (line.kind === 'part') return put({ number: text });
      return line.kind === 'operation'
        ? put({
            positions: [
              ...new Set(
                text
                  .split(',')
                  .map((position) => position.trim())
                  .filter((position) => position !== ''),
              ),
            ],
          })
        : { commands: [] };
    case 'book':
      if (line.kind === 'operation') return readAmount(text, reference, null, (bookHours) => put({ bookHours }));
      return line.kind === 'labour' ? readAmount(text, reference, '0', (hours) => put({ hours: hours! })) : { commands: [] };
    case 'rate':
      return enterClass(text, line, reference, put);
    case 'qty':
      return line.kind === 'part' ? readQuantity(text, reference, '1', (qty) => put({ qty: qty! })) : { commands: [] };
    case 'cost':
      return line.kind === 'part' || line.kind === 'sublet'
        ? readAmount(text, reference, '0', (cost) => put({ cost: cost! }))
        : { commands: [] };
    case 'unit':
      if (line.kind === 'part') return readAmount(text, reference, null, (unitPrice) => put({ unitPrice }));
      if (line.kind === 'sublet') return readAmount(text, reference, null, (price) => put({ price }));
      return line.kind === 'fee' ? readQuantity(text, reference, '0', (amount) => put({ amount: amount! })) : { commands: [] };
    case 'tax':
      return enterTaxes(text, reference, put);
    case 'decision':
      return enterDecision(text, put);
    default:
      return { commands: [] };
  }
}

function enterWork(text: string, line: Line, reference: Reference): Outcome {
  if (line.kind !== 'operation') {
    const changed = line.kind === 'note' ? { ...line, text } : { ...line, title: text };
    return { commands: [{ do: 'put', list: 'lines', entry: changed }] };
  }
  const operation = operationCalled(text, reference);
  if (operation === undefined) return { reason: noOperation(text) };
  if (operation === line.operation) return { commands: [] };
  // Hours and parts that were typed belong to the operation that was there before.
  const changed: OperationLine = { ...line, operation, bookHours: null, labourClass: null, parts: [] };
  return { commands: [{ do: 'put', list: 'lines', entry: changed }] };
}

function enterKind(text: string, line: Line, reference: Reference): Outcome {
  const word = readKind(text);
  if (word === null) return text === '' ? { commands: [] } : { reason: notAKind(text) };
  const title = ownTitle(
    line,
    line.kind === 'operation' ? (reference.catalogue.operations.get(line.operation)?.title ?? line.operation) : '',
  );
  if (word === 'discount') return { reason: 'A line cannot become a discount. Add the discount in the last row.' };
  if (word === 'operation') {
    if (line.kind === 'operation') return { commands: [] };
    const operation = operationCalled(title, reference);
    if (operation === undefined) return { reason: noOperation(title) };
    const { id, taxes, decision, note } = line;
    return { commands: [{ do: 'put', list: 'lines', entry: { ...operationLine(operation, []), id, taxes, decision, note } }] };
  }
  if (line.kind === 'part' && conditionOf(word) !== null) {
    return { commands: [{ do: 'put', list: 'lines', entry: { ...line, condition: conditionOf(word)! } }] };
  }
  if (word === line.kind) return { commands: [] };
  return { commands: [{ do: 'put', list: 'lines', entry: asKind(line, word, title, reference.rates)! }] };
}

function enterClass(text: string, line: Line, { rates }: Reference, put: (changes: Partial<Line>) => Outcome): Outcome {
  if (line.kind !== 'operation' && line.kind !== 'labour') return { commands: [] };
  if (text === '' && line.kind === 'operation') return put({ labourClass: null });
  const found = rates.rates.labourClasses.find(({ id, title }) => id === text || sameWords(title, text));
  if (found === undefined) {
    const titles = rates.rates.labourClasses.map(({ id, title }) => title || id).join(', ');
    return { reason: `The rate card has no labour class "${text}". Choose one of: ${titles}.` };
  }
  return put({ labourClass: found.id });
}

function enterTaxes(text: string, { rates }: Reference, put: (changes: Partial<Line>) => Outcome): Outcome {
  if (text === '') return put({ taxes: null });
  if (text.toLowerCase() === 'none') return put({ taxes: [] });
  const asked = text
    .split(',')
    .map((tax) => tax.trim())
    .filter((tax) => tax !== '');
  const found = asked.map((tax) => rates.rates.taxes.find(({ id, title }) => id === tax || sameWords(title, tax)));
  const missing = found.indexOf(undefined);
  if (missing >= 0) {
    const all = rates.rates.taxes.map(({ id }) => id).join(', ');
    return { reason: `The rate card has no tax "${asked[missing]}". Write ${all === '' ? 'none' : `one or more of: ${all}; or none`}.` };
  }
  return put({ taxes: [...new Set(found.map((tax) => tax!.id))] });
}

const DECISIONS = ['proposed', 'approved', 'declined', 'deferred'] as const;

function enterDecision(text: string, put: (changes: Partial<Line>) => Outcome): Outcome {
  if (text === '') return put({ decision: 'proposed' });
  const found = DECISIONS.filter((decision) => decision.startsWith(text.toLowerCase()));
  if (found.length === 1) return put({ decision: found[0]! });
  return { reason: `"${text}" is not a decision. Write proposed, approved, declined or deferred.` };
}

function operationCalled(text: string, { catalogue }: Reference): string | undefined {
  if (catalogue.operations.has(text)) return text;
  return catalogue.catalogue.operations.find(({ title }) => sameWords(title, text))?.id;
}

function noOperation(text: string): string {
  return text === ''
    ? 'An operation line needs its operation. Choose one from the list, or remove the line.'
    : `The catalogue has no operation called "${text}". Choose one from the list, or make this a labour line.`;
}

function notAKind(text: string): string {
  return `"${text}" is not a kind of line. Write operation, labour, new part, used part, sublet, fee, note or discount.`;
}
