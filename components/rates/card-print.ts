import { html, type TemplateResult } from 'lit';
import type { SheetColumn, SheetRow } from '../grid/sheet.js';

/** A grid as a plain table for paper: all its columns, without the row that waits for the next entry. */
export function printedGrid(label: string, columns: readonly SheetColumn[], rows: readonly SheetRow[]): TemplateResult {
  const look = ({ align }: SheetColumn): string => (align === 'end' ? 'figure' : '');
  return html`<table class="ruled paper">
    <caption>
      ${label}
    </caption>
    <thead>
      <tr>
        ${columns.map((column) => html`<th scope="col" class=${look(column)}>${column.title}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${rows
        .filter(({ level }) => level !== 'spare')
        .map(
          ({ cells }) => html`<tr>
            ${columns.map((column) => html`<td class=${look(column)}>${cells[column.id]?.text ?? ''}</td>`)}
          </tr>`,
        )}
    </tbody>
  </table>`;
}
