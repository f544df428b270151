import { html, nothing, type TemplateResult } from 'lit';
import type { BudgetFit } from '../../src/share/budget.js';
import { unsafeCaution } from './findings-list.js';
import { type CustomerView, titleOf } from './customer-view.js';
import type { Reader } from './reader.js';

/** What the customer has typed as the most to spend, and what came of it. */
export interface Budget {
  readonly typed: string;
  readonly state: 'idle' | 'not-a-figure' | 'proposed' | 'taken';
  readonly fit: BudgetFit | null;
}

export const NO_BUDGET: Budget = { typed: '', state: 'idle', fit: null };

export interface BudgetActions {
  ask(typed: string): void;
  take(): void;
  leave(): void;
}

/** "Fit to my budget": a ceiling, and a proposal that can be taken or left. */
export function budgetPane(budget: Budget, view: CustomerView, reader: Reader, actions: BudgetActions): TemplateResult {
  const { m } = reader;
  const wrong = budget.state === 'not-a-figure';
  const ask = (event: Event): void => {
    event.preventDefault();
    actions.ask((event.currentTarget as HTMLFormElement).querySelector('input')!.value);
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
      ${budget.state === 'taken' ? html`<p>${m.taken}</p>` : nothing} ${budget.state === 'proposed' ? proposal(budget.fit!, view, reader, actions) : nothing}
    </div>
  </section>`;
}

function proposal(fit: BudgetFit, view: CustomerView, reader: Reader, actions: BudgetActions): TemplateResult {
  const { m } = reader;
  const named = (ids: readonly string[]): TemplateResult =>
    html`<ul class="plain">
      ${view.lines.filter(({ line }) => ids.includes(line.id)).map((item) => html`<li>${reader.own(titleOf(item))}</li>`)}
    </ul>`;
  const saidNo = new Set(view.lines.filter(({ answer }) => answer === 'no').map(({ line }) => line.id));
  const later = fit.left.filter((id) => !fit.unsafeLeft.includes(id) && !saidNo.has(id));
  const words = !fit.fits ? m.keptIsMore(reader.money(fit.total)) : fit.chosen.length === 0 ? m.fitsNone : m.fits(fit.chosen.length, reader.money(fit.total));
  return html`<div class="proposal">
    <p>
      <strong>${words}</strong> ${later.length === 0 && fit.unsafeLeft.length === 0 ? m.fitsAll : nothing}
    </p>
    ${fit.unsafeLeft.length === 0 ? nothing : html`<p><strong>${m.unsafeLeftOut}</strong></p>${named(fit.unsafeLeft)} ${unsafeCaution(view, reader)}`}
    ${fit.chosen.length === 0 || later.length === 0 ? nothing : html`<p>${m.saidYes}:</p>${named(fit.chosen)}`}
    ${later.length === 0 ? nothing : html`<p>${m.leftOut}</p>${named(later)}`}
    <p class="buttons">
      <button type="button" class="main" ?disabled=${!fit.fits || fit.chosen.length === 0} @click=${actions.take}>${m.take}</button>
      <button type="button" @click=${actions.leave}>${m.leave}</button>
    </p>
  </div>`;
}

function example(locale: string): string {
  return new Intl.NumberFormat(locale, { minimumFractionDigits: 2, numberingSystem: 'latn' }).format(500);
}
