import { css, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Documents } from '../../src/pricing/documents.js';
import type { PublicJwk } from '../../src/share/keys.js';
import { customerCopy } from '../../src/share/customer-copy.js';
import { sealEstimate, type Sealed } from '../../src/share/seal.js';
import type { ShopSettings } from '../../src/share/shop.js';
import { whyIncomplete } from '../../src/findings/round-words.js';
import { qrPath } from '../customer/qr.js';
import { dialogStyles, SheetDialog } from '../look/dialog.js';
import { customerFile } from '../share/customer-file.js';
import { shopKey } from '../share/keys.js';
import type { PhotoKeeper } from './evidence-keeper.js';
import { barePhoto } from './evidence-picture.js';
import { downloadText } from './files.js';

/** A copy that was made for the customer. */
export interface SharedCopy {
  readonly link: string;
  readonly token: string;
  readonly hash: string;
  readonly sealedAt: string;
}

/**
 * Makes the customer's copy: a signed link, its QR code where it is short enough, and a file that needs no link. While more
 * may be found it asks before it goes on.
 *
 * @property {Documents | null} documents what is shared
 * @property {ShopSettings} shop what the customer may read of the shop
 * @property {string} page address of the page that shows estimates to customers
 * @property {string} script address of the script of `<baysheet-customer>`, for the file
 * @property {PhotoKeeper | null} photos where photos are, for the file; a link carries none
 *
 * @fires {CustomEvent<SharedCopy>} shared a link was made
 * @fires {Event} close it was closed
 */
export class ShareDialog extends SheetDialog {
  static override styles = [
    dialogStyles,
    css`
      svg {
        justify-self: center;
        width: min(15rem, 100%);
        background: #ffffff;
      }

      textarea,
      pre {
        overflow-wrap: anywhere;
        white-space: pre-wrap;
      }
    `,
  ];

  @property({ attribute: false }) documents: Documents | null = null;
  @property({ attribute: false }) shop: ShopSettings = {};
  @property() page = '';
  @property() script = '';
  @property({ attribute: false }) photos: PhotoKeeper | null = null;

  /** Why more may be found, while a person has not said to share all the same. */
  @state() private more = '';
  @state() private sealed: Sealed | null = null;
  @state() private publicJwk: PublicJwk | null = null;
  @state() private fault = '';
  @state() private done = '';
  protected readonly heading = 'Share with the customer';

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('open') || !this.open) return;
    this.more = whyIncomplete(this.documents!.estimate);
    if (this.more === '') void this.seal();
  }

  private onAllTheSame(): void {
    this.more = '';
    void this.seal();
  }

  private get address(): string {
    return this.page === '' ? '' : `${new URL(this.page, this.ownerDocument.baseURI).href}#e=`;
  }

  private get link(): string {
    return `${this.address}${this.sealed?.token ?? ''}`;
  }

  private async seal(): Promise<void> {
    this.sealed = null;
    this.fault = '';
    this.done = '';
    if (this.page === '') {
      this.fault = 'The page of this sheet names no page for customers, so there is no link to make. Send the file instead.';
      return;
    }
    try {
      const { signing, publicJwk } = await shopKey();
      const sealed = await sealEstimate({ ...this.documents!, shop: this.shop }, signing, { address: this.address });
      this.publicJwk = publicJwk;
      this.sealed = sealed;
      const { token, hash, sealedAt } = sealed;
      this.dispatchEvent(new CustomEvent<SharedCopy>('shared', { detail: { link: this.link, token, hash, sealedAt } }));
    } catch (fault) {
      this.fault = fault instanceof Error ? fault.message : String(fault);
    }
  }

  private async onCopy(what: string, text: string): Promise<void> {
    try {
      await navigator.clipboard.writeText(text);
      this.done = `${what} copied.`;
    } catch {
      this.done = `${what} cannot be copied here. Select it and copy it by hand.`;
    }
  }

  private async onFile(): Promise<void> {
    try {
      const { documents } = this;
      const estimate = (await this.photos?.forCustomer(documents!.estimate, barePhoto)) ?? documents!.estimate;
      const response = await fetch(new URL(this.script, this.ownerDocument.baseURI));
      if (!response.ok) throw new Error(`the server answers ${response.status}`);
      const page = customerFile({
        copy: customerCopy({ ...documents!, estimate, shop: this.shop }, { photos: true }),
        hash: this.sealed?.hash ?? '',
        script: await response.text(),
        lang: documents!.rates.locale,
        title: `Estimate ${estimate.number}`,
      });
      downloadText(page, 'text/html', `estimate-${estimate.number || estimate.id}.html`, this.ownerDocument);
      this.done = 'The file is saved.';
    } catch (fault) {
      this.fault = `The file cannot be made: ${fault instanceof Error ? fault.message : String(fault)}.`;
    }
  }

  protected override renderBody(): TemplateResult {
    if (this.more !== '') return this.renderQuestion();
    return html`<div class="body">
      ${this.fault === '' ? nothing : html`<p class="fault" role="alert">${this.fault}</p>`}
      ${this.sealed === null ? (this.fault === '' ? html`<p class="quiet">Signing …</p>` : nothing) : this.renderLink(this.sealed)}
      <div class="buttons">
        <button ?disabled=${this.script === ''} @click=${this.onFile}>Save as a file …</button>
        <button class="main" @click=${this.close}>Done</button>
      </div>
      <p role="status">${this.done}</p>
    </div>`;
  }

  private renderQuestion(): TemplateResult {
    return html`<div class="body">
      <p><strong>${this.more}</strong></p>
      <p>A large fault hides a small one. What is found later would need another authorisation, another parts run and perhaps the same teardown again.</p>
      <div class="buttons">
        <button @click=${this.onAllTheSame}>Share all the same</button>
        <button class="main" autofocus @click=${this.close}>Back to the test rounds</button>
      </div>
    </div>`;
  }

  private renderLink(sealed: Sealed): TemplateResult {
    const { number } = this.documents!.estimate;
    const words = encodeURIComponent(`${this.shop.name ?? ''} ${number}\n${this.link}`.trim());
    return html`<div class="field">
        <label for="link">Link, ${sealed.length} characters</label>
        <textarea id="link" rows="4" readonly .value=${this.link} @focus=${(event: Event) => (event.target as HTMLTextAreaElement).select()}></textarea>
      </div>
      ${sealed.advice.map((advice) => html`<p>${advice.message}</p>`)}
      <div class="buttons">
        <button @click=${() => this.onCopy('The link', this.link)}>Copy the link</button>
        <a class="button" href="mailto:${this.documents!.estimate.customer.email}?subject=${encodeURIComponent(`Estimate ${number}`)}&amp;body=${words}">Mail</a>
        <a class="button" href="sms:${this.documents!.estimate.customer.phone.replace(/[^\d+]/g, '')}?body=${words}">Text message</a>
      </div>
      ${qrCode(this.link)}
      <p class="quiet">
        The link shows who made it and that nothing was changed; it hides nothing from anyone who has it. The customer’s copy
        holds no cost, mark-up or internal note.
      </p>
      <details>
        <summary>The shop’s public key</summary>
        <p>The page for customers must trust this key. It was made in this browser and is kept in it.</p>
        <pre>${JSON.stringify(this.publicJwk, null, 2)}</pre>
        <button @click=${() => this.onCopy('The key', JSON.stringify(this.publicJwk))}>Copy the key</button>
      </details>`;
  }
}

/** A code that is too fine to read is not drawn; the advice says why. */
function qrCode(link: string): TemplateResult | typeof nothing {
  const code = qrPath(link);
  if (code === null) return nothing;
  return html`<svg viewBox="0 0 ${code.size} ${code.size}" role="img" aria-label="QR code of the link" shape-rendering="crispEdges">
    <path d=${code.path} fill="#000000"></path>
  </svg>`;
}
