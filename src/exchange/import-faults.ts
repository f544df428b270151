import type { Catalogue, Operation } from '../documents/catalogue.js';
import { checkCatalogueReferences } from '../documents/catalogue-references.js';
import { closure } from '../documents/closure.js';
import type { Problem } from '../documents/problem.js';

/**
 * Why operations cannot be taken into a catalogue: by their id, every error of the catalogue that is there only with
 * them in it. An error that shows at an operation of the catalogue is put down to those that it includes.
 */
export function faultsOf(operations: readonly Operation[], catalogue: Catalogue): Map<string, string[]> {
  const taken = new Map(operations.map((operation) => [operation.id, operation]));
  const there = new Set(catalogue.operations.map(({ id }) => id));
  const after: Catalogue = {
    ...catalogue,
    operations: [
      ...catalogue.operations.map((operation) => taken.get(operation.id) ?? operation),
      ...operations.filter(({ id }) => !there.has(id)),
    ],
  };
  const errors = (of: Catalogue): Problem[] => checkCatalogueReferences(of).filter(({ severity }) => severity === 'error');
  const before = new Set(errors(catalogue).map((problem) => told(problem, catalogue)));
  const includes = new Map(after.operations.map((operation) => [operation.id, operation.includes]));

  const faults = new Map<string, string[]>();
  for (const problem of errors(after)) {
    if (before.has(told(problem, after))) continue;
    const at = Number(/^operations\[(\d+)\]/.exec(problem.path)?.[1] ?? NaN);
    const id = after.operations[at]?.id;
    const near =
      id === undefined
        ? []
        : taken.has(id)
          ? [id]
          : [...closure([id], (inner) => includes.get(inner) ?? [])].filter((inner) => taken.has(inner));
    for (const blamed of near) faults.set(blamed, [...(faults.get(blamed) ?? []), problem.message]);
  }
  return faults;
}

/** A problem with its operation by id, since places move when operations are added. */
function told({ code, path, message }: Problem, catalogue: Catalogue): string {
  const place = path.replace(/^operations\[(\d+)\]/, (_, at: string) => catalogue.operations[Number(at)]!.id);
  return `${code} ${place} ${message}`;
}
