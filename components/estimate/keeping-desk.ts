import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import { baseStyles } from '../look/base.styles.js';
import { downloadText } from './files.js';
import type { Keeping, KeepingState } from './keeping.js';
import type { Typed } from './keeping-text.js';

/**
 * What is to be known about the keeping of the estimate, where it is more than that all is saved; and the dialogs that
 * go with it.
 *
 * Registered by its user; the sheet names it `baysheet-keeping`.
 *
 * @property {Keeping} keeping what keeps the estimate
 * @property {KeepingState | null} state how it stands with it
 * @property {Estimate | null} estimate what is on the screen
 * @property {(estimate: Estimate) => PricedEstimate} price
 *
 * @fires {Event} save-file the estimate on the screen is to be saved as a file
 * @fires {CustomEvent<File>} open-file a file was chosen in the list of estimates
 *
 * @csspart keeping what is to be known about the keeping
 */
export class KeepingDesk extends LitElement {
  static override styles = [
    baseStyles,
    css`
      /* With nothing to say it takes no place; its dialogs stand above the page anyway. */
      :host([quiet]) {
        position: absolute;
      }

      .notes {
        display: grid;
        gap: 0.5rem;
      }

      .note {
        display: flex;
        flex-wrap: wrap;
        gap: 0.375rem 1rem;
        align-items: center;
        padding: 0.5rem 0.75rem;
        border-inline-start: 3px solid var(--_accent);
        background: var(--_accent-wash);
        overflow-wrap: anywhere;
      }

      .note.bad {
        border-inline-start-color: var(--_fault);
      }

      .note > span {
        flex: 1 1 24rem;
      }

      @media print {
        .notes {
          display: none;
        }
      }
    `,
  ];

  @property({ attribute: false }) keeping: Keeping | null = null;
  /** Another object with each update, since what `keeping` shows changes inside it. */
  @property({ attribute: false, hasChanged: () => true }) state: KeepingState | null = null;
  @property({ attribute: false }) estimate: Estimate | null = null;
  @property({ attribute: false }) price: ((estimate: Estimate) => PricedEstimate) | null = null;
  @property() locale = 'en';

  @state() private opened: 'estimates' | 'compare' | 'backup' | null = null;

  /** Opens the list of estimates. */
  showEstimates(): void {
    this.opened = 'estimates';
  }

  private readonly close = (): void => {
    this.opened = null;
  };

  private saveFile(): void {
    this.dispatchEvent(new Event('save-file'));
  }

  protected override render(): TemplateResult | typeof nothing {
    const { keeping } = this;
    if (keeping === null || keeping.store === null) return nothing;
    const saving = keeping.state;
    const notes = [
      this.renderState(keeping),
      this.renderUnreadable(keeping),
      ...(keeping.isReading ? [] : keeping.recovered.texts.map((typed) => this.renderRecovered(typed, keeping))),
    ];
    this.toggleAttribute(
      'quiet',
      notes.every((note) => note === nothing),
    );
    return html`<div class="notes" part="keeping" data-not-kept>${notes}</div>
      <baysheet-compare
        data-not-kept
        .here=${this.estimate}
        .there=${saving.is === 'conflict' ? saving.current : null}
        .price=${this.price}
        .locale=${this.locale}
        .open=${this.opened === 'compare' && saving.is === 'conflict'}
        @choose=${({ detail }: CustomEvent<'mine' | 'theirs' | 'copy'>) => keeping.resolve(detail)}
        @close=${this.close}
      ></baysheet-compare>
      <baysheet-estimates
        data-not-kept
        .store=${keeping.store}
        .current=${this.estimate?.id ?? null}
        .locale=${this.locale}
        .open=${this.opened === 'estimates'}
        .keeping=${keeping}
        @open-file=${({ detail }: CustomEvent<File>) => this.dispatchEvent(new CustomEvent('open-file', { detail }))}
        @backup=${() => (this.opened = 'backup')}
        @close=${() => this.opened === 'estimates' && this.close()}
      ></baysheet-estimates>
      <baysheet-backup
        data-not-kept
        .store=${keeping.store}
        .locale=${this.locale}
        .open=${this.opened === 'backup'}
        @close=${this.close}
      ></baysheet-backup>`;
  }

  private renderState(keeping: Keeping): TemplateResult | typeof nothing {
    const { state: saving } = keeping;
    const saveFile = html`<button @click=${this.saveFile}>Save as a file</button>`;
    if (saving.is === 'reading') {
      return html`<div class="note" role="note" aria-label="Read only">
        <span
          >${
            saving.wasTakenOver
              ? 'Another tab has taken this estimate over. It can be read here, and follows what is saved there.'
              : 'This estimate is open in another tab. It can be read here, and follows what is saved there.'
          }</span
        >
        <button @click=${() => keeping.takeOver()}>${saving.wasTakenOver ? 'Take it back' : 'Take over'}</button>
      </div>`;
    }
    if (saving.is === 'failed') {
      return html`<div class="note bad" role="alert">
        <span><strong>Not saved.</strong> ${saving.fault.message} Nothing on the screen is lost${saving.fault.code === 'newer' ? '' : '; it is tried again'}.</span>
        ${
          saving.fault.code === 'corrupt'
            ? html`<button @click=${() => keeping.resolve('copy')}>Keep this as a copy</button>`
            : html`<button @click=${() => keeping.retry()}>Try again</button>`
        }
        ${saveFile}
      </div>`;
    }
    if (saving.is === 'conflict') {
      return html`<div class="note bad" role="alert">
        <span><strong>Not saved.</strong> ${saving.current === null ? 'This estimate was removed elsewhere.' : 'This estimate was changed elsewhere too.'} Nothing was put over anything.</span>
        <button class="main" @click=${() => (this.opened = 'compare')}>Compare …</button> ${saveFile}
      </div>`;
    }
    if (!keeping.wasRemoved) return nothing;
    return html`<div class="note" role="note" aria-label="Removed">
      <span>This estimate was removed elsewhere. What you see is all that is left of it; with the next change it is kept again.</span> ${saveFile}
    </div>`;
  }

  private renderUnreadable(keeping: Keeping): TemplateResult | typeof nothing {
    const { unreadable } = keeping;
    if (unreadable === null) return nothing;
    const { id, why, raw } = unreadable;
    return html`<div class="note bad" role="alert">
      <span><strong>The kept estimate “${id}” cannot be opened.</strong> ${why} Nothing was changed in it.</span>
      ${raw === null ? nothing : html`<button @click=${() => downloadText(raw, 'application/json', `${id}.kept.json`, this.ownerDocument)}>Save what is kept as a file</button>`}
      <button @click=${() => keeping.forgetUnreadable()}>Close</button>
    </div>`;
  }

  private renderRecovered(typed: Typed, keeping: Keeping): TemplateResult {
    const where = typed.label === '' ? '' : ` in “${typed.label}”`;
    return html`<div class="note" role="note" aria-label="Not entered yet">
      <span>This was being typed${where} when the page went away, and is not entered yet: <strong>${typed.text || '(emptied)'}</strong></span>
      ${
        keeping.recovered.canEnter(typed)
          ? html`<button class="main" @click=${() => keeping.recovered.enter(typed)}>Enter it there</button>`
          : html`<button @click=${() => void navigator.clipboard?.writeText(typed.text)}>Copy it</button>`
      }
      <button @click=${() => keeping.recovered.forget(typed)}>Leave it out</button>
    </div>`;
  }
}
