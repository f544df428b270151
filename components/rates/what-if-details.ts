import { css, html, nothing, type TemplateResult } from 'lit';
import { property } from 'lit/decorators.js';
import type { Estimate } from '../../src/documents/estimate.js';
import { decimal, type DecimalString } from '../../src/number/decimal.js';
import type { PricedEstimate, PricedLine } from '../../src/pricing/priced-estimate.js';
import { SheetDialog, dialogStyles } from '../look/dialog.js';
import { formatHours, formatMoney } from '../look/format.js';
import { signed } from './what-if-figures.js';

/** A past estimate, priced with the card before and with the card after. */
export interface ComparedEstimate {
  readonly estimate: Estimate;
  readonly before: PricedEstimate;
  readonly after: PricedEstimate;
}

/** The rows of the totals, as `PricedTotals` names them. */
const TOTALS = [
  ['subtotal', 'Subtotal'],
  ['discount', 'Discounts'],
  ['tax', 'Tax'],
  ['total', 'Total'],
] as const;

/**
 * One past estimate line by line, before and after.
 *
 * @property {ComparedEstimate | null} compared what is shown
 * @property {string} locale how figures are written
 *
 * @fires {Event} open-estimate a person wants to see the estimate itself
 */
export class WhatIfDetails extends SheetDialog {
  static override styles = [
    dialogStyles,
    css`
      dialog {
        width: min(56rem, calc(100vw - 2rem));
      }

      .scroll {
        overflow-x: auto;
      }

      table.ruled {
        width: 100%;
      }

      tr.same {
        color: var(--_ink-quiet);
      }

      tr.total > * {
        font-weight: 650;
      }
    `,
  ];

  @property({ attribute: false }) compared: ComparedEstimate | null = null;
  @property() locale = 'en';

  protected override get heading(): string {
    const { estimate } = this.compared ?? {};
    return estimate === undefined
      ? ''
      : `Estimate ${estimate.number || estimate.id}${estimate.vehicle.label === '' ? '' : `, ${estimate.vehicle.label}`}`;
  }

  protected override renderBody(): TemplateResult {
    if (this.compared === null) return html``;
    const { before, after } = this.compared;
    const others = new Map(after.lines.map((line) => [line.id, line]));
    return html`<div class="body">
      <div class="scroll" role="region" aria-label="Lines before and after" tabindex="0">
        <table class="ruled">
          <caption class="unseen">Lines before and after</caption>
          <thead>
            <tr>
              <th scope="col">Line</th>
              <th scope="col" class="figure">Hours charged</th>
              <th scope="col" class="figure">Before</th>
              <th scope="col" class="figure">After</th>
              <th scope="col" class="figure">Difference</th>
            </tr>
          </thead>
          <tbody>
            ${before.lines.map((line) => this.renderLine(line, others.get(line.id)!))}
            ${this.renderOnce()}
          </tbody>
          <tfoot>
            ${TOTALS.map(([name, title]) => this.renderFigures(title, before.totals[name], after.totals[name], name === 'total'))}
          </tfoot>
        </table>
      </div>
      <p class="quiet">Lines are before discount and tax. Declined and deferred lines, and notes, are not in the total.</p>
      <div class="buttons">
        <button type="button" @click=${() => this.dispatchEvent(new Event('open-estimate'))}>Open the estimate</button>
        <button type="button" class="main" @click=${this.close}>Close</button>
      </div>
    </div>`;
  }

  private renderLine(before: PricedLine, after: PricedLine): TemplateResult | typeof nothing {
    if (before.kind === 'note') return nothing;
    const hours = [before, after].map(({ chargedHours }) => formatHours(chargedHours, this.locale));
    const words = before.chargedHours === '0' && after.chargedHours === '0' ? '' : hours[0] === hours[1] ? hours[0]! : hours.join(' → ');
    const title = before.priced ? before.title : `${before.title} (${before.decision})`;
    return this.renderFigures(title, before.amount, after.amount, false, words);
  }

  /** Fees and supplies that are charged once for the estimate. */
  private renderOnce(): TemplateResult[] {
    const { before, after } = this.compared!;
    const amount = (priced: PricedEstimate, id: string): DecimalString => priced.charges.find((charge) => charge.id === id)?.amount ?? '0';
    const charges = [...before.charges, ...after.charges].filter(({ line }) => line === null);
    const titles = new Map(charges.map(({ id, title }) => [id, title]));
    return [...titles].map(([id, title]) => this.renderFigures(title, amount(before, id), amount(after, id)));
  }

  private renderFigures(title: string, before: DecimalString, after: DecimalString, total = false, hours = ''): TemplateResult {
    const money = (value: DecimalString): string => formatMoney(value, this.compared!.before.currency, this.locale);
    const digits = Math.max(...[before, after].map((figure) => figure.split('.')[1]?.length ?? 0));
    const change = decimal(after).minus(decimal(before)).toFixed(digits);
    const same = decimal(change).isZero();
    return html`<tr class=${total ? 'total' : same ? 'same' : ''}>
      <th scope="row">${title || 'Line without a title'}</th>
      <td class="figure">${hours}</td>
      <td class="figure">${money(before)}</td>
      <td class="figure">${money(after)}</td>
      <td class="figure">${same ? '0' : signed(money(change), change)}</td>
    </tr>`;
  }
}
