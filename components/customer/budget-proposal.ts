import { html, nothing, type TemplateResult } from 'lit';
import type { BudgetFit } from '../../src/share/budget.js';
import { type CustomerView, titleOf } from './customer-view.js';
import { unsafeCaution } from './findings-list.js';
import { inFull } from './full-reader.js';
import type { Reader } from './reader.js';

export interface ProposalActions {
  take(): void;
  leave(): void;
}

/** What fits, what is left out, and what of that is not safe to leave; it can be taken or left. */
export function budgetProposal(fit: BudgetFit, view: CustomerView, reader: Reader, actions: ProposalActions): TemplateResult {
  const { m } = inFull(reader);
  const named = (ids: readonly string[]): TemplateResult =>
    html`<ul class="plain">
      ${view.lines.filter(({ line }) => ids.includes(line.id)).map((item) => html`<li>${reader.own(titleOf(item))}</li>`)}
    </ul>`;
  const saidNo = new Set(view.lines.filter(({ answer }) => answer === 'no').map(({ line }) => line.id));
  const later = fit.left.filter((id) => !fit.unsafeLeft.includes(id) && !saidNo.has(id));
  const words = !fit.fits
    ? m.keptIsMore(reader.money(fit.total))
    : fit.chosen.length === 0
      ? m.fitsNone
      : m.fits(fit.chosen.length, reader.money(fit.total));
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
