import { html, nothing, type TemplateResult } from 'lit';
import { property } from 'lit/decorators.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import { priceAgain, type PricedAgain, type Terms } from '../../src/versions/price-again.js';
import { SheetDialog } from '../look/dialog.js';
import { formatMoney } from '../look/format.js';
import { differenceList } from './difference-list.js';
import type { Newer } from './quoted-terms.js';

/**
 * Shows what pricing an estimate under another card would do to it, before it is done.
 *
 * @property {Estimate | null} estimate what is priced
 * @property {Terms | null} from what it is priced under
 * @property {Newer | null} to what it would be priced under
 * @property {string} locale how figures are written
 *
 * @fires {CustomEvent<Quoted>} quote it is to be done
 * @fires {Event} close it was closed
 */
export class PriceAgainDialog extends SheetDialog {
  @property({ attribute: false }) estimate: Estimate | null = null;
  @property({ attribute: false }) from: Terms | null = null;
  @property({ attribute: false }) to: Newer | null = null;
  @property() locale = 'en';
  protected readonly heading = 'Price this estimate again';

  private onSubmit(event: Event): void {
    event.preventDefault();
    this.dispatchEvent(new CustomEvent('quote', { detail: this.to!.quoted }));
    this.close();
  }

  protected override renderBody(): TemplateResult {
    const again = priceAgain(this.estimate!, this.from!, this.to!);
    const lines = differenceList(again.difference, again.after.currency, this.locale);
    return html`<form @submit=${this.onSubmit}>
      ${this.renderTotals(again)}
      <div>
        <p><strong>Lines that move</strong></p>
        ${lines === nothing ? html`<p>None.</p>` : lines}
      </div>
      ${again.after.problems.filter(({ severity }) => severity === 'error').map(({ message }) => html`<p class="fault">Not priced under the other card: ${message}</p>`)}
      <p class="quiet">
        What the customer has authorised does not change with it: where the new total is above what was authorised, a new
        authorisation is needed. Undo brings the old prices back.
      </p>
      <div class="buttons">
        <button type="button" @click=${this.close}>Leave as quoted</button>
        <button class="main">Price again</button>
      </div>
    </form>`;
  }

  private renderTotals({ before, after, more }: PricedAgain): TemplateResult {
    const money = (amount: string, { currency }: PricedEstimate): string => formatMoney(amount, currency, this.locale);
    const row = (title: string, of: 'subtotal' | 'discount' | 'tax' | 'total'): TemplateResult =>
      html`<tr>
        <th scope="row">${title}</th>
        <td class="figure">${money(before.totals[of], before)}</td>
        <td class="figure">${money(after.totals[of], after)}</td>
      </tr>`;
    return html`<table class="ruled">
        <thead>
          <tr>
            <td></td>
            <th scope="col" class="figure">As quoted</th>
            <th scope="col" class="figure">Priced again</th>
          </tr>
        </thead>
        <tbody>
          ${row('Before discount and tax', 'subtotal')} ${row('Discount', 'discount')} ${row('Tax', 'tax')} ${row('Total', 'total')}
        </tbody>
      </table>
      <p>${more === null ? 'The two cards are in different currencies.' : html`Difference of the totals: <strong>${money(more, after)}</strong>`}</p>`;
  }
}
