import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import { repeat } from 'lit/directives/repeat.js';
import type { Estimate } from '../../src/documents/estimate.js';
import { codeSystem, type ExplainedCode, explainedCodes } from '../../src/findings/codes.js';
import { findingName } from '../../src/findings/round-words.js';
import type { CatalogueIndex } from '../../src/overlap/catalogue-index.js';
import { baseStyles } from '../look/base.styles.js';
import { addCodes, explain, noteCode, removeCode } from './codes-edits.js';
import { paneStyles } from './pane.styles.js';
import { type PaneEdit, sendEdit } from './pane-edit.js';

/**
 * The trouble codes of the vehicle, each beside the findings that explain it; a code that nothing explains says so.
 *
 * Registered by its user; the sheet names it `baysheet-codes`.
 *
 * @property {Estimate | null} estimate
 * @property {CatalogueIndex | null} catalogue names of components
 *
 * @fires {CustomEvent<PaneEdit>} edit what a person did, as one step
 *
 * @csspart code one trouble code
 */
export class CodesPane extends LitElement {
  static override styles = [
    baseStyles,
    paneStyles,
    css`
      details {
        padding-inline: 0.875rem;
        background: var(--_paper);
        border: 1px solid var(--_rule);
        border-block-start: 0;
      }

      .pane {
        display: grid;
        gap: 0.625rem;
        padding-block: 0.25rem 0.875rem;
      }

      .code {
        display: grid;
        grid-template-columns: minmax(9rem, 1fr) minmax(0, 2fr) minmax(0, 2fr) auto;
        gap: 0.25rem 1rem;
        align-items: start;
        padding-block: 0.5rem;
        border-block-end: 1px solid var(--_rule);
      }

      .code small {
        display: block;
        font-size: 0.9em;
      }

      .why {
        display: grid;
        gap: 0.25rem;
      }

      .why > p {
        display: flex;
        flex-wrap: wrap;
        gap: 0 0.5rem;
        align-items: baseline;
        justify-content: space-between;
      }

      form {
        display: flex;
        flex-wrap: wrap;
        gap: 0.5rem;
        align-items: center;
      }

      form input {
        width: 14rem;
      }

      @container (max-width: 40rem) {
        .code {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  @property({ attribute: false }) estimate: Estimate | null = null;
  @property({ attribute: false }) catalogue: CatalogueIndex | null = null;

  @state() private typed = '';
  @state() private reason = '';

  private edit(edit: PaneEdit): void {
    sendEdit(this, edit);
  }

  private onAdd(event: Event): void {
    event.preventDefault();
    if (this.typed.trim() === '') return;
    const outcome = addCodes(this.estimate!, this.typed);
    this.reason = 'reason' in outcome ? outcome.reason : '';
    if ('reason' in outcome) return;
    this.typed = '';
    this.edit(outcome.edit);
  }

  protected override render(): TemplateResult | typeof nothing {
    const { estimate, catalogue } = this;
    if (estimate === null || catalogue === null) return nothing;
    const codes = explainedCodes(estimate);
    const open = codes.filter(({ findings }) => findings.length === 0).length;
    return html`<details>
      <summary>
        <h3>Trouble codes</h3>
        <span>${codes.map(({ code }) => code).join(', ') || 'none'}</span>
        ${open === 0 ? nothing : html`<span><strong>${open === 1 ? '1 is' : `${open} are`} not explained</strong> by any finding</span>`}
      </summary>
      <div class="pane">
        ${
          codes.length === 0
            ? nothing
            : html`<ul>${repeat(
                codes,
                ({ code }) => code,
                (code) => this.renderCode(code, estimate, catalogue),
              )}</ul>`
        }
        <form @submit=${this.onAdd}>
          <label for="add">Add a trouble code</label>
          <input
            id="add"
            autocomplete="off"
            autocapitalize="characters"
            spellcheck="false"
            placeholder="P0171"
            aria-describedby="reason"
            aria-invalid=${this.reason !== ''}
            .value=${live(this.typed)}
            @input=${(event: Event) => (this.typed = (event.target as HTMLInputElement).value)}
          />
          <button>Add</button>
          <span id="reason" class="fault" role="alert">${this.reason}</span>
        </form>
      </div>
    </details>`;
  }

  private renderCode(entry: ExplainedCode, estimate: Estimate, { catalogue }: CatalogueIndex): TemplateResult {
    const { code, note, findings } = entry;
    const others = estimate.findings.filter((finding) => !findings.includes(finding));
    return html`<li class="code" part="code">
      <span><strong>${code}</strong> <small class="quiet">${codeSystem(code)}</small></span>
      <input autocomplete="off" aria-label="Note on ${code}" placeholder="stored, pending, what it says" .value=${live(note)} @change=${(event: Event) => this.edit(noteCode(estimate, code, (event.target as HTMLInputElement).value))} />
      <div class="why">
        ${findings.length === 0 ? html`<p>No finding explains it.</p>` : nothing}
        ${findings.map((finding) => {
          const name = findingName(finding, catalogue);
          return html`<p>
            ${name} <button aria-label="Not this: ${name} does not explain ${code}" @click=${() => this.edit(explain(finding, code, false))}>Not this</button>
          </p>`;
        })}
        <select aria-label="Finding that explains ${code}" @change=${(event: Event) => this.onExplain(event, code, estimate)}>
          <option value="">explained by …</option>
          ${others.map((finding) => html`<option value=${finding.id}>${findingName(finding, catalogue)}</option>`)}
        </select>
      </div>
      <button aria-label="Remove ${code}" @click=${() => this.edit(removeCode(estimate, code))}>Remove</button>
    </li>`;
  }

  private onExplain(event: Event, code: string, { findings }: Estimate): void {
    const select = event.target as HTMLSelectElement;
    const finding = findings.find(({ id }) => id === select.value);
    select.value = '';
    if (finding !== undefined) this.edit(explain(finding, code, true));
  }
}
