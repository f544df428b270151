import type { Catalogue, CataloguePart, PartNeed } from '../documents/catalogue.js';
import { isBlank } from '../documents/fields.js';
import { byId } from '../documents/references.js';
import { decimal } from '../number/decimal.js';
import { sellPrice } from '../pricing/markup.js';
import { copyFigure } from './copy-figure.js';
import type { Source } from './customer-copy.js';

/** The part of the catalogue that the estimate uses, at sell prices. */
export function copyCatalogue({ estimate, index, rates, used, names }: Source): Catalogue {
  const needs = (parts: readonly PartNeed[]): PartNeed[] => parts.map((need) => ({ ...need, part: names.part(need.part) }));
  const taken = new Set(used.operations.map((operation) => operation.id));
  const components = byId(index.catalogue.components);
  const mentioned = new Set(estimate.findings.map((finding) => finding.component).filter((component) => !isBlank(component)));

  return {
    format: 'baysheet-catalogue',
    version: 1,
    id: 'copy',
    title: '',
    note: '',
    // Cautions are for whoever does the work.
    cautions: [],
    components: [...mentioned].map((id) => ({ id: names.component(id), title: components.get(id)?.title ?? id, positions: [] })),
    remedies: [],
    parts: used.parts.map((part) => ({ ...soldPart(part), id: names.part(part.id) })),
    // Named one by one, so that what is new stays in the shop.
    steps: used.steps.map(({ id, title, hours, per, needs: before, parts }) => ({
      id: names.step(id),
      title,
      hours,
      per,
      needs: before.map(names.step),
      parts: needs(parts),
      cautions: [],
    })),
    operations: used.operations.map((operation) => ({
      ...operation,
      id: names.operation(operation.id),
      system: '',
      labourClass: names.labourClass(operation.labourClass),
      steps: operation.steps.map(names.step),
      // Also those that are included by way of operations which the estimate does not use.
      includes: [...index.includedBy.get(operation.id)!].filter((id) => taken.has(id)).map(names.operation),
      parts: needs(operation.parts),
      fees: operation.fees.map(names.fee),
      cautions: [],
      // Where the shop has its hours from is not shown.
      basis: '',
    })),
    overlaps: used.overlaps.map(({ between: [a, b], hours }) => ({ between: [names.operation(a), names.operation(b)], hours })),
  };

  function soldPart({ id, title, number, cost, list, core, condition }: CataloguePart): CataloguePart {
    const price = sellPrice(decimal(cost), list === null ? null : decimal(list), rates);
    return { id, title, number, cost: '0', list: copyFigure(price), core, condition };
  }
}
