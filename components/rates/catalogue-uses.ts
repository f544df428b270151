import { css, html, nothing, type TemplateResult } from 'lit';
import { property } from 'lit/decorators.js';
import type { CatalogueList, CatalogueRow } from '../../src/store/catalogue-draft.js';
import type { Use } from '../../src/store/catalogue-links.js';
import { dialogStyles, SheetDialog } from '../look/dialog.js';
import { useInWords } from './catalogue-actions.js';
import { LIST_TITLES } from './catalogue-lists.js';
import { titleOf } from './catalogue-view.js';

/** More places than this are counted, not listed. */
const MOST_LISTED = 200;

/** What is asked: only where rows are used, or whether they are to go. */
export interface UsesQuestion {
  readonly ask: 'uses' | 'remove';
  readonly list: CatalogueList;
  readonly rows: readonly CatalogueRow[];
  readonly uses: readonly Use[];
}

/**
 * Says where entries of the catalogue are named. When they are to be removed, nothing goes without a word: the person
 * takes the uses out too, or leaves all as it is.
 *
 * @property {UsesQuestion | null} question what is asked
 *
 * @fires {CustomEvent} remove take the entries out, and every use of them
 * @fires {CustomEvent<Use>} go one of the places is to be shown
 */
export class CatalogueUses extends SheetDialog {
  static override styles = [
    ...dialogStyles,
    css`
      .places {
        display: grid;
        gap: 0.25rem;
        max-block-size: 50vh;
        overflow: auto;
      }

      .places button {
        width: 100%;
        text-align: start;
      }
    `,
  ];

  @property({ attribute: false }) question: UsesQuestion | null = null;

  protected override get heading(): string {
    const { question } = this;
    if (question === null) return '';
    const { rows, list } = question;
    const what = rows.length === 1 ? `“${titleOf(rows[0]!)}”` : `${rows.length} ${LIST_TITLES[list].title.toLowerCase()}`;
    return question.ask === 'remove' ? `Remove ${what}?` : `Where ${what} is used`;
  }

  private go(use: Use): void {
    this.close();
    this.dispatchEvent(new CustomEvent('go', { detail: use }));
  }

  private onRemove(): void {
    this.close();
    this.dispatchEvent(new CustomEvent('remove'));
  }

  protected override renderBody(): TemplateResult {
    const { ask, uses, rows, list } = this.question!;
    const it = rows.length === 1 ? 'It' : 'They';
    const goes = uses.filter((use) => use.goes).length;
    return html`<div class="body">
      <p>
        ${
          uses.length === 0
            ? 'No other entry of the catalogue names it.'
            : html`${it} ${rows.length === 1 ? 'is' : 'are'} named in ${uses.length} ${uses.length === 1 ? 'place' : 'places'}:`
        }
      </p>
      <ul class="places">
        ${uses
          .slice(0, MOST_LISTED)
          .map(
            (use) =>
              html`<li><button @click=${() => this.go(use)}>${useInWords(use)}${ask === 'remove' && use.goes ? html` <strong>(goes with it)</strong>` : nothing}</button></li>`,
          )}
      </ul>
      ${uses.length > MOST_LISTED ? html`<p class="quiet">and ${uses.length - MOST_LISTED} more</p>` : nothing}
      ${
        ask === 'remove' && goes > 0
          ? html`<p class="quiet">${goes} of the places ${goes === 1 ? 'says' : 'say'} nothing without it and ${goes === 1 ? 'is' : 'are'} removed as a whole.</p>`
          : nothing
      }
      ${
        ask === 'remove' && list === 'operations'
          ? html`<p class="quiet">Lines of estimates that name it can no longer be priced, and say so.</p>`
          : nothing
      }
      <div class="buttons">
        ${ask === 'remove' ? html`<button class="main" @click=${this.onRemove}>Remove it and these uses</button>` : nothing}
        <button autofocus @click=${this.close}>${ask === 'remove' ? 'Leave all as it is' : 'Close'}</button>
      </div>
    </div>`;
  }
}
