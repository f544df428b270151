import type { Line, OperationLine, PartOverride } from '../../src/documents/lines.js';
import type { Outcome, Reference } from './context.js';
import { readAmount, readQuantity } from './figures.js';
import { conditionOf, readKind } from './kinds.js';
import type { LineColumn, SubRow } from './line-columns.js';

/** An entry in a row below a line: what the line says differently about a part, its extra hours, its note. */
export function enterSubRow(
  { of, id }: { readonly of: SubRow; readonly id: string },
  column: LineColumn,
  text: string,
  line: Line,
  reference: Reference,
): Outcome {
  const put = (changes: Partial<OperationLine>): Outcome => ({
    commands: [{ do: 'put', list: 'lines', entry: { ...line, ...changes } as Line }],
  });
  if (of === 'note') return column === 'work' ? put({ note: text }) : { commands: [] };
  if (line.kind !== 'operation') return { commands: [] };
  if (of === 'part') return enterPart(id, column, text, line, reference);
  if (of !== 'extra' || line.extraHours === null) return { commands: [] };
  const { extraHours } = line;
  if (column === 'work') return put({ extraHours: { ...extraHours, reason: text } });
  if (column !== 'book') return { commands: [] };
  return readAmount(text, reference, null, (hours) => put({ extraHours: hours === null ? null : { ...extraHours, hours } }));
}

function enterPart(part: string, column: LineColumn, text: string, line: OperationLine, reference: Reference): Outcome {
  const put = (changes: Partial<PartOverride>): Outcome => ({
    commands: [{ do: 'put', list: 'lines', entry: withPart(line, part, changes) }],
  });
  switch (column) {
    case 'qty':
      return readQuantity(text, reference, null, (qty) => put({ qty, omit: false }));
    case 'cost':
      return readAmount(text, reference, null, (cost) => put({ cost }));
    case 'unit':
      return readAmount(text, reference, null, (unitPrice) => put({ unitPrice }));
    case 'kind': {
      if (text === '') return put({ condition: null });
      const condition = conditionOf(readKind(text) ?? 'note');
      return condition === null
        ? { reason: `"${text}" is not a condition. Write new part, used part, rebuilt part or reconditioned part.` }
        : put({ condition });
    }
    default:
      return { commands: [] };
  }
}

/** The line with something said differently about one part; what says nothing any more goes. */
export function withPart(line: OperationLine, part: string, changes: Partial<PartOverride>): OperationLine {
  const before = line.parts.find((override) => override.part === part);
  const after = { ...(before ?? { part, qty: null, unitPrice: null, cost: null, condition: null, omit: false }), ...changes };
  const saysNothing = after.qty === null && after.unitPrice === null && after.cost === null && after.condition === null && !after.omit;
  const others = line.parts.filter((override) => override.part !== part);
  if (saysNothing) return { ...line, parts: others };
  if (before === undefined) return { ...line, parts: [...line.parts, after] };
  return { ...line, parts: line.parts.map((override) => (override === before ? after : override)) };
}
