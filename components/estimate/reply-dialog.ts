import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { replyRefusal, withDecisions, type ReplyRefusal } from '../../src/consent/reply.js';
import { error } from '../../src/documents/problem.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import type { Reply } from '../../src/share/reply.js';
import { openReply } from '../../src/share/reply-text.js';
import { SheetDialog } from '../look/dialog.js';
import { differenceList } from './difference-list.js';

/** A reply that belongs to the estimate as it stands. */
export interface TakenReply {
  readonly reply: Reply;
  /** The estimate with its decisions, and the price of that. */
  readonly estimate: Estimate;
  readonly priced: PricedEstimate;
}

/**
 * Where a customer's reply is opened: pasted as text or link, dropped, or handed over by the page. It says why a reply
 * cannot be taken, and what has changed since it was asked for.
 *
 * @property {Estimate | null} estimate the estimate as it stands
 * @property {PricedEstimate | null} priced its price
 * @property {(estimate: Estimate) => PricedEstimate} price prices the estimate with the reply's decisions
 * @property {string} text a reply to begin with
 *
 * @fires {CustomEvent<TakenReply>} take the reply belongs here
 * @fires {Event} close it was closed
 */
export class ReplyDialog extends SheetDialog {
  @property({ attribute: false }) estimate: Estimate | null = null;
  @property({ attribute: false }) priced: PricedEstimate | null = null;
  @property({ attribute: false }) price: ((estimate: Estimate) => PricedEstimate) | null = null;
  @property() locale = 'en';
  @property() text = '';

  @state() private refusal: ReplyRefusal | null = null;
  protected readonly heading = 'Open the customer’s reply';

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('open') || changed.has('text')) this.refusal = null;
    if (this.open && (changed.has('open') || changed.has('text')) && this.text !== '') void this.read(this.text);
  }

  private async read(text: string): Promise<void> {
    const opened = await openReply(text);
    if (!opened.ok) {
      this.refusal = { problems: [error(opened.code, '', opened.message)], difference: null };
      return;
    }
    const estimate = withDecisions(this.estimate!, opened.reply);
    const priced = this.price!(estimate);
    this.refusal = replyRefusal(this.estimate!, opened.reply, this.priced!, priced);
    if (this.refusal !== null) return;
    this.dispatchEvent(new CustomEvent<TakenReply>('take', { detail: { reply: opened.reply, estimate, priced } }));
    this.close();
  }

  private onSubmit(event: Event): void {
    event.preventDefault();
    void this.read(this.renderRoot.querySelector('textarea')!.value);
  }

  private async onDrop(event: DragEvent): Promise<void> {
    const file = event.dataTransfer?.files[0];
    if (file === undefined) return;
    event.preventDefault();
    const area = this.renderRoot.querySelector('textarea')!;
    area.value = await file.text();
    void this.read(area.value);
  }

  protected override renderBody(): TemplateResult {
    return html`<form @submit=${this.onSubmit}>
      <div class="field">
        <label for="text">Paste the message or link that came back, or drop the file here</label>
        <textarea
          id="text"
          rows="5"
          autocomplete="off"
          spellcheck="false"
          .value=${this.text}
          @drop=${this.onDrop}
          aria-invalid=${this.refusal !== null}
          aria-describedby="refusal"
        ></textarea>
        <div id="refusal" class="fault" role="alert">
          ${this.refusal?.problems.map((problem) => html`<p>${problem.message} ${problem.hint ?? ''}</p>`) ?? nothing}
        </div>
      </div>
      ${this.refusal?.difference == null ? nothing : differenceList(this.refusal.difference, this.priced!.currency, this.locale)}
      <p class="quiet">A reply is not signed by the customer. It shows what was sent back, not who sent it.</p>
      <div class="buttons">
        <button type="button" @click=${this.close}>Cancel</button>
        <button class="main">Open</button>
      </div>
    </form>`;
  }
}
