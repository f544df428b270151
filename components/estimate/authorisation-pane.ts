import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property } from 'lit/decorators.js';
import { checkHistory } from '../../src/consent/history.js';
import { readConsents } from '../../src/consent/record.js';
import { standing, type Standing } from '../../src/consent/revision.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { Problem } from '../../src/documents/problem.js';
import type { AuthorisationRule } from '../../src/documents/rates.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import { baseStyles } from '../look/base.styles.js';
import { formatDay, formatMoney } from '../look/format.js';
import { printStyles } from '../look/print.styles.js';
import { differenceList } from './difference-list.js';

/** What a person may want to do about the authorisation. */
export type Ask = 'consent' | 'share' | 'reply';

/**
 * Where the estimate stands with its customer: what was authorised, by whom, what has changed since, how much more may
 * be charged without asking again, and a clear stop where a new authorisation is needed.
 *
 * @property {Estimate | null} estimate
 * @property {PricedEstimate | null} priced its price
 * @property {AuthorisationRule | null} rule the rate card's rule
 * @property {string} locale how figures and days are written
 *
 * @fires {CustomEvent<Ask>} ask a person wants to record a consent, to share, or to open a reply
 *
 * @csspart standing the words on where the estimate stands
 * @csspart difference what has changed since the authorisation
 */
export class AuthorisationPane extends LitElement {
  static override styles = [
    baseStyles,
    css`
      .body {
        display: grid;
        gap: 0.5rem;
      }

      [part='standing'] {
        display: grid;
        gap: 0.5rem;
      }

      .stop {
        padding: 0.5rem 0.75rem;
        border: 2px solid var(--_ink);
        font-weight: 650;
      }

      ul {
        display: grid;
        gap: 0.25rem;
      }

      .buttons {
        display: flex;
        flex-wrap: wrap;
        gap: 0.375rem;
      }
    `,
    printStyles,
  ];

  @property({ attribute: false }) estimate: Estimate | null = null;
  @property({ attribute: false }) priced: PricedEstimate | null = null;
  @property({ attribute: false }) rule: AuthorisationRule | null = null;
  @property() locale = 'en';

  private historyProblems: readonly Problem[] = [];

  /** Hashing the history is not for every keystroke. */
  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('estimate') || changed.get('estimate')?.history === this.estimate?.history) return;
    this.historyProblems = this.estimate === null ? [] : checkHistory(this.estimate);
  }

  private ask(what: Ask): void {
    this.dispatchEvent(new CustomEvent<Ask>('ask', { detail: what }));
  }

  private money(amount: string): string {
    return formatMoney(amount, this.priced!.currency, this.locale);
  }

  protected override render(): TemplateResult | typeof nothing {
    const { estimate, priced } = this;
    if (estimate === null || priced === null) return nothing;
    const now = standing(estimate, priced, this.rule);
    const problems = [...readConsents(estimate).problems, ...this.historyProblems];
    return html`<div class="body">
      <div part="standing">${now === null ? html`<p>Nothing is authorised yet.</p>` : this.renderStanding(now, estimate)}</div>
      ${problems.map((problem) => html`<p class="stop">${problem.message} ${problem.hint}</p>`)}
      <div class="buttons screen-only">
        <button @click=${() => this.ask('share')}>Share …</button>
        <button @click=${() => this.ask('consent')}>Record a consent …</button>
        <button @click=${() => this.ask('reply')}>Open a reply …</button>
      </div>
    </div>`;
  }

  private renderStanding({ consent, need, difference }: Standing, estimate: Estimate): TemplateResult {
    const given = html`<p>
      Revision ${consent.revision}: ${this.money(consent.total)} authorised by ${consent.by}, ${formatDay(consent.at, this.locale)},
      ${consent.how}${consent.contact === '' ? nothing : ` (${consent.contact})`}, taken by ${consent.takenBy}.
    </p>`;
    if (consent.revision === estimate.revision) return html`${given}<p class="quiet">${this.headroomText(need.headroom)}</p>`;
    return html`${given} ${this.renderNeed(need, estimate)} ${differenceList(difference, this.priced!.currency, this.locale)}`;
  }

  private renderNeed(need: Standing['need'], estimate: Estimate): TemplateResult {
    const headroom = this.headroomText(need.headroom);
    if (!need.needed) {
      return html`<p>Revision ${estimate.revision} comes to ${this.money(need.price)}, within the ${this.money(need.limit)} that may be charged.</p>
        <p class="quiet">${headroom}</p>`;
    }
    return html`<p class="stop" role="alert">
        Ask first: revision ${estimate.revision} comes to ${this.money(need.price)}, ${this.money(need.over)} above the
        ${this.money(need.limit)} that may be charged without a new authorisation.
      </p>
      <p class="quiet">${headroom}</p>`;
  }

  private headroomText(headroom: string): string {
    if (this.rule === null) return 'The rate card has no rule of authorisation, so nothing may be added without asking.';
    const source = this.rule.source === '' ? '' : ` (${this.rule.source})`;
    const taxed = this.rule.base === 'before-tax' ? ' before tax' : '';
    return `Headroom ${this.money(headroom)}${taxed}${source}. A preset of law is a convenience and not legal advice.`;
  }
}
