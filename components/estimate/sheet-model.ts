import type { Catalogue } from '../../src/documents/catalogue.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { Rates } from '../../src/documents/rates.js';
import { propose } from '../../src/findings/propose-lines.js';
import { indexCatalogue } from '../../src/overlap/catalogue-index.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import { Pricer } from '../../src/pricing/pricer.js';
import { indexRates } from '../../src/pricing/rate-index.js';
import type { EstimateStore } from '../../src/store/estimate-store.js';
import type { Reference, SheetView } from './context.js';

const NONE: ReadonlySet<string> = new Set();

/** The store together with one catalogue and one rate card: what the sheet shows of its present state. No DOM. */
export class SheetModel {
  readonly reference: Reference;
  private readonly pricer: Pricer;
  private last: SheetView | null = null;

  constructor(
    readonly store: EstimateStore,
    readonly catalogue: Catalogue,
    readonly rates: Rates,
  ) {
    const index = indexCatalogue(catalogue);
    const rateIndex = indexRates(rates);
    this.reference = { catalogue: index, rates: rateIndex, locale: rates.locale };
    this.pricer = new Pricer(index, rateIndex);
  }

  /** The price of another estimate against the same documents. */
  price(estimate: Estimate): PricedEstimate {
    return new Pricer(this.reference.catalogue, this.reference.rates).price(estimate);
  }

  /** The present state, priced. The same object until the state changes. */
  view(): SheetView {
    const state = this.store.getState();
    if (this.last?.state === state) return this.last;
    const { estimate } = state;
    const same = this.last?.state.estimate === estimate ? this.last : null;
    this.last = {
      ...this.reference,
      state,
      priced: same?.priced ?? this.pricer.price(estimate),
      proposal: same?.proposal ?? propose(estimate, this.catalogue, NONE),
    };
    return this.last;
  }
}
