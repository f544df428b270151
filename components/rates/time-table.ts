import { html, nothing, type TemplateResult } from 'lit';
import type { OperationTime } from '../../src/replay/time-feedback.js';
import { formatFigure, formatHours } from '../look/format.js';
import { signed } from './what-if-figures.js';
import { counted } from './replay-words.js';

/** Operations with their charged and clocked hours. */
export function timesTable(times: readonly OperationTime[], caption: string, locale: string): TemplateResult {
  const hours = (value: string): string => formatHours(value, locale);
  return html`<table class="ruled dense">
    <caption class="unseen">${caption}</caption>
    <thead>
      <tr>
        <th scope="col">Operation</th>
        <th scope="col" class="figure">Jobs</th>
        <th scope="col" class="figure">Book</th>
        <th scope="col" class="figure">Charged</th>
        <th scope="col" class="figure">Clocked</th>
        <th scope="col" class="figure">Charged ÷ clocked</th>
        <th scope="col" class="figure">Lost</th>
        <th scope="col" class="figure">Least</th>
        <th scope="col" class="figure">Lower quartile</th>
        <th scope="col" class="figure">Median</th>
        <th scope="col" class="figure">Upper quartile</th>
        <th scope="col" class="figure">Most</th>
      </tr>
    </thead>
    <tbody>
      ${times.map(
        (time) => html`<tr>
          <th scope="row">${time.title} ${time.byBook === 0 || time.byBook === time.jobs ? nothing : html`<span class="note">${counted(time.byBook, locale)} beside the book</span>`}</th>
          <td class="figure">${counted(time.jobs, locale)}</td>
          <td class="figure">${hours(time.bookHours)}</td>
          <td class="figure">${hours(time.charged)}</td>
          <td class="figure">${hours(time.clocked)}</td>
          <td class="figure">${formatFigure(time.ratio, locale)}</td>
          <td class="figure">${signed(hours(time.lost), time.lost)}</td>
          ${[time.spread.least, time.spread.lowerQuartile, time.spread.median, time.spread.upperQuartile, time.spread.most].map(
            (value) => html`<td class="figure">${hours(value)}</td>`,
          )}
        </tr>`,
      )}
    </tbody>
  </table>`;
}
