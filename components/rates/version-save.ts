import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Rates } from '../../src/documents/rates.js';
import type { CardVersion } from '../../src/versions/card-versions.js';
import { ratesDifference } from '../../src/versions/rates-difference.js';
import { SheetDialog } from '../look/dialog.js';
import { formatDate } from '../look/format.js';
import { changesList } from './changes-list.js';

/**
 * Asks from which day a new version of the card is in force, and shows what it changes. Nothing that was saved before is
 * overwritten. It stays open until its owner has kept the version, and says why where that failed.
 *
 * @property {Rates | null} rates what is saved
 * @property {Rates | null} saved the card before the changes
 * @property {readonly CardVersion[]} versions what is kept already
 * @property {string} today ISO 8601
 * @property {string} fault why the version could not be kept
 * @property {boolean} busy it is being kept
 * @property {number} pending entries that cannot be used, and so are not part of the card
 *
 * @fires {CustomEvent<string>} keep with the day from which it is in force
 * @fires {CustomEvent<string>} download as a file instead, with that day
 * @fires {Event} close it was closed
 */
export class VersionSave extends SheetDialog {
  @property({ attribute: false }) rates: Rates | null = null;
  @property({ attribute: false }) saved: Rates | null = null;
  @property({ attribute: false }) versions: readonly CardVersion[] = [];
  @property() today = '';
  @property() fault = '';
  @property({ type: Boolean }) busy = false;
  @property({ type: Number }) pending = 0;

  @state() private day = '';
  @state() private asked = false;
  protected readonly heading = 'Save a new version';

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('open') || !this.open) return;
    const { effectiveFrom } = this.rates!;
    // The day of the version before would put the new one over it.
    this.day = effectiveFrom !== null && effectiveFrom !== this.saved?.effectiveFrom ? effectiveFrom : this.today;
    this.asked = false;
  }

  private onSubmit(event: Event): void {
    event.preventDefault();
    this.asked = true;
    if (this.day === '') this.renderRoot.querySelector<HTMLElement>('#day')?.focus();
    else this.dispatchEvent(new CustomEvent('keep', { detail: this.day }));
  }

  protected override renderBody(): TemplateResult {
    const rates = { ...this.rates!, effectiveFrom: this.day || null };
    const same = this.versions.filter((version) => version.rates.id === rates.id && (version.rates.effectiveFrom ?? '') === this.day);
    return html`<form @submit=${this.onSubmit} novalidate>
      <div class="field">
        <label for="day">In force from</label>
        <input
          id="day"
          type="date"
          .value=${this.day}
          @input=${(event: Event) => (this.day = (event.target as HTMLInputElement).value)}
          aria-invalid=${this.asked && this.day === ''}
          aria-describedby="day-fault"
        />
        <span class="fault" id="day-fault">${this.asked && this.day === '' ? 'Say from which day the new version is in force.' : ''}</span>
      </div>
      ${same.length === 0 ? nothing : html`<p>A version from ${formatDate(this.day, rates.locale)} is kept already; from that day on this one takes its place. The other is kept too.</p>`}
      ${this.pending === 0 ? nothing : html`<p>${this.pending} ${this.pending === 1 ? 'entry' : 'entries'} on the card cannot be used and will not be part of it.</p>`}
      <div>
        <p><strong>What it changes</strong></p>
        ${this.saved === null ? nothing : changesList(ratesDifference(this.saved, rates), rates.locale)}
      </div>
      <p class="quiet">
        No version is ever overwritten, and an estimate that was quoted under another keeps its prices until someone prices it again
        on purpose.
      </p>
      <div role="alert">
        ${
          this.fault === ''
            ? nothing
            : html`<p class="fault"><strong>Not saved.</strong> ${this.fault} Nothing is lost: the card stays here as it is. You may save it as a file now.</p>`
        }
      </div>
      <div class="buttons">
        ${this.fault === '' ? nothing : html`<button type="button" @click=${() => this.dispatchEvent(new CustomEvent('download', { detail: this.day }))}>Save as a file</button>`}
        <button type="button" @click=${this.close}>Cancel</button>
        <button class="main" ?disabled=${this.busy}>${this.busy ? 'Saving …' : this.fault === '' ? 'Save version' : 'Try again'}</button>
      </div>
    </form>`;
  }
}
