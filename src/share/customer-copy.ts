import type { Catalogue } from '../documents/catalogue.js';
import type { Estimate } from '../documents/estimate.js';
import { isBlank } from '../documents/fields.js';
import { printProblem } from '../documents/problem.js';
import type { Rates } from '../documents/rates.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import { type Documents, prepare } from '../pricing/documents.js';
import type { RateIndex } from '../pricing/rate-index.js';
import { copyCatalogue } from './copy-catalogue.js';
import { copyEstimate } from './copy-estimate.js';
import { copyRates } from './copy-rates.js';
import { ShareFault } from './fault.js';
import { type Naming, naming } from './names.js';
import { readShop, type Shop, type ShopSettings } from './shop.js';
import { type Used, usedBy } from './used.js';

/**
 * What a customer gets: the three documents, reduced to what it takes to show the estimate and to price every yes and
 * no with the same engine. Each of them passes its parse function.
 */
export interface CustomerCopy {
  readonly shop: Shop;
  readonly estimate: Estimate;
  readonly catalogue: Catalogue;
  readonly rates: Rates;
}

export interface CopyOptions {
  /** Keep the photos of the findings, which are far too long for a link. */
  readonly photos?: boolean;
}

/** The documents to copy from, with new names for what they use. */
export interface Source {
  readonly estimate: Estimate;
  readonly index: CatalogueIndex;
  readonly rates: RateIndex;
  readonly used: Used;
  readonly names: {
    readonly operation: Naming;
    readonly step: Naming;
    readonly part: Naming;
    readonly labourClass: Naming;
    readonly fee: Naming;
    readonly tax: Naming;
    /** Of findings: by what the finding calls its component. */
    readonly component: Naming;
    readonly finding: Naming;
  };
}

/**
 * The customer's copy of an estimate. Whatever set of lines is priced, its total is that of the full documents.
 *
 * It holds no cost of a part or of sublet work, no mark-up, no note, cause or history, nothing else about the customer than the name
 * and the taxes that do not apply, and nothing of catalogue and rate card that the estimate does not use. Ids are new
 * but for those of the estimate and its lines.
 *
 * It does hold hours, labour rates, part numbers and conditions, and the evidence, which the law of many places wants shown.
 *
 * @throws ShareFault where the documents cannot be read, or a price has more digits than a document can hold
 */
export function customerCopy(documents: Documents & { readonly shop?: ShopSettings }, options: CopyOptions = {}): CustomerCopy {
  const read = prepare(documents);
  if (!read.ok) {
    const errors = read.problems.filter((problem) => problem.severity === 'error');
    throw new ShareFault('documents', `The estimate cannot be shared: ${errors.slice(0, 3).map(printProblem).join('; ')}`);
  }
  const source = sourceOf(read.prepared.estimate, read.prepared.index, read.prepared.rates);
  return {
    shop: readShop(documents.shop ?? {}),
    estimate: copyEstimate(source, options.photos ?? false),
    catalogue: copyCatalogue(source),
    rates: copyRates(source),
  };
}

function sourceOf(estimate: Estimate, index: CatalogueIndex, rates: RateIndex): Source {
  const used = usedBy(estimate, index, rates);
  const ids = (entries: readonly { readonly id: string }[]): string[] => entries.map((entry) => entry.id);
  return {
    estimate,
    index,
    rates,
    used,
    names: {
      operation: naming('o', ids(used.operations)),
      step: naming('s', ids(used.steps)),
      part: naming('p', ids(used.parts)),
      labourClass: naming('c', ids(used.labourClasses)),
      fee: naming('e', ids(used.fees)),
      tax: naming('t', ids(rates.rates.taxes)),
      component: naming(
        'k',
        estimate.findings.map((finding) => finding.component).filter((component) => !isBlank(component)),
      ),
      finding: naming('f', ids(estimate.findings)),
    },
  };
}
