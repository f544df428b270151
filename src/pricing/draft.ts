import type { Line, OperationLine } from '../documents/lines.js';
import type { Problem } from '../documents/problem.js';
import { type Decimal, decimal, ZERO } from '../number/decimal.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import { type Work, workOf } from '../overlap/work.js';
import type { Charge } from './charge.js';
import { feeLineCharge } from './fees.js';
import { labourCharge } from './labour.js';
import { belowSteps, missingClass, missingFee, missingOperation, missingPart, missingTax, withoutPosition } from './line-problems.js';
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
    problems.push(missingOperation(line.operation));
    return { line, title: line.operation, work: null, charges: [], bookHours: ZERO, rate: ZERO, problems };
  }
  const labourClass = line.labourClass ?? operation.labourClass;
  const rate = rates.classes.get(labourClass);
  if (rate === undefined) problems.push(missingClass(labourClass, line.labourClass === null ? 'operation' : 'labourClass'));
  for (const fee of operation.fees) {
    if (!rates.fees.has(fee)) problems.push(missingFee(operation, fee));
  }
  line.parts.forEach((override, i) => {
    if (!index.parts.has(override.part)) problems.push(missingPart(override.part, i));
  });

  const work = workOf(line, operation, rate ?? ZERO, index);
  if (work.belowSteps) problems.push(belowSteps(operation, line));
  if (operation.per === 'position' && line.positions.length === 0) problems.push(withoutPosition(operation));
  return { line, title: operation.title, work, charges: [], bookHours: work.bookHours, rate: work.rate, problems };
}

function taxProblems(line: Line, rates: RateIndex): Problem[] {
  return (line.taxes ?? []).flatMap((id, i) => (rates.taxes.has(id) ? [] : [missingTax(id, i)]));
}
