import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { appendHistory } from '../../src/consent/history.js';
import { type ConsentDetails, recordConsent } from '../../src/consent/record.js';
import { sharedEntry } from '../../src/consent/reply.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { Problem } from '../../src/documents/problem.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import type { ShopSettings } from '../../src/share/shop.js';
import { send } from '../events.js';
import type { Ask } from './authorisation-pane.js';
import type { SheetView } from './context.js';
import type { PhotoKeeper } from './evidence-keeper.js';
import type { TakenReply } from './reply-dialog.js';
import type { SharedCopy } from './share-dialog.js';

/** The estimate with a consent or a sealed copy on record, and what was done, in words. */
export interface Recorded {
  readonly estimate: Estimate;
  readonly what: string;
}

/**
 * All that passes between shop and customer: where the estimate stands, and the dialogs to share it, to open a reply and
 * to record a consent.
 *
 * @property {SheetView | null} view the sheet's state, priced
 * @property {(estimate: Estimate) => PricedEstimate} price prices another estimate with the same documents
 * @property {ShopSettings} shop what the customer may read of the shop
 * @property {string} page address of the page for customers
 * @property {string} script address of the script for the customer's file
 * @property {PhotoKeeper | null} photos where photos are
 *
 * @fires {CustomEvent<Recorded>} record a consent or a sealed copy is to be put on record
 * @fires {CustomEvent<readonly Problem[]>} refuse a consent could not be recorded
 */
export class AuthorisationDesk extends LitElement {
  @property({ attribute: false }) view: SheetView | null = null;
  @property({ attribute: false }) price: ((estimate: Estimate) => PricedEstimate) | null = null;
  @property({ attribute: false }) shop: ShopSettings = {};
  @property() page = '';
  @property() script = '';
  @property({ attribute: false }) photos: PhotoKeeper | null = null;

  @state() private dialog: Ask | null = null;
  /** A reply that was opened and waits for the advisor to record it. */
  @state() private taken: TakenReply | null = null;
  @state() private replyText = '';

  /** Opens a reply that the page has received, as if it had been pasted. */
  openReply(text: string): void {
    this.replyText = text;
    this.dialog = 'reply';
  }

  private ask(what: Ask): void {
    this.taken = null;
    this.replyText = '';
    this.dialog = what;
  }

  private onTake({ detail }: CustomEvent<TakenReply>): void {
    this.taken = detail;
    this.dialog = 'consent';
  }

  private onConsent({ detail }: CustomEvent<ConsentDetails>): void {
    const { estimate, priced } = this.subject();
    const recorded = recordConsent(estimate, priced, this.view!.rates.rates.authorisation, detail);
    if (recorded.ok) this.record({ estimate: recorded.estimate, what: 'record of a consent' });
    else this.dispatchEvent(new CustomEvent<readonly Problem[]>('refuse', { detail: recorded.problems }));
    this.taken = null;
  }

  private onShared({ detail: { link, token, hash, sealedAt } }: CustomEvent<SharedCopy>): void {
    const { priced, state: sheet } = this.view!;
    const estimate = appendHistory(sheet.estimate, sharedEntry(priced, hash, sealedAt));
    this.record({ estimate, what: 'sharing' });
    if (!send(this, 'baysheet-share', { link, token, hash, estimate: structuredClone(estimate) })) this.dialog = null;
  }

  private record(detail: Recorded): void {
    this.dispatchEvent(new CustomEvent<Recorded>('record', { detail }));
  }

  /** Closing one dialog may be the beginning of the next: only what is open now counts. */
  private onClose(what: Ask): void {
    if (this.dialog === what) this.dialog = null;
  }

  /** What a consent is about: the estimate as it stands, or with the decisions of a reply. */
  private subject(): { estimate: Estimate; priced: PricedEstimate } {
    return this.taken ?? { estimate: this.view!.state.estimate, priced: this.view!.priced };
  }

  private given(): Partial<ConsentDetails> | null {
    if (this.taken === null) return null;
    const { at, name, contact, consent } = this.taken.reply;
    return { at, by: name, how: 'link', contact: contact.value, sentence: consent };
  }

  protected override render(): TemplateResult | typeof nothing {
    const { view } = this;
    if (view === null) return nothing;
    const { estimate } = view.state;
    const subject = this.subject();
    return html`<baysheet-authorisation
        exportparts="standing, difference"
        .estimate=${estimate}
        .priced=${view.priced}
        .rule=${view.rates.rates.authorisation}
        .locale=${view.locale}
        @ask=${(event: CustomEvent<Ask>) => this.ask(event.detail)}
      ></baysheet-authorisation>
      <baysheet-consent
        .open=${this.dialog === 'consent'}
        .estimate=${subject.estimate}
        .priced=${subject.priced}
        .given=${this.given()}
        .locale=${view.locale}
        @consent=${this.onConsent}
        @close=${() => this.onClose('consent')}
      ></baysheet-consent>
      <baysheet-reply
        .open=${this.dialog === 'reply'}
        .estimate=${estimate}
        .priced=${view.priced}
        .price=${this.price}
        .text=${this.replyText}
        .locale=${view.locale}
        @take=${this.onTake}
        @close=${() => this.onClose('reply')}
      ></baysheet-reply>
      <baysheet-share
        .open=${this.dialog === 'share'}
        .documents=${{ estimate, catalogue: view.catalogue.catalogue, rates: view.rates.rates }}
        .shop=${this.shop}
        .page=${this.page}
        .script=${this.script}
        .photos=${this.photos}
        @shared=${this.onShared}
        @close=${() => this.onClose('share')}
      ></baysheet-share>`;
  }
}
