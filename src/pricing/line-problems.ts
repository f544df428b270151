import type { Operation } from '../documents/catalogue.js';
import type { OperationLine } from '../documents/lines.js';
import { error, type Problem, warning } from '../documents/problem.js';
import { decimal, printPlain } from '../number/decimal.js';
import type { Work } from '../overlap/work.js';
import type { Draft } from './draft.js';

/** What may be wrong between a line and the other documents, in words; paths begin inside the line. */

export function missingOperation(id: string): Problem {
  const message = `The catalogue has no operation "${id}".`;
  return error('unknown-operation', 'operation', message, 'Choose another operation, or add this one to the catalogue.');
}

export function missingFee(operation: Operation, fee: string): Problem {
  const message = `The operation "${operation.title}" asks for the fee "${fee}", which the rate card lacks.`;
  return error('unknown-fee', 'operation', message, 'Add the fee to the rate card.');
}

/** @param place of the override in the line */
export function missingPart(part: string, place: number): Problem {
  const message = `The catalogue has no part "${part}".`;
  return error('unknown-part', `parts[${place}].part`, message, 'Take it out here, or add the part to the catalogue.');
}

export function missingTax(id: string, place: number): Problem {
  return error('unknown-tax', `taxes[${place}]`, `The rate card has no tax "${id}".`, 'Name one of the taxes of the card.');
}

export function missingClass(id: string, path: string): Problem {
  return error(
    'unknown-labour-class',
    path,
    `The rate card has no labour class "${id}".`,
    'Choose another class, or add this one to the rate card.',
  );
}

export function belowSteps(operation: Operation, line: OperationLine): Problem {
  const message = `The book hours of "${operation.title}" (${line.bookHours}) are below the hours of its steps, which are charged instead.`;
  return warning('book-below-steps', 'bookHours', message, 'Raise the book hours, or ask for the steps to be corrected.');
}

export function withoutPosition(operation: Operation): Problem {
  const message = `"${operation.title}" is done for each position, and none is named: it is counted once.`;
  return warning('no-position', 'positions', message, 'Say where, for instance "left front".');
}

/** Faults that only show once the lines are seen together; paths begin inside the line. */
export function inclusionProblems(draft: Draft, outer: Work | null): Problem[] {
  const { work, line } = draft;
  if (work === null || outer === null || line.kind !== 'operation') return [];
  const problems: Problem[] = [];
  if (line.extraHours !== null && !decimal(line.extraHours.hours).isZero()) {
    const message = `"${draft.title}" is part of "${outer.operation.title}", so its ${printPlain(decimal(line.extraHours.hours))} extra hours are not charged.`;
    problems.push(warning('extra-hours-included', 'extraHours', message, 'Put the extra hours on the other line.'));
  }
  const elsewhere = work.positions.filter((position) => !outer.positions.includes(position));
  if (outer.operation.per === 'position' && elsewhere.length > 0) {
    const message = `"${draft.title}" counts as part of "${outer.operation.title}", which is not done at ${elsewhere.join(', ')}.`;
    problems.push(warning('included-elsewhere', 'positions', message, 'Add the position there, or price this work as a labour line.'));
  }
  return problems;
}
