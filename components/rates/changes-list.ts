import { html, type TemplateResult } from 'lit';
import type { RateChange } from '../../src/versions/rates-difference.js';
import { formatFigure } from '../look/format.js';

/** What differs between two cards, line by line. */
export function changesList(changes: readonly RateChange[], locale: string): TemplateResult {
  if (changes.length === 0) return html`<p>Nothing differs.</p>`;
  return html`<ul class="list" aria-label="What differs">
    ${changes.map(({ what, from, to }) => html`<li>${what}: ${words(from, to, locale)}</li>`)}
  </ul>`;
}

function words(from: string, to: string, locale: string): string {
  if (from === '') return `${formatFigure(to, locale)} (new)`;
  return to === '' ? `taken out (was ${formatFigure(from, locale)})` : `${formatFigure(from, locale)} → ${formatFigure(to, locale)}`;
}
