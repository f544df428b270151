import { html, nothing, type TemplateResult } from 'lit';
import type { Problem } from '../../src/documents/problem.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import { type DocumentName, NAMES } from './open-documents.js';

/** What to look out for in the work that is priced. */
export function cautionsPanel({ cautions, lines }: PricedEstimate): TemplateResult | typeof nothing {
  if (cautions.length === 0) return nothing;
  const titles = new Map(lines.map((line) => [line.id, line.title]));
  return html`<section part="cautions" aria-labelledby="cautions-title">
    <div class="band"><h2 id="cautions-title">Cautions</h2></div>
    <ul class="list cautions">
      ${cautions.map(
        (caution) => html`<li class="caution">
          ${caution.text} <span class="hint">(${caution.lines.map((id) => titles.get(id)).join(', ')})</span>
        </li>`,
      )}
    </ul>
    <p class="quiet">The maker’s procedure, local codes and licensed practice come before anything written here.</p>
  </section>`;
}

/** What keeps the sum from being complete, and what is worth a look; `go` leads to the cell. */
export function problemsPanel(
  problems: readonly Problem[],
  go: (problem: Problem) => void,
  leads: (problem: Problem) => boolean,
): TemplateResult | typeof nothing {
  if (problems.length === 0) return nothing;
  return html`<section part="problems" aria-labelledby="problems-title">
    <div class="band"><h2 id="problems-title">To look at</h2></div>
    <ul class="list">
      ${problems.map((problem) => problemItem(problem, leads(problem) ? html`<button class="link" @click=${() => go(problem)}>${problem.message}</button>` : problem.message))}
    </ul>
  </section>`;
}

/** Why a document could not be read. What was there before stays. */
export function faultsPanel(
  faults: readonly { readonly name: DocumentName; readonly problems: readonly Problem[] }[],
): TemplateResult | typeof nothing {
  if (faults.length === 0) return nothing;
  return html`${faults.map(
    ({ name, problems }) => html`<section part="problems" role="alert">
      <div class="band"><h2>The ${NAMES[name]} cannot be used</h2></div>
      <ul class="list">
        ${problems.map((problem) => problemItem(problem, html`${problem.path === '' ? nothing : html`<code>${problem.path}</code>: `}${problem.message}`))}
      </ul>
    </section>`,
  )}`;
}

function problemItem(problem: Problem, words: unknown): TemplateResult {
  const severity = { error: 'Not priced', warning: 'Check', note: 'Note' }[problem.severity];
  return html`<li class="problem ${problem.severity}">
    <strong>${severity}:</strong> ${words} ${problem.hint === undefined ? nothing : html`<span class="hint">${problem.hint}</span>`}
  </li>`;
}
