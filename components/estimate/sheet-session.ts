import type { Estimate } from '../../src/documents/estimate.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import type { Command, SheetState } from '../../src/store/commands.js';
import { EstimateStore } from '../../src/store/estimate-store.js';
import { guarded } from '../../src/store/guarded.js';
import { reduce } from '../../src/store/reduce.js';
import { canonicalJson } from '../../src/versions/canonical-json.js';
import type { Terms } from '../../src/versions/price-again.js';
import type { SheetView } from './context.js';
import type { DocumentName, OpenDocuments } from './open-documents.js';
import { quotedUnder, type QuotedTerms } from './quoted-terms.js';
import { SheetModel } from './sheet-model.js';

/**
 * What the sheet shows, and under which terms: the estimate with its history of undo, priced by the card and the catalogue
 * that it was quoted under, else by those of the page. No DOM.
 */
export class SheetSession {
  /** Null while there is no estimate. */
  store: EstimateStore | null = null;
  private model: SheetModel | null = null;

  constructor(
    private readonly documents: Pick<OpenDocuments<DocumentName>, 'get'>,
    private readonly quoted: QuotedTerms,
  ) {}

  get state(): SheetState | null {
    return this.store?.getState() ?? null;
  }

  get estimate(): Estimate | null {
    return this.state?.estimate ?? null;
  }

  /** Puts another estimate in place: a new history of undo. */
  put(estimate: Estimate, pending?: SheetState['pending']): void {
    if (this.store === null) this.store = new EstimateStore(estimate, pending);
    else this.store.replace(estimate, pending);
  }

  /** A page may give back what a change has told it, as pages do that draw themselves from a state of their own. */
  shows(estimate: Estimate): boolean {
    return this.estimate !== null && canonicalJson(estimate) === canonicalJson(this.estimate);
  }

  /** The present state, priced; null while a document is missing. The same object until something changes. */
  view(): SheetView | null {
    const terms = this.terms();
    if (terms === null) return null;
    const { model } = this;
    if (model?.store !== this.store || model?.catalogue !== terms.catalogue || model?.rates !== terms.rates) {
      this.model = new SheetModel(this.store!, terms.catalogue, terms.rates);
    }
    return this.model!.view();
  }

  /** One function for all updates, so that what is given it need not be painted again. */
  readonly price = (other: Estimate): PricedEstimate => this.model!.price(other);

  /** The page's card and catalogue. */
  page(): Terms | null {
    const rates = this.documents.get('rates');
    const catalogue = this.documents.get('catalogue');
    return rates === undefined || catalogue === undefined ? null : { rates, catalogue };
  }

  /** What the estimate is priced under; null while that, or the estimate itself, is missing. */
  terms(): Terms | null {
    const page = this.page();
    return page === null || this.estimate === null ? null : this.quoted.of(this.estimate.quoted, page);
  }

  /**
   * Does commands as one step of undo. Where estimates are kept, the first price of one is its quotation.
   *
   * @returns whether it made the next revision; null where nothing has changed
   */
  take(commands: readonly Command[], what: string, isKept: boolean): { readonly isRevised: boolean } | null {
    const store = this.store!;
    const before = store.getState();
    const toDo = guarded(commands, before, new Date().toISOString());
    const quotation = isKept ? this.quotation(before.estimate, toDo.reduce(reduce, before).estimate) : [];
    store.dispatch([...toDo, ...quotation], what);
    if (store.getState() === before) return null;
    if (quotation.length > 0) void this.quoted.keep(this.page()!);
    return { isRevised: toDo !== commands };
  }

  /** An estimate is quoted under the terms that its first price was made under; an entry that cannot be used changes nothing. */
  private quotation(before: Estimate, next: Estimate): Command[] {
    const page = this.page();
    if (next === before) return [];
    if (page === null || next.quoted !== undefined || next.lines.length === 0 || next.id !== before.id) return [];
    return [{ do: 'quote', quoted: quotedUnder(page) }];
  }
}
