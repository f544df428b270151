import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property } from 'lit/decorators.js';
import { keyed } from 'lit/directives/keyed.js';
import type { Estimate } from '../../src/documents/estimate.js';
import { checkVin } from '../../src/documents/vin.js';
import { baseStyles } from '../look/base.styles.js';
import { formatDay } from '../look/format.js';
import { printStyles } from '../look/print.styles.js';
import { jobStyles } from './job-form.styles.js';

/** One change that the user made: the place in the estimate and what should stand there. */
export interface JobEdit {
  readonly path: readonly string[];
  readonly value: unknown;
}

/** A text field of the form: where its text lives, what it is called, and what the keyboard of a phone should offer. */
interface Field {
  readonly path: readonly [string] | readonly [string, string];
  readonly label: string;
  readonly type?: 'text' | 'tel' | 'email';
  readonly inputmode?: 'text' | 'numeric' | 'tel' | 'email';
  readonly wide?: boolean;
}

const VEHICLE: readonly Field[] = [
  { path: ['vehicle', 'label'], label: 'Vehicle', wide: true },
  { path: ['vehicle', 'plate'], label: 'Plate' },
];
const CUSTOMER: readonly Field[] = [
  { path: ['customer', 'name'], label: 'Customer', wide: true },
  { path: ['customer', 'phone'], label: 'Phone', type: 'tel', inputmode: 'tel' },
  { path: ['customer', 'email'], label: 'E-mail', type: 'email', inputmode: 'email' },
];

/**
 * The head of the job sheet: whose vehicle it is, which one, and what the customer said. It writes nothing itself; each
 * change is announced and comes back with the next `estimate`. What is being typed survives a new `estimate` of the
 * same job.
 *
 * The fields say `autocomplete="off"`: they are about somebody else than the person who types.
 *
 * Registered by its user; the sheet names it `baysheet-job`.
 *
 * @attribute open the fields are shown, not only the summary
 * @property {Estimate | null} estimate what is shown; null shows nothing
 * @property {{ id: string, title: string }[]} taxes the rate card's taxes, for the customer's exemptions
 * @property {string} locale how the day is written
 *
 * @fires {CustomEvent<JobEdit>} baysheet-job-edit a field was changed; bubbles, composed
 *
 * @csspart summary the line that opens and closes the form
 * @csspart fields all fields
 */
export class JobForm extends LitElement {
  static override styles = [baseStyles, jobStyles, printStyles];

  @property({ attribute: false }) estimate: Estimate | null = null;
  @property({ attribute: false }) taxes: readonly { readonly id: string; readonly title: string }[] = [];
  @property() locale = 'en';
  @property({ type: Boolean, reflect: true }) open = false;

  override willUpdate(changed: PropertyValues<this>): void {
    const before = changed.get('estimate');
    const isAnother = changed.has('estimate') && this.estimate?.id !== before?.id;
    // A new sheet has nothing to sum up yet, so its fields are offered at once.
    if (isAnother && this.estimate !== null && summaryOf(this.estimate).length === 0) this.open = true;
  }

  private readonly onText = (event: Event): void => {
    const field = event.target as HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;
    this.announce(field.name.split('.'), field.value);
  };

  private readonly onExempt = (event: Event): void => {
    const box = event.target as HTMLInputElement;
    const others = (this.estimate?.customer.taxExempt ?? []).filter((tax) => tax !== box.value);
    this.announce(['customer', 'taxExempt'], box.checked ? [...others, box.value] : others);
  };

  private readonly onToggle = (event: Event): void => {
    this.open = (event.target as HTMLDetailsElement).open;
  };

  private announce(path: readonly string[], value: unknown): void {
    const detail: JobEdit = { path, value };
    this.dispatchEvent(new CustomEvent('baysheet-job-edit', { detail, bubbles: true, composed: true }));
  }

  override render(): TemplateResult | typeof nothing {
    const { estimate } = this;
    if (estimate === null) return nothing;
    return html`<details ?open=${this.open} @toggle=${this.onToggle}>
      <summary part="summary">
        <span class="number">${estimate.number || 'Estimate without a number'}</span>
        ${summaryOf(estimate).map((fact) => html`<span>${fact}</span>`)}
      </summary>
      ${keyed(
        estimate.id,
        html`<div class="fields" part="fields">
          ${this.renderField({ path: ['number'], label: 'Estimate number' }, estimate)} ${this.renderFacts(estimate)}
          ${VEHICLE.map((field) => this.renderField(field, estimate))} ${this.renderOdometer(estimate)}
          ${this.renderVin(estimate)} ${CUSTOMER.map((field) => this.renderField(field, estimate))}
          <div class="field whole">
            <label for="concern">What the customer said</label>
            <textarea
              id="concern"
              name="concern"
              rows="3"
              autocomplete="off"
              .value=${estimate.concern}
              @change=${this.onText}
            ></textarea>
          </div>
          ${this.renderExemptions(estimate)}
        </div>`,
      )}
    </details>`;
  }

  private renderFacts(estimate: Estimate): TemplateResult {
    return html`<div class="field facts">
      <div><span class="label">Revision</span> <span class="value">${estimate.revision}</span></div>
      ${
        estimate.createdAt === ''
          ? nothing
          : html`<div>
            <span class="label">Date</span>
            <time class="value" datetime=${estimate.createdAt}>${formatDay(estimate.createdAt, this.locale)}</time>
          </div>`
      }
    </div>`;
  }

  private renderField(field: Field, estimate: Estimate): TemplateResult {
    const name = field.path.join('.');
    return html`<div class="field ${field.wide ? 'wide' : ''}">
      <label for=${name}>${field.label}</label>
      <input
        id=${name}
        name=${name}
        type=${field.type ?? 'text'}
        inputmode=${field.inputmode ?? 'text'}
        autocomplete="off"
        .value=${textAt(estimate, field.path)}
        @change=${this.onText}
      />
    </div>`;
  }

  private renderOdometer({ vehicle }: Estimate): TemplateResult {
    return html`<div class="field">
      <label for="odometer">Odometer</label>
      <div class="with-unit">
        <input
          id="odometer"
          name="vehicle.odometer"
          inputmode="numeric"
          autocomplete="off"
          .value=${vehicle.odometer}
          @change=${this.onText}
        />
        <select name="vehicle.unit" aria-label="Odometer unit" .value=${vehicle.unit} @change=${this.onText}>
          <option value="mi" ?selected=${vehicle.unit === 'mi'}>miles</option>
          <option value="km" ?selected=${vehicle.unit === 'km'}>km</option>
        </select>
      </div>
    </div>`;
  }

  private renderVin({ vehicle }: Estimate): TemplateResult {
    const { ok, reason } = vehicle.vin.trim() === '' ? { ok: true, reason: '' } : checkVin(vehicle.vin);
    return html`<div class="field wide">
      <label for="vin">VIN</label>
      <input
        id="vin"
        name="vehicle.vin"
        autocomplete="off"
        autocapitalize="characters"
        spellcheck="false"
        aria-describedby="vin-reason"
        .value=${vehicle.vin}
        @change=${this.onText}
      />
      <span id="vin-reason" class="fault">${ok ? nothing : reason}</span>
    </div>`;
  }

  private renderExemptions({ customer }: Estimate): TemplateResult | typeof nothing {
    if (this.taxes.length === 0) return nothing;
    return html`<fieldset class="field whole">
      <legend>The customer is exempt from</legend>
      <div class="choices">
        ${this.taxes.map(
          (tax) => html`<label class="choice">
            <input
              type="checkbox"
              name="customer.taxExempt"
              value=${tax.id}
              .checked=${customer.taxExempt.includes(tax.id)}
              @change=${this.onExempt}
            />
            ${tax.title}
          </label>`,
        )}
      </div>
    </fieldset>`;
  }
}

/** What tells one job from another, in few words; only what has been filled in. */
function summaryOf({ vehicle, customer }: Estimate): string[] {
  const plate = vehicle.plate === '' ? '' : `plate ${vehicle.plate}`;
  return [vehicle.label, plate, customer.name].filter((fact) => fact !== '');
}

function textAt(estimate: Estimate, [first, second]: readonly string[]): string {
  const outer = (estimate as unknown as Record<string, unknown>)[first!];
  return String(second === undefined ? outer : (outer as Record<string, unknown>)[second]);
}

declare global {
  interface HTMLElementEventMap {
    'baysheet-job-edit': CustomEvent<JobEdit>;
  }
}
