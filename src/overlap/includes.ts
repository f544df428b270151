import type { CatalogueIndex } from './catalogue-index.js';
import type { Work } from './work.js';

/**
 * Rule 5: which operations are already done as part of another. Gives, by operation, the work of the outermost line
 * that includes it: one that is not itself included; of several, the first by precedence.
 *
 * @param ranked works in order of precedence
 */
export function inclusions(ranked: readonly Work[], index: CatalogueIndex): Map<string, Work> {
  const including = ranked.filter((work) => index.includedBy.get(work.operation.id)!.size > 0);

  const inner = new Set<string>();
  for (const { operation } of including) for (const id of index.includedBy.get(operation.id)!) inner.add(id);

  const found = new Map<string, Work>();
  for (const work of including) {
    if (inner.has(work.operation.id)) continue;
    for (const id of index.includedBy.get(work.operation.id)!) if (!found.has(id)) found.set(id, work);
  }
  return found;
}
