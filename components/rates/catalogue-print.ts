import { html, type TemplateResult } from 'lit';
import type { CatalogueList, CatalogueRow } from '../../src/store/catalogue-draft.js';
import type { CatalogueColumn } from './catalogue-cells.js';
import { CATALOGUE_COLUMNS, LIST_TITLES } from './catalogue-lists.js';
import type { CatalogueView } from './catalogue-view.js';

/** One list on paper, every row of it: the grid shows only what is on the screen. Columns without a word are left out. */
export function printedList(list: CatalogueList, view: CatalogueView): TemplateResult {
  const rows = view.state.draft[list] as readonly CatalogueRow[];
  const columns = (CATALOGUE_COLUMNS[list] as readonly CatalogueColumn<never>[])
    .map((column) => ({ column, texts: rows.map((row) => column.show(row as never, view)) }))
    .filter(({ texts }) => texts.some((text) => text !== ''));
  return html`<table class="printed">
    <caption>
      ${view.state.draft.fields.title || view.state.draft.fields.id}: ${LIST_TITLES[list].title.toLowerCase()}
    </caption>
    <thead>
      <tr>
        ${columns.map(({ column }) => html`<th scope="col" class=${column.align === 'end' ? 'figure' : ''}>${column.title}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${rows.map(
        (_, i) => html`<tr>
          ${columns.map(({ column, texts }) => html`<td class=${column.align === 'end' ? 'figure' : ''}>${texts[i]}</td>`)}
        </tr>`,
      )}
    </tbody>
  </table>`;
}
