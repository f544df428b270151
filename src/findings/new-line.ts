import type { Line, OperationLine } from '../documents/lines.js';

/** An id that no entry has yet: the prefix and the next number. */
export function freeId(prefix: string, taken: readonly { readonly id: string }[]): string {
  const ids = new Set(taken.map((entry) => entry.id));
  let n = taken.length + 1;
  while (ids.has(`${prefix}${n}`)) n += 1;
  return `${prefix}${n}`;
}

/** A new line for an operation, with nothing said differently from the catalogue. */
export function operationLine(operation: string, lines: readonly Line[]): OperationLine {
  return {
    id: freeId('l', lines),
    kind: 'operation',
    operation,
    positions: [],
    findings: [],
    labourClass: null,
    bookHours: null,
    extraHours: null,
    parts: [],
    taxes: null,
    decision: 'proposed',
    note: '',
  };
}

/** Whether a line says nothing but its operation, where, and what it puts right: nobody's work is lost with it. */
export function isUntouched(line: OperationLine): boolean {
  return (
    line.labourClass === null &&
    line.bookHours === null &&
    line.extraHours === null &&
    line.taxes === null &&
    line.parts.length === 0 &&
    line.note === '' &&
    line.decision === 'proposed'
  );
}
