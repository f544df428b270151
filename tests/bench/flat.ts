import { type Estimate } from '../../src/index.js';
import { decimal } from '../../src/number/decimal.js';
import type { CatalogueIndex } from '../../src/overlap/catalogue-index.js';
import type { RateIndex } from '../../src/pricing/rate-index.js';

/** A part as a row of figures: `unit` where the price is typed, else `cost`, which gets the mark-up. */
export interface FlatPart {
  readonly qty: string;
  readonly cost: string;
  readonly unit: string | null;
  readonly core: string;
}

export interface FlatStep {
  readonly hours: string;
  readonly parts: readonly FlatPart[];
}

/** A line with what it looks up in catalogue and rate card written beside it, as in a plain spreadsheet. */
export interface FlatLine {
  readonly hours: string;
  readonly rate: string;
  /** Indexes into `steps`. */
  readonly steps: readonly number[];
  readonly parts: readonly FlatPart[];
  readonly asksFee: boolean;
}

/** The sheet of `benchDocuments`, ready for a sum that knows neither catalogue nor rate card. */
export interface Flat {
  readonly lines: readonly FlatLine[];
  readonly steps: readonly FlatStep[];
  /** Indexes of the lines: dearest labour rate first, then longest book hours, then the order of the sheet (rule 4). */
  readonly precedence: readonly number[];
}

export function flatten(estimate: Estimate, index: CatalogueIndex, rates: RateIndex): Flat {
  const order = new Map([...index.steps.keys()].map((id, i) => [id, i]));
  const part = ({ part: id, qty }: { part: string; qty: string }): FlatPart => {
    const { cost, core } = index.parts.get(id)!;
    return { qty, cost, unit: null, core };
  };
  const lines = estimate.lines.map((line): FlatLine => {
    const empty = { hours: '0', rate: '0', steps: [], parts: [], asksFee: false };
    if (line.kind === 'labour') return { ...empty, hours: line.hours, rate: rates.classes.get(line.labourClass)!.toFixed() };
    if (line.kind === 'part') return { ...empty, parts: [{ qty: line.qty, cost: line.cost, unit: line.unitPrice, core: line.core }] };
    if (line.kind !== 'operation') throw new Error(`the bench has no lines of kind ${line.kind}`);
    const operation = index.operations.get(line.operation)!;
    return {
      hours: operation.bookHours,
      rate: rates.classes.get(operation.labourClass)!.toFixed(),
      steps: index.stepsOf.get(operation.id)!.map(({ step }) => order.get(step.id)!),
      parts: operation.parts.map(part),
      asksFee: operation.fees.length > 0,
    };
  });
  const steps = [...index.steps.values()].map(({ step }): FlatStep => ({ hours: step.hours, parts: step.parts.map(part) }));
  return { lines, steps, precedence: precedence(lines) };
}

function precedence(lines: readonly FlatLine[]): number[] {
  const ranked = lines.map((line, i) => ({ i, rate: decimal(line.rate), hours: decimal(line.hours) }));
  return ranked.sort((a, b) => b.rate.cmp(a.rate) || b.hours.cmp(a.hours) || a.i - b.i).map(({ i }) => i);
}
