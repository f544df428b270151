import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { type ConsentDetails, consentProblems, type ConsentWay, ways } from '../../src/consent/record.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import { SheetDialog } from '../look/dialog.js';
import { formatMoney } from '../look/format.js';

/** What a person has typed about a consent, and what they have yet to say. */
type Field = 'by' | 'takenBy' | 'contact' | 'at' | 'note';

/**
 * The form in which a consent is recorded, given by phone, in person, or by a reply that was opened: who, when, how,
 * and what is authorised, all of which the record must hold.
 *
 * @property {Estimate | null} estimate what is authorised
 * @property {PricedEstimate | null} priced its price
 * @property {Partial<ConsentDetails> | null} given what is known already, from a reply
 * @property {string} locale how figures are written
 *
 * @fires {CustomEvent<ConsentDetails>} consent the form was filled in
 * @fires {Event} close it was closed
 */
export class ConsentDialog extends SheetDialog {
  @property({ attribute: false }) estimate: Estimate | null = null;
  @property({ attribute: false }) priced: PricedEstimate | null = null;
  @property({ attribute: false }) given: Partial<ConsentDetails> | null = null;
  @property() locale = 'en';

  @state() private details: ConsentDetails = { at: '', by: '', takenBy: '', how: 'phone', contact: '' };
  @state() private asked = false;
  protected readonly heading = 'Record the customer’s authorisation';

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('open') || !this.open) return;
    const { customer } = this.estimate!;
    this.asked = false;
    this.details = {
      at: new Date().toISOString(),
      by: customer.name,
      takenBy: this.details.takenBy,
      how: 'phone',
      contact: customer.phone || customer.email,
      note: '',
      ...this.given,
    };
  }

  private set(changes: Partial<ConsentDetails>): void {
    this.details = { ...this.details, ...changes };
  }

  private onSubmit(event: Event): void {
    event.preventDefault();
    this.asked = true;
    if (consentProblems(this.details).length > 0) {
      void this.updateComplete.then(() => this.renderRoot.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus());
      return;
    }
    this.dispatchEvent(new CustomEvent<ConsentDetails>('consent', { detail: this.details }));
    this.close();
  }

  protected override renderBody(): TemplateResult {
    const { priced } = this;
    const money = (amount: string): string => formatMoney(amount, priced!.currency, this.locale);
    const left = priced!.lines.filter((line) => !line.priced && line.kind !== 'note');
    return html`<form @submit=${this.onSubmit} novalidate>
      <p>
        Authorised is the work of revision ${this.estimate!.revision} as it stands, for
        <strong>${money(priced!.totals.total)}</strong>.
        ${left.length === 0 ? nothing : html`Not in it: ${left.map((line) => `${line.title} (${line.decision})`).join(', ')}.`}
      </p>
      ${this.renderText('by', 'Given by', 'name')}
      <div class="field">
        <label for="how">How</label>
        <select id="how" @change=${(event: Event) => this.set({ how: (event.target as HTMLSelectElement).value as ConsentWay })}>
          ${ways.map((way) => html`<option value=${way} ?selected=${this.details.how === way}>${way}</option>`)}
        </select>
      </div>
      ${this.renderText('contact', 'Telephone number or e-mail address used', 'off')}
      <div class="field">
        <label for="at">When</label>
        <input
          id="at"
          type="datetime-local"
          .value=${localTime(this.details.at)}
          @change=${(event: Event) => this.set({ at: isoTime((event.target as HTMLInputElement).value) })}
          aria-invalid=${this.fault('at') !== undefined}
          aria-describedby="at-fault"
        />
        ${this.renderFault('at')}
      </div>
      ${this.renderText('takenBy', 'Taken by', 'off')} ${this.renderText('note', 'Note', 'off')}
      <p class="quiet">
        Many places ask for such a record, and for how long it is kept. What the law of your place asks for decides; this
        form is a convenience and not legal advice.
      </p>
      <div class="buttons">
        <button type="button" @click=${this.close}>Cancel</button>
        <button class="main">Record</button>
      </div>
    </form>`;
  }

  private renderText(field: Field, label: string, autocomplete: 'name' | 'off'): TemplateResult {
    return html`<div class="field">
      <label for=${field}>${label}</label>
      <input
        id=${field}
        autocomplete=${autocomplete}
        .value=${this.details[field] ?? ''}
        @input=${(event: Event) => this.set({ [field]: (event.target as HTMLInputElement).value })}
        aria-invalid=${this.fault(field) !== undefined}
        aria-describedby="${field}-fault"
      />
      ${this.renderFault(field)}
    </div>`;
  }

  private fault(field: Field): string | undefined {
    const problem = this.asked ? consentProblems(this.details).find(({ path }) => path === field) : undefined;
    return problem === undefined ? undefined : `${problem.message} ${problem.hint}`;
  }

  private renderFault(field: Field): TemplateResult {
    return html`<span class="fault" id="${field}-fault">${this.fault(field) ?? ''}</span>`;
  }
}

/** The form of a `datetime-local` field, in the reader's own time. */
function localTime(iso: string): string {
  const date = new Date(iso);
  if (iso === '' || Number.isNaN(date.getTime())) return '';
  return new Date(date.getTime() - date.getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
}

function isoTime(local: string): string {
  return local === '' ? '' : new Date(local).toISOString();
}
