import type { Finding } from '../../src/documents/estimate.js';
import { remedyFor } from '../../src/findings/propose-lines.js';
import type { CatalogueIndex } from '../../src/overlap/catalogue-index.js';

/** A way to put a finding right: its operations, and how it is written in a cell. */
export interface Way {
  readonly operations: readonly string[];
  readonly text: string;
}

/** The ways that the catalogue knows for a finding, the remedy's own first. */
export function waysFor(finding: Finding, catalogue: CatalogueIndex): Way[] {
  const remedy = remedyFor(finding, catalogue.catalogue);
  if (remedy === null) return [];
  return [remedy.operations, ...remedy.instead].map((operations) => ({ operations, text: wayText(operations, catalogue) }));
}

export function wayText(operations: readonly string[], catalogue: CatalogueIndex): string {
  return operations.map((id) => catalogue.operations.get(id)?.title ?? id).join(' + ');
}
