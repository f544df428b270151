import { html, nothing, type TemplateResult } from 'lit';
import type { BudgetFit } from '../../src/share/budget.js';
import type { CustomerView } from './customer-view.js';
import type { Reader } from './reader.js';

/** What the customer has typed as the most to spend, and what came of it. */
export interface Budget {
  readonly typed: string;
  readonly state: 'idle' | 'looking' | 'not-loaded' | 'not-a-figure' | 'proposed' | 'taken';
  readonly fit: BudgetFit | null;
}

export const NO_BUDGET: Budget = { typed: '', state: 'idle', fit: null };

/** "Fit to my budget": a ceiling, and under it the proposal, once there is one. */
export function budgetPane(
  budget: Budget,
  view: CustomerView,
  reader: Reader,
  proposal: TemplateResult | typeof nothing,
  onAsk: (typed: string) => void,
): TemplateResult {
  const { m } = reader;
  const wrong = budget.state === 'not-a-figure';
  const words = { looking: m.looking, 'not-loaded': m.notLoaded, taken: m.taken }[budget.state as string];
  const ask = (event: Event): void => {
    event.preventDefault();
    onAsk((event.currentTarget as HTMLFormElement).querySelector('input')!.value);
  };
  return html`<section class="budget screen-only" part="budget" aria-labelledby="budget">
    <h3 id="budget">${m.budget}</h3>
    <form novalidate @submit=${ask}>
      <p class="quiet">${m.budgetHelp}</p>
      <div class="field">
        <label for="ceiling">${m.ceiling} (${view.priced.currency})</label>
        <input id="ceiling" inputmode="decimal" autocomplete="off" maxlength="30" .value=${budget.typed} aria-invalid=${wrong} aria-describedby=${wrong ? 'ceiling-fault' : nothing} />
        ${wrong ? html`<p class="fault" id="ceiling-fault">${m.notFigure(example(reader.locale))}</p>` : nothing}
      </div>
      <button>${m.propose}</button>
    </form>
    <div role="status">
      ${words === undefined ? nothing : html`<p>${words}</p>`} ${proposal}
    </div>
  </section>`;
}

function example(locale: string): string {
  return new Intl.NumberFormat(locale, { minimumFractionDigits: 2, numberingSystem: 'latn' }).format(500);
}
