import { type Catalogue, parseCatalogue } from '../documents/catalogue.js';
import { type Estimate, parseEstimate } from '../documents/estimate.js';
import { inDocument, type Problem } from '../documents/problem.js';
import { parseRates, type Rates } from '../documents/rates.js';
import { type CatalogueIndex, indexCatalogue } from '../overlap/catalogue-index.js';
import { indexRates, type RateIndex } from './rate-index.js';

/** What it takes to price: three documents, as the parse functions return them or as JSON. */
export interface Documents {
  readonly estimate: Estimate;
  readonly catalogue: Catalogue;
  readonly rates: Rates;
}

/** The three documents, checked and prepared. */
export interface Prepared {
  readonly estimate: Estimate;
  readonly index: CatalogueIndex;
  readonly rates: RateIndex;
}

/**
 * Checks the documents where they enter the engine, so that nothing inside meets a figure that is none: a page may
 * hand over objects that never went through a parse function.
 */
export function prepare(documents: Documents): { ok: true; prepared: Prepared } | { ok: false; problems: Problem[] } {
  const estimate = parseEstimate(documents?.estimate);
  const catalogue = parseCatalogue(documents?.catalogue);
  const rates = parseRates(documents?.rates);
  if (estimate.ok && catalogue.ok && rates.ok) {
    return {
      ok: true,
      prepared: { estimate: estimate.value, index: indexCatalogue(catalogue.value), rates: indexRates(rates.value) },
    };
  }
  return {
    ok: false,
    problems: [
      ...inDocument('estimate', estimate.problems),
      ...inDocument('catalogue', catalogue.problems),
      ...inDocument('rates', rates.problems),
    ],
  };
}
