import type { Line, OperationLine } from '../documents/lines.js';
import { error, type Problem, warning } from '../documents/problem.js';
import { type Decimal, decimal, printPlain, ZERO } from '../number/decimal.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import { type Work, workOf } from '../overlap/work.js';
import type { Charge } from './charge.js';
import { feeLineCharge } from './fees.js';
import { labourCharge } from './labour.js';
import { partLineCharges } from './parts.js';
import type { RateIndex } from './rate-index.js';
import { subletCharge } from './sublet.js';

/** What can be said of a line by itself, whatever the other lines are. */
export interface Draft {
  readonly line: Line;
  readonly title: string;
  /** Null unless the line is an operation that can be priced. */
  readonly work: Work | null;
  /** Of a line that is no operation. */
  readonly charges: readonly Charge[];
  readonly bookHours: Decimal;
  readonly rate: Decimal;
  /** Faults between this line and the other documents; paths begin inside the line. */
  readonly problems: readonly Problem[];
}

/** Reads one line against the catalogue and the rate card. */
export function draftLine(line: Line, index: CatalogueIndex, rates: RateIndex): Draft {
  const empty = { line, work: null, charges: [], bookHours: ZERO, rate: ZERO };
  const problems = taxProblems(line, rates);
  switch (line.kind) {
    case 'operation':
      return draftOperation(line, problems, index, rates);
    case 'labour': {
      const bookHours = decimal(line.hours);
      const rate = rates.classes.get(line.labourClass);
      if (rate === undefined) problems.push(missingClass(line.labourClass, 'labourClass'));
      const charges = labourCharge(line.id, line.title, bookHours, rate ?? ZERO, line.taxes, rates);
      return { ...empty, title: line.title, bookHours, rate: rate ?? ZERO, charges, problems };
    }
    case 'part':
      return { ...empty, title: line.title, charges: partLineCharges(line, rates), problems };
    case 'sublet':
      return { ...empty, title: line.title, charges: [subletCharge(line, rates)], problems };
    case 'fee':
      return { ...empty, title: line.title, charges: [feeLineCharge(line, rates)], problems };
    case 'note':
      return { ...empty, title: line.text, problems };
  }
}

function draftOperation(line: OperationLine, problems: Problem[], index: CatalogueIndex, rates: RateIndex): Draft {
  const operation = index.operations.get(line.operation);
  if (operation === undefined) {
    const message = `The catalogue has no operation "${line.operation}".`;
    problems.push(error('unknown-operation', 'operation', message, 'Choose another operation, or add this one to the catalogue.'));
    return { line, title: line.operation, work: null, charges: [], bookHours: ZERO, rate: ZERO, problems };
  }
  const labourClass = line.labourClass ?? operation.labourClass;
  const rate = rates.classes.get(labourClass);
  if (rate === undefined) problems.push(missingClass(labourClass, line.labourClass === null ? 'operation' : 'labourClass'));
  for (const fee of operation.fees) {
    if (rates.fees.has(fee)) continue;
    const message = `The operation "${operation.title}" asks for the fee "${fee}", which the rate card lacks.`;
    problems.push(error('unknown-fee', 'operation', message, 'Add the fee to the rate card.'));
  }
  line.parts.forEach((override, i) => {
    if (index.parts.has(override.part)) return;
    const message = `The catalogue has no part "${override.part}".`;
    problems.push(error('unknown-part', `parts[${i}].part`, message, 'Take it out here, or add the part to the catalogue.'));
  });

  const work = workOf(line, operation, rate ?? ZERO, index);
  if (work.belowSteps) {
    const message = `The book hours of "${operation.title}" (${line.bookHours}) are below the hours of its steps, which are charged instead.`;
    problems.push(warning('book-below-steps', 'bookHours', message, 'Raise the book hours, or ask for the steps to be corrected.'));
  }
  if (operation.per === 'position' && line.positions.length === 0) {
    const message = `"${operation.title}" is done for each position, and none is named: it is counted once.`;
    problems.push(warning('no-position', 'positions', message, 'Say where, for instance "left front".'));
  }
  return { line, title: operation.title, work, charges: [], bookHours: work.bookHours, rate: work.rate, problems };
}

function taxProblems(line: Line, rates: RateIndex): Problem[] {
  return (line.taxes ?? []).flatMap((id, i) =>
    rates.taxes.has(id)
      ? []
      : [error('unknown-tax', `taxes[${i}]`, `The rate card has no tax "${id}".`, 'Name one of the taxes of the card.')],
  );
}

function missingClass(id: string, path: string): Problem {
  return error('unknown-labour-class', path, `The rate card has no labour class "${id}".`, 'Choose another class, or add this one to the rate card.');
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
