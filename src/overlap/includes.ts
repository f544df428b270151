import type { CatalogueIndex } from './catalogue-index.js';
import type { Work } from './work.js';

/**
 * Rule 5: which line is already done as part of another. Gives, by operation, the work of the outermost line that
 * includes it: one that is not itself included; of several, the first by precedence.
 *
 * @param ranked works in order of precedence
 */
export function inclusions(ranked: readonly Work[], index: CatalogueIndex): Map<string, Work> {
  const first = new Map<string, Work>();
  for (const work of ranked) if (!first.has(work.operation.id)) first.set(work.operation.id, work);

  const inner = new Set<string>();
  for (const operation of first.keys()) for (const id of index.includedBy.get(operation)!) inner.add(id);

  const found = new Map<string, Work>();
  for (const [operation, work] of first) {
    if (inner.has(operation)) continue;
    for (const id of index.includedBy.get(operation)!) {
      if (first.has(id) && !found.has(id)) found.set(id, work);
    }
  }
  return found;
}
