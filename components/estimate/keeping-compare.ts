import { css, html, nothing, type TemplateResult } from 'lit';
import { property } from 'lit/decorators.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import { dialogStyles, SheetDialog } from '../look/dialog.js';
import { formatMoney } from '../look/format.js';
import type { Kept } from '../storage/port.js';
import { versionsDiffer } from './keeping-difference.js';
import { readKept } from './keeping-text.js';
import { momentText } from './keeping-words.js';

/**
 * Shows the estimate on the screen and the one that somebody else has saved meanwhile side by side, for a person to
 * choose between them. Nothing is put before that.
 *
 * @property {Estimate | null} here the one on the screen
 * @property {Kept | null} there the one that is kept; null where it was removed
 * @property {(estimate: Estimate) => PricedEstimate} price prices both under the same card
 *
 * @fires {CustomEvent<'mine' | 'theirs' | 'copy'>} choose what is to be done
 * @fires {Event} close it was closed
 */
export class KeepingCompare extends SheetDialog {
  static override styles = [
    dialogStyles,
    css`
      dialog {
        width: min(60rem, calc(100vw - 2rem));
      }

      .scroll {
        overflow: auto;
        max-block-size: 24rem;
      }

      table.ruled {
        width: 100%;
      }

      td {
        overflow-wrap: anywhere;
      }
    `,
  ];

  @property({ attribute: false }) here: Estimate | null = null;
  @property({ attribute: false }) there: Kept | null = null;
  @property({ attribute: false }) price: ((estimate: Estimate) => PricedEstimate) | null = null;
  @property() locale = 'en';
  protected readonly heading = 'Two versions of this estimate';

  private choose(choice: 'mine' | 'theirs' | 'copy'): void {
    this.dispatchEvent(new CustomEvent('choose', { detail: choice }));
    this.close();
  }

  protected override renderBody(): TemplateResult {
    const { here, there } = this;
    if (here === null || this.price === null) return html``;
    if (there === null) {
      return html`<div class="body">
        <p>This estimate was removed from where it is kept while you changed it here.</p>
        ${this.renderButtons(false, 'Keep mine', 'It is kept again as it stands here.')}
      </div>`;
    }
    const theirs = readKept(there.text);
    if (!theirs.ok) {
      return html`<div class="body">
        <p>What is kept under this estimate’s id since ${momentText(new Date(there.savedAt), this.locale)} cannot be read here.</p>
        ${this.renderButtons(false, 'Put mine over it', 'What is kept now is lost then.')}
      </div>`;
    }
    const [mine, other] = [here, theirs.value.estimate].map((estimate) => ({ estimate, priced: this.price!(estimate) })) as [
      { estimate: Estimate; priced: PricedEstimate },
      { estimate: Estimate; priced: PricedEstimate },
    ];
    const differing = versionsDiffer(mine, other, this.locale);
    const total = ({ priced }: typeof mine): string => formatMoney(priced.totals.total, priced.currency, this.locale);
    return html`<div class="body">
      <p>
        Somebody else, or another tab, has saved this estimate since you read it. Nothing was put over anything. ${differing.length === 0 ? 'Both say the same.' : nothing}
      </p>
      <div class="scroll" tabindex="0" role="group" aria-label="The two versions side by side">
        <table class="ruled">
          <thead>
            <tr>
              <th scope="col">What differs</th>
              <th scope="col">Mine, on this screen</th>
              <th scope="col">Theirs, saved ${momentText(new Date(there.savedAt), this.locale)}</th>
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row">Total</th>
              <td><strong>${total(mine)}</strong></td>
              <td><strong>${total(other)}</strong></td>
            </tr>
            ${differing.map(
              ({ what, here: ours, there: others }) =>
                html`<tr>
                  <th scope="row">${what}</th>
                  <td>${ours}</td>
                  <td>${others}</td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      ${this.renderButtons(true, 'Keep mine', 'Mine is put over theirs; theirs is taken, and undo brings mine back; or mine becomes an estimate of its own, and both stay.')}
    </div>`;
  }

  private renderButtons(both: boolean, mine: string, words: string): TemplateResult {
    return html`<p class="quiet">${words}</p>
      <div class="buttons">
        <button @click=${this.close}>Decide later</button>
        <button @click=${() => this.choose('copy')}>Keep mine as a copy</button>
        ${both ? html`<button @click=${() => this.choose('theirs')}>Take theirs</button>` : nothing}
        <button class="main" @click=${() => this.choose('mine')}>${mine}</button>
      </div>`;
  }
}
