import { html, nothing, type TemplateResult } from 'lit';
import type { Supplies } from '../../src/documents/rates.js';
import { type CustomerView, isZero, titleOf } from './customer-view.js';
import { negative } from './line-card.js';
import type { Reader } from './reader.js';

const KINDS = ['labour', 'part', 'core', 'sublet', 'supplies', 'fee'] as const;

/** How the total is made, what is left out of it, and what doing the work together saves. */
export function totalsTable(view: CustomerView, reader: Reader): TemplateResult {
  const { m, money } = reader;
  const { totals, pricesIncludeTax, overlap } = view.priced;
  return html`<section class="totals" part="totals" aria-labelledby="totals">
    <h3 id="totals">${m.totals}</h3>
    <table>
      <tbody>
        ${KINDS.map((kind) => (isZero(totals[kind]) ? nothing : row(m.kinds[kind], money(totals[kind]), kind === 'supplies' ? suppliesNote(view, reader) : nothing)))}
        ${row(m.subtotal, money(totals.subtotal), nothing, 'ruled')}
        ${totals.discounts.map(({ title, amount }) =>
          isZero(amount) ? nothing : row(html`${m.discount}: ${reader.own(title)}`, money(negative(amount))),
        )}
        ${totals.taxes.map((tax) => {
          const of = m.taxOf(reader.percent(tax.percent), money(tax.base));
          return row(
            reader.own(tax.title),
            money(tax.amount),
            tax.exempt ? `${m.exempt} (${of})` : pricesIncludeTax ? `${of}, ${m.inside}` : of,
          );
        })}
      </tbody>
      <tfoot>
        ${row(m.total, money(totals.total), nothing, 'total')}
        ${totals.cash === totals.total ? nothing : row(m.cash, money(totals.cash))}
      </tfoot>
    </table>
    ${leftOut(view, reader)}
    ${
      isZero(overlap.hours)
        ? nothing
        : html`<p class="saved" part="saved"><span>${m.saved}<span class="note">${m.savedHours(reader.hours(overlap.hours))}</span></span> <span class="figure">${money(overlap.money)}</span></p>`
    }
  </section>`;
}

function row(
  title: TemplateResult | string,
  amount: string,
  note: string | TemplateResult | typeof nothing = nothing,
  classes = '',
): TemplateResult {
  return html`<tr class=${classes}>
    <th scope="row">${title}${note === nothing ? nothing : html`<span class="note">${note}</span>`}</th>
    <td class="figure">${amount}</td>
  </tr>`;
}

/** What is charged as supplies and how it is worked out, as some places want it said. */
function suppliesNote({ copy }: CustomerView, reader: Reader): TemplateResult | typeof nothing {
  const { supplies } = copy.rates;
  return supplies === null ? nothing : html`${reader.own(supplies.title)}: ${suppliesRule(supplies, reader)}`;
}

function suppliesRule(supplies: Supplies, { m, money, percent }: Reader): string {
  const of = supplies.of.map((kind) => m.kinds[kind].toLowerCase()).join(m.and);
  const least = supplies.minimum === null || isZero(supplies.minimum) ? '' : m.atLeast(money(supplies.minimum));
  const most = supplies.maximum === null ? '' : m.atMost(money(supplies.maximum));
  return [m.suppliesRule(percent(supplies.percent), of), least, most].filter(Boolean).join(m.and);
}

/** What was said no to stands there struck out, beside the total of the rest (ORS 646A.486(2)). */
export function leftOut(view: CustomerView, reader: Reader): TemplateResult | typeof nothing {
  const left = view.lines.filter(({ answer }) => answer === 'no' || answer === 'later');
  if (left.length === 0) return nothing;
  return html`<div class="declined" part="declined">
    <p>${reader.m.declined}</p>
    <ul>
      ${left.map((item) => html`<li><s>${reader.own(titleOf(item))}</s> <s class="figure">${reader.money(item.cost.now)}</s></li>`)}
    </ul>
  </div>`;
}
