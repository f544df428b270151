import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { property } from 'lit/decorators.js';
import type { DeferralCost } from '../../src/pricing/deferral.js';
import type { PricedEstimate, PricedTax } from '../../src/pricing/priced-estimate.js';
import { baseStyles } from '../look/base.styles.js';
import { formatFigure, formatHours, formatMoney, formatPercent } from '../look/format.js';
import { printStyles } from '../look/print.styles.js';

/** The kinds of charge in the order in which they are added up, as `totals` names them. */
const KINDS = [
  ['labour', 'Labour'],
  ['part', 'Parts'],
  ['core', 'Core charges'],
  ['sublet', 'Sublet'],
  ['supplies', 'Shop supplies'],
  ['fee', 'Fees'],
] as const;

/**
 * What the estimate comes to, how the sum is made, and what doing the work together saves. It is compact, for the side
 * of a sheet, and does no arithmetic: every figure is the engine's.
 *
 * Registered by its user; the sheet names it `baysheet-totals`.
 *
 * @property {PricedEstimate | null} priced what is shown; null shows nothing
 * @property {Record<string, DeferralCost> | null} deferral cost of each line now and later (rule 14); null: no such list
 * @property {string} more why more may be found, in words; empty when the list of findings is complete
 * @property {string} locale how figures are written
 *
 * @slot between the sum and the list of what each line costs later
 *
 * @csspart notice that the sum is not complete, or that more may be found
 * @csspart sum the table of the sum
 * @csspart discount the row of one discount
 * @csspart tax the row of one tax
 * @csspart total the row of the total
 * @csspart cash the row of the cash total
 * @csspart saved hours and money saved by doing the work together
 * @csspart later the list of what each line costs later
 */
export class TotalsPane extends LitElement {
  static override styles = [
    baseStyles,
    css`
      .notice {
        margin-block-end: 0.75rem;
        padding: 0.5rem 0.75rem;
        border: 1px solid var(--_fault);
        border-inline-start-width: 4px;
      }

      .notice.more {
        border-color: var(--_rule-strong);
      }

      .sum td {
        padding-inline-start: 1rem;
      }

      .sum .note {
        display: block;
        color: var(--_ink-quiet);
        font-size: 0.9em;
        line-height: 1.3;
      }

      .ruled-above > * {
        border-block-start: 1px solid var(--_rule-strong);
      }

      .total > * {
        padding-block: 0.5rem 0.375rem;
        border-block-start: 2px solid var(--_ink);
        font-weight: 650;
      }

      .total td {
        font-size: 1.4em;
        line-height: 1.2;
      }

      .section {
        margin-block-start: 1.25rem;
        padding-block-start: 0.5rem;
        border-block-start: 1px solid var(--_rule-strong);
      }

      .saved p {
        display: flex;
        flex-wrap: wrap;
        gap: 0 1rem;
        align-items: baseline;
        justify-content: space-between;
      }

      .saved .amount {
        color: var(--_accent);
        font-size: 1.25em;
        font-weight: 650;
      }

      .later table {
        table-layout: fixed;
      }

      .later thead th {
        color: var(--_ink-quiet);
        font-size: 0.9em;
        line-height: 1.2;
        vertical-align: bottom;
        white-space: normal;
      }

      .later :is(th, td).figure + .figure {
        padding-inline-start: 0.75rem;
      }

      .later thead th:first-child,
      .later tbody td:first-of-type {
        text-align: start;
      }

      .later tbody th {
        padding-block: 0.375rem 0;
        border-block-start: 1px solid var(--_rule);
        line-height: 1.3;
      }

      .later tbody td {
        padding-block: 0 0.375rem;
      }
    `,
    printStyles,
  ];

  @property({ attribute: false }) priced: PricedEstimate | null = null;
  @property({ attribute: false }) deferral: Readonly<Record<string, DeferralCost>> | null = null;
  @property() more = '';
  @property() locale = 'en';

  override render(): TemplateResult | typeof nothing {
    const { priced } = this;
    if (priced === null) return nothing;
    return html`
      ${priced.complete ? nothing : this.renderNotice(priced)}
      ${this.more === '' ? nothing : html`<p class="notice more" part="notice">${this.more}</p>`} ${this.renderSum(priced)} ${this.renderSaved(priced)}
      <slot></slot>
      ${this.deferral === null ? nothing : this.renderLater(priced, this.deferral)}
    `;
  }

  private renderNotice(priced: PricedEstimate): TemplateResult {
    const errors = priced.problems.filter((problem) => problem.severity === 'error').length;
    return html`<p class="notice" part="notice">
      <strong>Not complete.</strong> ${errors > 1 ? `${errors} problems keep` : 'A problem keeps'} something out of
      this sum. Mend what the sheet marks before the figure is given to anybody.
    </p>`;
  }

  private renderSum(priced: PricedEstimate): TemplateResult {
    const { totals } = priced;
    const money = (amount: string) => formatMoney(amount, priced.currency, this.locale);
    return html`<table class="sum" part="sum">
      <caption class="unseen">
        How the total is made
      </caption>
      <tbody>
        ${KINDS.map(([kind, title]) => (isZero(totals[kind]) ? nothing : row(title, money(totals[kind]))))}
        ${row('Subtotal', money(totals.subtotal), { classes: 'ruled-above' })}
        ${totals.discounts.map(({ title, amount }) =>
          isZero(amount) ? nothing : row(`Discount: ${title}`, money(negative(amount)), { part: 'discount' }),
        )}
        ${totals.taxes.map((tax) => this.renderTax(tax, priced))}
      </tbody>
      <tfoot>
        <tr class="total" part="total">
          <th scope="row">Total</th>
          <td class="figure"><span aria-live="polite" aria-atomic="true">${money(totals.total)}</span></td>
        </tr>
        ${
          totals.cash === totals.total
            ? nothing
            : row('Total in cash', money(totals.cash), { part: 'cash', note: 'rounded to the coins there are' })
        }
      </tfoot>
    </table>`;
  }

  private renderTax(tax: PricedTax, priced: PricedEstimate): TemplateResult {
    const money = (amount: string) => formatMoney(amount, priced.currency, this.locale);
    const of = `${formatPercent(tax.percent, this.locale)} of ${money(tax.base)}`;
    const note = tax.exempt ? `exempt (otherwise ${of})` : priced.pricesIncludeTax ? `${of}, inside the prices` : of;
    return row(tax.title, money(tax.amount), { part: 'tax', note });
  }

  private renderSaved({ overlap, currency }: PricedEstimate): TemplateResult | typeof nothing {
    if (isZero(overlap.hours)) return nothing;
    return html`<div class="saved section" part="saved" role="group" aria-labelledby="saved">
      <strong id="saved">Saved by doing it together</strong>
      <p>
        <span>${formatHours(overlap.hours, this.locale)} of labour paid once</span>
        <span class="figure amount">${formatMoney(overlap.money, currency, this.locale)}</span>
      </p>
    </div>`;
  }

  private renderLater(priced: PricedEstimate, deferral: Readonly<Record<string, DeferralCost>>): TemplateResult | typeof nothing {
    const lines = priced.lines.filter((line) => Object.hasOwn(deferral, line.id));
    if (lines.length === 0) return nothing;
    const figure = (amount: string) => formatFigure(amount, this.locale);
    return html`<div class="later section" part="later">
      <details open>
        <summary><strong>What each line costs now and later</strong></summary>
        <table>
          <caption class="unseen">
            What each line costs now with the others and later on its own, with tax
          </caption>
          <thead>
            <tr>
              <th scope="col" class="figure">Now, ${priced.currency}</th>
              <th scope="col" class="figure">Later, on its own</th>
              <th scope="col" class="figure">Extra: teardown paid twice</th>
            </tr>
          </thead>
          ${lines.map((line) => {
            const { now, later, extra } = deferral[line.id]!;
            return html`<tbody>
              <tr>
                <th colspan="3" scope="rowgroup">
                  ${line.title || 'Line without a title'}
                  ${line.priced ? nothing : html`<span class="quiet">(${line.decision}, not in the total)</span>`}
                </th>
              </tr>
              <tr>
                <td class="figure">${figure(now)}</td>
                <td class="figure">${figure(later)}</td>
                <td class="figure">${isMore(extra) ? figure(extra) : 'none'}</td>
              </tr>
            </tbody>`;
          })}
        </table>
      </details>
    </div>`;
  }
}

/** A cent less is the rounding of taxes, not a saving. */
function isMore(extra: string): boolean {
  return !extra.startsWith('-') && /[1-9]/.test(extra);
}

function row(
  title: string,
  amount: string,
  { note = '', part = '', classes = '' }: { note?: string; part?: string; classes?: string } = {},
): TemplateResult {
  return html`<tr class=${classes} part=${part || nothing}>
    <th scope="row">${title}${note === '' ? nothing : html`<span class="note">${note}</span>`}</th>
    <td class="figure">${amount}</td>
  </tr>`;
}

function isZero(figure: string): boolean {
  return /^-?0*(\.0*)?$/.test(figure);
}

function negative(figure: string): string {
  return figure.startsWith('-') ? figure.slice(1) : `-${figure}`;
}
