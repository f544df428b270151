import { type Catalogue, type CataloguePart, type Operation, type Step } from '../documents/catalogue.js';
import type { Estimate } from '../documents/estimate.js';
import type { Fee } from '../documents/rates.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import type { RateIndex } from '../pricing/rate-index.js';

/** What an estimate uses of the catalogue in the order in which it is first used, and of the rate card in the order of the card. */
export interface Used {
  readonly operations: readonly Operation[];
  readonly steps: readonly Step[];
  readonly parts: readonly CataloguePart[];
  readonly overlaps: Catalogue['overlaps'];
  readonly fees: readonly Fee[];
  readonly labourClasses: RateIndex['rates']['labourClasses'];
}

export function usedBy(estimate: Estimate, index: CatalogueIndex, { rates }: RateIndex): Used {
  const lines = estimate.lines.filter((line) => line.kind === 'operation');
  const named = new Set(lines.map((line) => line.operation));
  const { catalogue } = index;
  const operations = [...named].flatMap((id) => index.operations.get(id) ?? []);
  const steps = [...new Set(operations.flatMap((operation) => index.stepsOf.get(operation.id)!.map(({ step }) => step)))];

  const parts = new Set([
    ...[...steps, ...operations].flatMap((entry) => entry.parts.map((need) => need.part)),
    ...lines.flatMap((line) => line.parts.map((override) => override.part)),
  ]);
  const fees = new Set(operations.flatMap((operation) => operation.fees));
  const classes = new Set(
    estimate.lines.flatMap((line) => {
      if (line.kind === 'labour') return [line.labourClass];
      return line.kind === 'operation' ? [line.labourClass ?? index.operations.get(line.operation)?.labourClass ?? ''] : [];
    }),
  );
  return {
    operations,
    steps,
    parts: [...parts].flatMap((id) => index.parts.get(id) ?? []),
    overlaps: catalogue.overlaps.filter(({ between }) => between.every((id) => named.has(id))),
    fees: rates.fees.filter((fee) => fees.has(fee.id)),
    labourClasses: rates.labourClasses.filter((labourClass) => classes.has(labourClass.id)),
  };
}
