import { html, nothing, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import type { PartNote, PartState } from '../../src/documents/parts-run.js';
import { type PartChange, STATE_WORDS, withoutPartNote, withPartNote } from '../../src/work/part-notes.js';
import type { PartsPlan, PartToGet } from '../../src/work/parts-plan.js';
import { copyText } from '../look/copy-text.js';
import { dialogStyles, SheetDialog } from '../look/dialog.js';
import { formatFigure } from '../look/format.js';
import { printPage } from '../look/on-paper.js';
import { downloadText } from './files.js';
import { takeBack } from './parts-run-paper.js';
import { partsRunStyles } from './parts-run.styles.js';
import { neededFor, partsRunCsv, partsRunText } from './parts-run-text.js';

const STATES = Object.keys(STATE_WORDS) as PartState[];

/** The notes of the parts run after a change, and what was done, in words. */
export interface PartsRunEdit {
  readonly notes: readonly PartNote[];
  readonly what: string;
}

/**
 * The parts run: one list for one trip, by supplier, with how far each part has come.
 *
 * @property {PartsPlan | null} plan what is to get
 * @property {readonly PartNote[]} notes what is noted of it so far
 * @property {string} locale how figures are written
 * @property {string} name what a file is called
 *
 * @fires {CustomEvent<PartsRunEdit>} note something was noted
 * @fires {Event} close it was closed
 */
export class PartsRunDialog extends SheetDialog {
  static override styles = [dialogStyles, partsRunStyles];

  @property({ attribute: false }) plan: PartsPlan | null = null;
  @property({ attribute: false }) notes: readonly PartNote[] = [];
  @property() locale = 'en';
  @property() name = '';

  @state() private done = '';
  /** The part whose supplier is being changed. */
  @state() private moving = '';
  protected readonly heading = 'Parts run';

  private note(notes: readonly PartNote[], what: string): void {
    this.done = '';
    this.dispatchEvent(new CustomEvent<PartsRunEdit>('note', { detail: { notes, what } }));
  }

  private change(part: PartToGet, change: PartChange): void {
    this.note(withPartNote(this.notes, part, change), `note on ${part.title}`);
  }

  private onState(part: PartToGet, event: Event): void {
    this.change(part, { state: (event.target as HTMLSelectElement).value as PartState });
  }

  /** One gesture for a whole counter: what stands in another state is set to this one. */
  private onAll(supplier: string, parts: readonly PartToGet[], event: Event): void {
    const select = event.target as HTMLSelectElement;
    const value = select.value as PartState;
    select.value = '';
    const notes = parts.reduce<readonly PartNote[]>((before, part) => withPartNote(before, part, { state: value }), this.notes);
    this.note(notes, `${STATE_WORDS[value]}: all of ${supplier || 'no supplier'}`);
  }

  private async onCopy(): Promise<void> {
    const copied = await copyText(partsRunText(this.plan!, this.locale), this.renderRoot.querySelector('dialog')!);
    this.done = copied ? 'The list is copied.' : 'The list cannot be copied here. Save it as a file instead.';
  }

  private onFile(): void {
    downloadText(partsRunCsv(this.plan!, this.locale), 'text/csv', `parts-run-${this.name}.csv`, this.ownerDocument);
    this.done = 'The file is saved.';
  }

  protected override renderBody(): TemplateResult {
    const plan = this.plan!;
    const isEmpty = plan.suppliers.length === 0;
    return html`<div class="body">
      ${
        plan.warnings.length === 0
          ? nothing
          : html`<ul class="warnings">
            ${plan.warnings.map((warning) => html`<li><strong>Check:</strong> ${warning.message} <span class="quiet">${warning.hint ?? ''}</span></li>`)}
          </ul>`
      }
      ${plan.notNeeded.length === 0 ? nothing : this.renderNotNeeded(plan.notNeeded)}
      ${isEmpty ? html`<p>No approved line needs parts. Approve lines, and what they need stands here.</p>` : nothing}
      ${repeat(
        plan.suppliers,
        ({ supplier }) => supplier,
        ({ supplier, parts }) => this.renderSupplier(supplier, parts),
      )}
      <p class="quiet" role="status">${this.done}</p>
      <div class="buttons">
        <button ?disabled=${isEmpty} @click=${this.onCopy}>Copy as text</button>
        <button ?disabled=${isEmpty} @click=${this.onFile}>Save as CSV …</button>
        <button ?disabled=${isEmpty} @click=${printPage}>Print</button>
        <button class="main" @click=${this.close}>Done</button>
      </div>
    </div>`;
  }

  private renderSupplier(supplier: string, parts: readonly PartToGet[]): TemplateResult {
    const called = supplier || 'No supplier named';
    return html`<section aria-label=${called}>
      <div class="counter">
        <h3>${called}</h3>
        <label>All of it <select aria-label="State of all parts: ${called}" @change=${(event: Event) => this.onAll(supplier, parts, event)}>
          <option value="" selected disabled>…</option>
          ${STATES.map((value) => html`<option value=${value}>${STATE_WORDS[value]}</option>`)}
        </select></label>
      </div>
      <table>
        <thead>
          <tr>
            <th scope="col" class="figure">To get</th><th scope="col">Part</th><th scope="col">For</th><th scope="col">State</th>
            <th scope="col">Note</th>
          </tr>
        </thead>
        <tbody>
          ${repeat(parts, keyOf, (part) => this.renderPart(part))}
        </tbody>
      </table>
    </section>`;
  }

  private renderPart(part: PartToGet): TemplateResult {
    const figure = (text: string): string => formatFigure(text, this.locale);
    const back = takeBack(part, figure);
    return html`<tr>
      <td class="figure qty">${part.qty === '0' ? '–' : figure(part.qty)}</td>
      <th scope="row">
        ${part.title}${part.condition === 'new' ? nothing : html`, ${part.condition}`}
        <span class="number">${part.number}</span>
        ${back === '' ? nothing : html`<span class="back">Take back: ${back}</span>`}
      </th>
      <td class="for">${neededFor(part, figure, 2)}</td>
      <td class="state">
        <select aria-label="State: ${part.title}" .value=${part.state} @change=${(event: Event) => this.onState(part, event)}>
          ${STATES.map((value) => html`<option value=${value} ?selected=${value === part.state}>${STATE_WORDS[value]}</option>`)}
        </select>
        ${this.renderChanged(part, figure)}
      </td>
      <td class="note">
        <input aria-label="Note: ${part.title}" placeholder="Note" autocomplete="off" .value=${part.note} @change=${(event: Event) => this.change(part, { note: (event.target as HTMLInputElement).value })} />
        ${this.renderElsewhere(part)}
      </td>
    </tr>`;
  }

  /** Another supplier for this job, and back: seldom, so the field is there when asked for. */
  private renderElsewhere(part: PartToGet): TemplateResult {
    if (this.moving !== keyOf(part)) {
      return html`<button class="link" aria-label="Other supplier: ${part.title}" @click=${() => this.onMove(part)}>Other supplier …</button>`;
    }
    return html`<input
      class="moving"
      aria-label="Supplier: ${part.title}"
      placeholder="Empty: the usual one"
      autocomplete="off"
      .value=${part.supplier}
      @change=${(event: Event) => this.onSupplier(part, event)}
      @blur=${() => (this.moving = '')}
    />`;
  }

  private async onMove(part: PartToGet): Promise<void> {
    this.moving = keyOf(part);
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLInputElement>('.moving')?.select();
  }

  private onSupplier(part: PartToGet, event: Event): void {
    this.change(part, { supplier: (event.target as HTMLInputElement).value.trim() || undefined });
    this.moving = '';
  }

  /** That more or fewer are needed than the state was said of. */
  private renderChanged(part: PartToGet, figure: (text: string) => string): TemplateResult | typeof nothing {
    if (part.more !== '0') return html`<strong class="changed">${figure(part.more)} more to find</strong>`;
    return part.over === '0' ? nothing : html`<strong class="changed">${figure(part.over)} too many</strong>`;
  }

  private renderNotNeeded(notes: readonly PartNote[]): TemplateResult {
    return html`<section aria-labelledby="not-needed">
      <h3 id="not-needed">Not needed any more</h3>
      <ul>
        ${notes.map(
          (note) => html`<li>
            ${note.qty} × ${note.title} ${note.number}, ${STATE_WORDS[note.state]}
            <button @click=${() => this.note(withoutPartNote(this.notes, note), `settling ${note.title}`)}>Settled</button>
          </li>`,
        )}
      </ul>
    </section>`;
  }
}

function keyOf({ number, part, title, condition }: PartToGet): string {
  return JSON.stringify([number, part, title, condition]);
}
