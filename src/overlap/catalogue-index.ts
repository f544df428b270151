import type { Catalogue, CataloguePart, Operation, Step } from '../documents/catalogue.js';
import { closure } from '../documents/closure.js';
import { byId } from '../documents/references.js';
import { type Decimal, decimal } from '../number/decimal.js';

/** A step with its hours as a decimal. */
export interface IndexedStep {
  readonly step: Step;
  readonly hours: Decimal;
}

/** A checked catalogue, prepared for many look-ups. */
export interface CatalogueIndex {
  readonly catalogue: Catalogue;
  readonly operations: ReadonlyMap<string, Operation>;
  readonly parts: ReadonlyMap<string, CataloguePart>;
  readonly cautions: ReadonlyMap<string, string>;
  readonly steps: ReadonlyMap<string, IndexedStep>;
  /** By step: how many others must come off before it. */
  readonly depthOf: ReadonlyMap<string, number>;
  /** By operation: all steps that it needs, also through other steps (rule 2). */
  readonly stepsOf: ReadonlyMap<string, readonly IndexedStep[]>;
  /** By operation: all operations that it includes, also through others (rule 5). */
  readonly includedBy: ReadonlyMap<string, ReadonlySet<string>>;
  /** By operation, then by the other operation: the hours that they are declared to have in common (rule 6). */
  readonly overlaps: ReadonlyMap<string, ReadonlyMap<string, Decimal>>;
}

/** Prepares a catalogue that `parseCatalogue` has let through. */
export function indexCatalogue(catalogue: Catalogue): CatalogueIndex {
  const operations = byId(catalogue.operations);
  const steps = new Map(catalogue.steps.map((step) => [step.id, { step, hours: decimal(step.hours) }]));
  const needs = (id: string): readonly string[] => steps.get(id)!.step.needs;
  const includes = (id: string): readonly string[] => operations.get(id)!.includes;

  const overlaps = new Map<string, Map<string, Decimal>>();
  const declare = (a: string, b: string, hours: Decimal): void => {
    if (!overlaps.has(a)) overlaps.set(a, new Map());
    overlaps.get(a)!.set(b, hours);
  };
  for (const overlap of catalogue.overlaps) {
    const [a, b] = overlap.between;
    declare(a, b, decimal(overlap.hours));
    declare(b, a, decimal(overlap.hours));
  }

  return {
    catalogue,
    operations,
    parts: byId(catalogue.parts),
    cautions: new Map(catalogue.cautions.map((caution) => [caution.id, caution.text])),
    steps,
    depthOf: new Map(catalogue.steps.map((step) => [step.id, closure(step.needs, needs).size])),
    stepsOf: new Map(
      catalogue.operations.map((operation) => [operation.id, [...closure(operation.steps, needs)].map((id) => steps.get(id)!)]),
    ),
    includedBy: new Map(catalogue.operations.map((operation) => [operation.id, closure(operation.includes, includes)])),
    overlaps,
  };
}
