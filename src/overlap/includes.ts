import type { CatalogueIndex } from './catalogue-index.js';
import type { Work } from './work.js';

/**
 * Rule 5: which line is already done as part of another. Gives, by line, the work of the outermost line that includes
 * it: one that is not itself included; of several, the first by precedence.
 *
 * @param ranked works in order of precedence
 */
export function inclusions(ranked: readonly Work[], index: CatalogueIndex): Map<string, Work> {
  const including = ranked.filter((work) => work.operation.includes.length > 0);
  if (including.length === 0) return new Map();

  const isIncluded = (work: Work): boolean => including.some((outer) => includesOther(outer, work, index));
  const outermost = including.filter((work) => !isIncluded(work));
  const found = new Map<string, Work>();
  for (const work of ranked) {
    const outer = outermost.find((candidate) => includesOther(candidate, work, index));
    if (outer !== undefined) found.set(work.line, outer);
  }
  return found;
}

function includesOther(outer: Work, inner: Work, index: CatalogueIndex): boolean {
  return index.includedBy.get(outer.operation.id)!.has(inner.operation.id);
}
