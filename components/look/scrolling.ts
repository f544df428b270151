import { html, type TemplateResult } from 'lit';

/** What may be wider than its place, as a table on a narrow page: it scrolls by itself, by keyboard too. */
export function scrolling(label: string, content: TemplateResult): TemplateResult {
  return html`<div class="scroll" role="group" aria-label=${label} tabindex="0">${content}</div>`;
}
