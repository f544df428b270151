import { html, nothing, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { SheetDialog } from '../look/dialog.js';
import type { Preset } from './card-presets.js';

/**
 * Offers presets of law with their sources, and says what they are worth.
 *
 * @property {readonly Preset[]} presets what is offered
 * @property {string} heading what they are for
 *
 * @fires {CustomEvent<Preset>} choose one was taken
 * @fires {Event} close it was closed
 */
export class PresetDialog extends SheetDialog {
  @property({ attribute: false }) presets: readonly Preset[] = [];
  @property() override heading = '';

  @state() private chosen = '';

  private onSubmit(event: Event): void {
    event.preventDefault();
    const preset = this.presets.find(({ id }) => id === this.chosen);
    if (preset === undefined) return;
    this.dispatchEvent(new CustomEvent<Preset>('choose', { detail: preset }));
    this.close();
  }

  protected override renderBody(): TemplateResult {
    const preset = this.presets.find(({ id }) => id === this.chosen);
    return html`<form @submit=${this.onSubmit}>
      <p>A convenience, not legal or tax advice. Laws change and have exceptions: what the law of your place says decides.</p>
      <div class="field">
        <label for="preset">Place</label>
        <select id="preset" @change=${(event: Event) => (this.chosen = (event.target as HTMLSelectElement).value)}>
          <option value="" ?selected=${preset === undefined}>Choose a place …</option>
          ${this.presets.map(({ id, place, text }) => html`<option value=${id} ?selected=${id === this.chosen}>${place}: ${text}</option>`)}
        </select>
      </div>
      ${preset === undefined ? nothing : sourcesOf(preset)}
      <div class="buttons">
        <button type="button" @click=${this.close}>Cancel</button>
        <button class="main" ?disabled=${preset === undefined}>Put on the card</button>
      </div>
    </form>`;
  }
}

function sourcesOf({ text, sources, note }: Preset): TemplateResult {
  return html`<p><strong>${text}</strong></p>
    ${sources.map((source) => html`<p><strong>${source.of}, ${source.seen}:</strong> ${source.text}</p>`)}
    ${note === '' ? nothing : html`<p>${note}</p>`}`;
}
