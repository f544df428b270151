import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { Rates } from '../../src/documents/rates.js';
import type { Terms } from '../../src/versions/price-again.js';
import { baseStyles } from '../look/base.styles.js';
import { formatDate } from '../look/format.js';
import type { Newer, Quoted } from './quoted-terms.js';

/**
 * Says under which card an estimate is priced where that is not plain, and offers the one in force. Shows nothing where
 * the page's card and catalogue are those of the estimate.
 *
 * Registered by its user; the sheet names it `baysheet-quoted`.
 *
 * @property {Estimate | null} estimate what is priced
 * @property {Terms | null} terms what it is priced under
 * @property {Newer | null} newer what is in force now, where that is something else
 * @property {boolean} missing the estimate names terms that are not to be had
 * @property {string} fault what could not be read or kept
 * @property {string} locale how figures are written
 *
 * @fires {CustomEvent<Quoted>} quote the estimate is to be priced under this card and catalogue from now on
 *
 * @csspart quoted under which card the estimate is priced
 */
export class QuotedNote extends LitElement {
  static override styles = [
    baseStyles,
    css`
      .quoted {
        display: flex;
        flex-wrap: wrap;
        gap: 0.375rem 1rem;
        align-items: center;
        padding: 0.5rem 0.75rem;
        border-inline-start: 3px solid var(--_accent);
        background: var(--_accent-wash);
      }

      @media print {
        .quoted {
          display: none;
        }
      }
    `,
  ];

  @property({ attribute: false }) estimate: Estimate | null = null;
  @property({ attribute: false }) terms: Terms | null = null;
  @property({ attribute: false }) newer: Newer | null = null;
  @property({ type: Boolean }) missing = false;
  @property() fault = '';
  @property() locale = 'en';

  @state() private asking = false;

  private onQuote({ detail }: CustomEvent<Quoted>): void {
    this.dispatchEvent(new CustomEvent('quote', { detail }));
  }

  protected override render(): TemplateResult | typeof nothing {
    const { estimate, terms, newer } = this;
    if (estimate === null || terms === null || (newer === null && !this.missing && this.fault === '')) return nothing;
    return html`<div class="quoted" part="quoted" role="note" aria-label="Quotation">
        <span>${this.words(terms, newer)}</span>
        ${this.fault === '' ? nothing : html`<span class="fault">${this.fault}</span>`}
        ${
          newer === null
            ? nothing
            : html`<button @click=${() => (this.asking = true)}>Price again under ${cardText(newer.rates, this.locale)} …</button>`
        }
      </div>
      <baysheet-price-again
        .estimate=${estimate}
        .from=${terms}
        .to=${newer}
        .locale=${this.locale}
        .open=${this.asking && newer !== null}
        @quote=${this.onQuote}
        @close=${() => (this.asking = false)}
      ></baysheet-price-again>`;
  }

  private words({ rates }: Terms, newer: Newer | null): string {
    const now = cardText(rates, this.locale);
    if (this.missing) return `Quoted under a rate card or a catalogue that is not to be found here. What you see is priced under ${now}.`;
    if (newer === null) return '';
    const isSameCard = this.estimate!.quoted?.rates === newer.quoted.rates;
    return `Priced as quoted, under ${now}. ${isSameCard ? 'The catalogue is another since.' : 'Another card is in force now.'}`;
  }
}

/** "the card from 1 Mar 2026" */
export function cardText({ effectiveFrom, title, id }: Rates, locale: string): string {
  return effectiveFrom === null ? `the card “${title || id}”` : `the card from ${formatDate(effectiveFrom, locale)}`;
}
