import { html, nothing, type TemplateResult } from 'lit';
import type { LeftOutBy, LeftOutReport } from '../../src/replay/left-out.js';
import type { MovedEstimate } from '../../src/replay/most-moved.js';
import { formatMoney } from '../look/format.js';
import { signed } from './what-if-figures.js';
import { counted } from './replay-words.js';

/** The estimates that move most, each with a button that opens it. */
export function movedTable(
  moved: readonly MovedEstimate[],
  currency: string,
  locale: string,
  open: (moved: MovedEstimate) => void,
): TemplateResult {
  if (moved.length === 0) return html`<p>No estimate has another total.</p>`;
  const money = (amount: string): string => formatMoney(amount, currency, locale);
  return html`<table class="ruled moved" part="moved">
    <caption class="unseen">The estimates that move most</caption>
    <thead>
      <tr>
        <th scope="col">Estimate</th>
        <th scope="col" class="figure">Before</th>
        <th scope="col" class="figure">After</th>
        <th scope="col" class="figure">Difference</th>
        <td class="screen-only"></td>
      </tr>
    </thead>
    <tbody>
      ${moved.map(
        (each) => html`<tr>
          <th scope="row">${each.number || each.id} <span class="note">${each.label}</span></th>
          <td class="figure">${money(each.before)}</td>
          <td class="figure">${money(each.after)}</td>
          <td class="figure">${signed(money(each.change), each.change)}</td>
          <td class="screen-only">
            <button type="button" class="small" aria-label="Look at estimate ${each.number || each.id}" @click=${() => open(each)}>Look</button>
          </td>
        </tr>`,
      )}
    </tbody>
  </table>`;
}

const BY: Readonly<Record<LeftOutBy, string>> = {
  reading: 'cannot be read',
  before: 'cannot be priced with the card before',
  after: 'can be priced no longer with the card after',
  both: 'cannot be priced with either card',
  'nothing-priced': 'has no line that is proposed or approved',
};

/** What has no part in the figures, and why. */
export function leftOutList(report: LeftOutReport, locale: string): TemplateResult | typeof nothing {
  if (report.count === 0) return nothing;
  const rest = report.count - report.listed.length;
  return html`<details class="left-out" part="left-out">
    <summary>
      <strong>${report.count === 1 ? '1 estimate is' : `${counted(report.count, locale)} estimates are`} left out of both sides</strong>
    </summary>
    <ul class="list">
      ${report.listed.map(
        ({ at, id, number, by, problems }) => html`<li>
          ${number || id || `Number ${counted(at + 1, locale)} in order`} ${BY[by]}${problems.length === 0 ? '.' : ':'}
          ${problems.map((problem) => html`${problem.message} <span class="quiet">${problem.hint ?? ''} ${problem.path}</span>`)}
        </li>`,
      )}
      ${rest > 0 ? html`<li>${counted(rest, locale)} more.</li>` : nothing}
    </ul>
  </details>`;
}
