import { html, nothing, type TemplateResult } from 'lit';
import type { Problem } from '../../src/documents/problem.js';
import type { CatalogueList, CatalogueState } from '../../src/store/catalogue-draft.js';
import { short } from './catalogue-cells.js';
import type { Checked } from './catalogue-checker.js';
import type { PlacedProblem } from './catalogue-checks.js';
import { catalogueCell } from './catalogue-rows.js';
import type { CellFault } from './catalogue-view.js';

/** More problems than this are counted, not listed. */
const MOST_PROBLEMS = 40;

type Place = NonNullable<PlacedProblem['place']>;

/** What the last check found and which entries are not used; `go` leads to the cell. */
export function problemsOf({ draft, problems, usable }: Checked, state: CatalogueState, go: (place: Place) => void): TemplateResult {
  const all = [...unusedEntries(state), ...problems];
  const verdict =
    draft !== state.draft
      ? 'Checking …'
      : all.length === 0
        ? 'Nothing: the catalogue is sound.'
        : usable
          ? 'The catalogue can be used.'
          : 'The catalogue cannot be used as it stands.';
  return html`<section part="problems" aria-labelledby="problems-title">
    <div class="band">
      <h2 id="problems-title">To look at</h2>
      <span class="quiet">${verdict}</span>
    </div>
    <ul class="list">
      ${all.slice(0, MOST_PROBLEMS).map((problem) => item(problem, go))}
    </ul>
    ${all.length > MOST_PROBLEMS ? html`<p class="quiet">and ${all.length - MOST_PROBLEMS} more</p>` : nothing}
  </section>`;
}

/** Why a file was not taken. */
export function refusedFile(name: string, problems: readonly Problem[], close: () => void): TemplateResult {
  return html`<section part="problems" role="alert">
    <div class="band">
      <h2>${name} cannot be used</h2>
      <button @click=${close}>Close</button>
    </div>
    <ul class="list">
      ${problems
        .slice(0, MOST_PROBLEMS)
        .map(
          ({ path, message, hint }) =>
            html`<li class="problem error">${path === '' ? nothing : html`<code>${path}</code>: `}${message} <span class="hint">${hint}</span></li>`,
        )}
    </ul>
  </section>`;
}

/** Entries that stand in their cells only. */
function unusedEntries({ pending }: CatalogueState): PlacedProblem[] {
  return [...pending].map(([cell, { text, reason }]) => {
    const [row, column] = cell.split(' ') as [string, string];
    const [list, key] = row.split(':') as [CatalogueList, string];
    return {
      severity: 'warning',
      code: 'unused',
      path: '',
      message: `Not used: “${short(text)}”.`,
      hint: reason,
      place: { list, key, column },
    };
  });
}

function item({ severity, message, hint, place }: PlacedProblem, go: (place: Place) => void): TemplateResult {
  const words = { error: 'Mend', warning: 'Check', note: 'Note' }[severity];
  return html`<li class="problem ${severity}">
    <strong>${words}:</strong>
    ${place === null ? message : html`<button class="link" @click=${() => go(place)}>${message}</button>`}
    ${hint === undefined ? nothing : html`<span class="hint">${hint}</span>`}
  </li>`;
}

const NO_FAULTS: ReadonlyMap<string, CellFault> = new Map();
const faultMaps = new WeakMap<Checked, ReadonlyMap<string, CellFault>>();

/** What was found, by cell; an error before a warning. The same map for the same check. */
export function faultsOf(checked: Checked | null): ReadonlyMap<string, CellFault> {
  if (checked === null) return NO_FAULTS;
  const known = faultMaps.get(checked);
  if (known !== undefined) return known;
  const faults = new Map<string, CellFault>();
  for (const { severity, message, hint, place } of checked.problems) {
    if (place === null) continue;
    const cell = catalogueCell(place.list, place.key, place.column);
    if (severity === 'error' || !faults.has(cell))
      faults.set(cell, { words: [message, hint].filter(Boolean).join(' '), invalid: severity === 'error' });
  }
  faultMaps.set(checked, faults);
  return faults;
}
