import { html, nothing, type TemplateResult } from 'lit';
import type { Difference } from '../../src/consent/revision.js';
import { formatMoney } from '../look/format.js';

/** What has changed, line by line, with the reasons. */
export function differenceList({ added, removed, moved }: Difference, currency: string, locale: string): TemplateResult | typeof nothing {
  if (added.length + removed.length + moved.length === 0) return nothing;
  const money = (amount: string): string => formatMoney(amount, currency, locale);
  return html`<ul part="difference" aria-label="What has changed">
    ${added.map((line) => html`<li>Added: ${line.title}, ${money(line.amount)}</li>`)}
    ${removed.map((line) => html`<li>Removed: ${line.title}, ${money(line.amount)}</li>`)}
    ${moved.map((line) => html`<li>${line.title}: ${money(line.from)} → ${money(line.to)} (${line.why.join(', ')})</li>`)}
  </ul>`;
}
