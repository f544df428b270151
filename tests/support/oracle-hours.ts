/** Rules 1 to 6 and 13 of the sum, a second time: units, steps, who carries what, inclusions, declared overlaps. */
import type { CatalogueDoc, OperationDoc, OperationLine, RatesDoc } from './oracle-documents.js';
import { Fraction, ZERO, least, most, sum } from './oracle-fraction.js';

export interface StepUse {
  step: string;
  position: string | null;
}

export interface OracleUnit {
  position: string | null;
  own: Fraction;
  book: Fraction;
  uses: StepUse[];
}

export interface OracleOperation {
  line: OperationLine;
  operation: OperationDoc;
  /** Place in the sheet. */
  index: number;
  rate: Fraction;
  units: OracleUnit[];
  own: Fraction;
  book: Fraction;
  includedIn: OracleOperation | null;
  carries: StepUse[];
  deduction: Fraction;
  charged: Fraction;
}

export interface OracleStep {
  use: StepUse;
  hours: Fraction;
  lines: string[];
  carriedBy: OracleOperation;
  saved: Fraction;
}

export interface OracleHours {
  operations: OracleOperation[];
  steps: OracleStep[];
  pairs: { between: [string, string]; hours: Fraction }[];
}

export const keyOf = (use: StepUse): string => `${use.step}@${use.position ?? ''}`;

/** A step with everything it needs, each once: the order a reader meets them, an operation's first step first. */
export function neededSteps(catalogue: CatalogueDoc, operation: OperationDoc): string[] {
  const met: string[] = [];
  const visit = (id: string): void => {
    if (met.includes(id)) return;
    met.push(id);
    catalogue.steps.find((step) => step.id === id)!.needs.forEach(visit);
  };
  operation.steps.forEach(visit);
  return met;
}

/** The operations that an operation includes, through any number of inclusions. */
export function includedOperations(catalogue: CatalogueDoc, operation: OperationDoc): Set<string> {
  const found = new Set<string>();
  const visit = (id: string): void => {
    if (found.has(id)) return;
    found.add(id);
    catalogue.operations.find((other) => other.id === id)!.includes.forEach(visit);
  };
  operation.includes.forEach(visit);
  return found;
}

/** Rule 4's choice: dearest rate, then longest book hours, then first in the sheet. */
export function precedence(a: OracleOperation, b: OracleOperation): number {
  return b.rate.compare(a.rate) || b.book.compare(a.book) || a.index - b.index;
}

function unitsOf(line: OperationLine, operation: OperationDoc, catalogue: CatalogueDoc): OracleUnit[] {
  const base = Fraction.of(line.bookHours ?? operation.bookHours);
  const places = Math.max(1, line.positions.length);
  const additional = Fraction.of(operation.additionalHours ?? '0').times(Fraction.of(places - 1));
  const perVehicle = operation.per === 'vehicle';
  const positions = perVehicle ? [null] : line.positions.length ? line.positions : [null];
  const steps = neededSteps(catalogue, operation).map((id) => catalogue.steps.find((step) => step.id === id)!);
  const stepHours = sum(steps.map((step) => Fraction.of(step.hours)));
  const book = most(perVehicle ? base.plus(additional) : base, stepHours);
  return positions.map((position) => ({
    position,
    book,
    own: book.minus(stepHours),
    uses: steps.map((step) => ({ step: step.id, position: step.per === 'position' ? position : null })),
  }));
}

function operationHours(line: OperationLine, index: number, catalogue: CatalogueDoc, rates: RatesDoc): OracleOperation {
  const operation = catalogue.operations.find((candidate) => candidate.id === line.operation)!;
  const units = unitsOf(line, operation, catalogue);
  const labourClass = line.labourClass ?? operation.labourClass;
  const extra = Fraction.of(line.extraHours?.hours ?? '0');
  return {
    line,
    operation,
    index,
    units,
    rate: Fraction.of(rates.labourClasses.find((candidate) => candidate.id === labourClass)!.rate),
    own: sum(units.map((unit) => unit.own)).plus(extra),
    book: sum(units.map((unit) => unit.book)).plus(extra),
    includedIn: null,
    carries: [],
    deduction: ZERO,
    charged: ZERO,
  };
}

function markIncluded(operations: OracleOperation[], catalogue: CatalogueDoc): void {
  const includers = (inner: OracleOperation): OracleOperation[] =>
    operations.filter((outer) => includedOperations(catalogue, outer.operation).has(inner.operation.id));
  const outermost = operations.filter((operation) => includers(operation).length === 0);
  for (const operation of operations) {
    const candidates = includers(operation)
      .filter((outer) => outermost.includes(outer))
      .sort(precedence);
    operation.includedIn = candidates[0] ?? null;
  }
}

function carrySteps(working: OracleOperation[], catalogue: CatalogueDoc): OracleStep[] {
  const users = new Map<string, { use: StepUse; operations: OracleOperation[]; units: number }>();
  for (const operation of working) {
    for (const use of operation.units.flatMap((unit) => unit.uses)) {
      const entry = users.get(keyOf(use)) ?? { use, operations: [], units: 0 };
      if (!entry.operations.includes(operation)) entry.operations.push(operation);
      entry.units += 1;
      users.set(keyOf(use), entry);
    }
  }
  return [...users.values()].map(({ use, operations, units }) => {
    const carriedBy = [...operations].sort(precedence)[0]!;
    const hours = Fraction.of(catalogue.steps.find((step) => step.id === use.step)!.hours);
    return {
      use,
      hours,
      carriedBy,
      lines: operations.map((operation) => operation.line.id),
      saved: hours.times(Fraction.of(units - 1)),
    };
  });
}

interface Edge {
  better: OracleOperation;
  other: OracleOperation;
  hours: Fraction;
}

function declaredEdges(working: OracleOperation[], catalogue: CatalogueDoc, steps: OracleStep[]): Edge[] {
  const edges: Edge[] = [];
  for (const better of working) {
    for (const other of working) {
      if (better === other || precedence(better, other) > 0 || better.operation === other.operation) continue;
      const declared = catalogue.overlaps.find(
        ({ between }) => between.includes(better.operation.id) && between.includes(other.operation.id),
      );
      if (!declared) continue;
      const inCommon = steps.filter(({ lines }) => lines.includes(better.line.id) && lines.includes(other.line.id));
      const left = Fraction.of(declared.hours).minus(sum(inCommon.map(({ hours }) => hours)));
      const hours = least(most(left, ZERO), least(better.own, other.own));
      if (hours.sign > 0) edges.push({ better, other, hours });
    }
  }
  return edges;
}

/** Kruskal's maximum spanning forest; then every line but the root of its tree deducts the edge to its parent. */
function deductOverlaps(working: OracleOperation[], edges: Edge[]): Edge[] {
  const tree = new Map(working.map((operation) => [operation, operation]));
  const rootOf = (operation: OracleOperation): OracleOperation => {
    const parent = tree.get(operation)!;
    return parent === operation ? operation : rootOf(parent);
  };
  const kept: Edge[] = [];
  const ordered = [...edges].sort((a, b) => b.hours.compare(a.hours) || precedence(a.better, b.better) || precedence(a.other, b.other));
  for (const edge of ordered) {
    const [a, b] = [rootOf(edge.better), rootOf(edge.other)];
    if (a === b) continue;
    tree.set(precedence(a, b) < 0 ? b : a, precedence(a, b) < 0 ? a : b);
    kept.push(edge);
  }
  const walk = (parent: OracleOperation, from: Edge | null): void => {
    for (const edge of kept) {
      if (edge === from || (edge.better !== parent && edge.other !== parent)) continue;
      const child = edge.better === parent ? edge.other : edge.better;
      child.deduction = edge.hours;
      walk(child, edge);
    }
  };
  working.filter((operation) => rootOf(operation) === operation).forEach((root) => walk(root, null));
  return kept;
}

/** Hours of the operation lines that are priced, each with its place in the sheet. */
export function oracleHours(lines: { line: OperationLine; index: number }[], catalogue: CatalogueDoc, rates: RatesDoc): OracleHours {
  const operations = lines.map(({ line, index }) => operationHours(line, index, catalogue, rates));
  markIncluded(operations, catalogue);
  const working = operations.filter((operation) => !operation.includedIn);
  const steps = carrySteps(working, catalogue);
  const kept = deductOverlaps(working, declaredEdges(working, catalogue, steps));
  for (const operation of working) {
    const mine = new Map(operation.units.flatMap((unit) => unit.uses).map((use) => [keyOf(use), use]));
    const carried = steps.filter(({ carriedBy }) => carriedBy === operation);
    const carriedKeys = new Set(carried.map(({ use }) => keyOf(use)));
    operation.carries = [...mine.values()].filter((use) => carriedKeys.has(keyOf(use)));
    operation.charged = operation.own.plus(sum(carried.map(({ hours }) => hours))).minus(operation.deduction);
  }
  return {
    operations,
    steps,
    pairs: kept.map(({ better, other, hours }) => ({ between: [better.line.id, other.line.id], hours })),
  };
}
