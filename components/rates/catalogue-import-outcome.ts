import { html, nothing, type TemplateResult } from 'lit';
import type { ImportPlan, ImportRow } from '../../src/exchange/import-operations.js';
import { OPERATION_TITLES } from '../../src/exchange/operation-fields.js';

/** More rows than this are counted, not listed. */
const MOST_LISTED = 100;

/** Every bad row with its line and the reasons, and exactly what would change. `choose`: whether only a table without bad rows is taken. */
export function outcomeOf(plan: ImportPlan, onlyWhole: boolean, choose: (onlyWhole: boolean) => void): TemplateResult {
  const bad = plan.rows.filter(({ outcome }) => outcome === 'bad');
  const telling = plan.rows.filter(({ outcome }) => outcome === 'new' || outcome === 'changed');
  return html`<h3>${summary(plan.rows)}</h3>
    ${
      bad.length === 0
        ? nothing
        : html`<div class="scroll" tabindex="0" role="group" aria-label="Rows that cannot be taken">
            <table class="ruled changes">
              <caption>
                Rows that cannot be taken
              </caption>
              <tbody>
                ${bad.slice(0, MOST_LISTED).map(({ line, id, title, reasons }) => html`<tr><th scope="row">line ${line}</th><td>${title || id}</td><td>${reasons.join(' ')}</td></tr>`)}
              </tbody>
            </table>
            ${more(bad.length)}
          </div>
          <fieldset class="choices">
            <legend class="unseen">Bad rows</legend>
            <label><input type="radio" name="whole" .checked=${!onlyWhole} @change=${() => choose(false)} /> Take the good rows, leave the bad ones</label>
            <label><input type="radio" name="whole" .checked=${onlyWhole} @change=${() => choose(true)} /> Take nothing unless every row is good</label>
          </fieldset>`
    }
    ${
      telling.length === 0
        ? nothing
        : html`<div class="scroll" tabindex="0" role="group" aria-label="What would change">
          <table class="ruled changes">
            <caption>
              What would change
            </caption>
            <thead>
              <tr>
                <th scope="col">Line</th>
                <th scope="col">Operation</th>
                <th scope="col">What</th>
                <th scope="col">Before</th>
                <th scope="col">After</th>
              </tr>
            </thead>
            <tbody>
              ${telling.slice(0, MOST_LISTED).map((row) => changeRows(row, plan))}
            </tbody>
          </table>
          ${more(telling.length)}
        </div>`
    }`;
}

function changeRows(row: ImportRow, plan: ImportPlan): unknown {
  const heading = html`<th scope="row">${row.line}</th><td>${row.title} <span class="quiet">${row.id}</span></td>`;
  if (row.outcome === 'new') {
    const hours = plan.added.find(({ id }) => id === row.id)?.bookHours ?? '';
    return html`<tr>${heading}<td>new</td><td></td><td>${hours} h</td></tr>`;
  }
  return row.changes.map(
    ({ field, before, after }, i) =>
      html`<tr>${i === 0 ? heading : html`<td></td><td></td>`}<td>${OPERATION_TITLES[field]}</td><td>${before || 'none'}</td><td>${after || 'none'}</td></tr>`,
  );
}

function more(count: number): TemplateResult | typeof nothing {
  return count > MOST_LISTED ? html`<p class="quiet">and ${count - MOST_LISTED} more</p>` : nothing;
}

/** How many rows of a table would be taken, and how. */
export function summary(rows: readonly ImportRow[]): string {
  const words: readonly (readonly [ImportRow['outcome'], string])[] = [
    ['new', 'new'],
    ['changed', 'changed'],
    ['same', 'as they are already'],
    ['skipped', 'left as they are'],
    ['bad', 'cannot be taken'],
  ];
  const told = words.flatMap(([outcome, word]) => {
    const count = rows.filter((row) => row.outcome === outcome).length;
    return count === 0 ? [] : [`${count} ${word}`];
  });
  return told.length === 0 ? 'No rows' : told.join(', ');
}
