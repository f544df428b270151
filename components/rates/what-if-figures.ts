import { html, nothing, type TemplateResult } from 'lit';
import type { DecimalString } from '../../src/number/decimal.js';
import { type FigureName, FIGURES } from '../../src/replay/figures.js';
import type { ReplayResult } from '../../src/replay/replay.js';
import { formatFigure, formatHours, formatMoney, formatPercent } from '../look/format.js';

/** What each figure is called, and in small letters exactly what it is. */
export const FIGURE_WORDS: Readonly<Record<FigureName, readonly [title: string, note: string]>> = {
  total: ['Revenue with tax', 'what customers pay'],
  tax: ['Tax', ''],
  beforeTax: ['Revenue before tax', 'after discount'],
  discount: ['Discounts given', ''],
  labourSales: ['Labour sales', 'after discount, before tax, as are all sales here'],
  partsSales: ['Parts sales', ''],
  coreSales: ['Core charges', 'passed on at cost, no margin counted'],
  subletSales: ['Sublet sales', ''],
  feeSales: ['Fees', ''],
  suppliesSales: ['Shop supplies', ''],
  partsCost: ['Cost of parts', 'quantity × cost'],
  subletCost: ['Cost of sublet work', ''],
  wages: ['Wages', 'hours charged × the wage above'],
  partsMargin: ['Parts margin', 'parts sales less cost of parts'],
  partsMarginPercent: ['Parts margin, part of sales', ''],
  grossProfit: ['Gross profit', ''],
  hoursCharged: ['Hours charged', ''],
  hoursGivenBack: ['Hours given back', 'teardown that another line pays for'],
  effectiveLabourRate: ['Effective labour rate', 'labour sales ÷ hours charged'],
  averageEstimate: ['Average estimate', 'revenue before tax ÷ estimates'],
};

/** In the order of an owner's questions; the first ones are always shown, the others only where they are not zero. */
const FIRST: readonly FigureName[] = [
  'beforeTax',
  'total',
  'labourSales',
  'partsSales',
  'partsMargin',
  'partsMarginPercent',
  'grossProfit',
  'effectiveLabourRate',
  'averageEstimate',
  'hoursCharged',
  'hoursGivenBack',
];
const OTHERS: readonly FigureName[] = [
  'subletSales',
  'coreSales',
  'feeSales',
  'suppliesSales',
  'discount',
  'tax',
  'partsCost',
  'subletCost',
  'wages',
];

/** What a figure is, once there is a wage or none. */
export function figureNote(name: FigureName, wage: boolean): string {
  if (name !== 'grossProfit') return FIGURE_WORDS[name][1];
  return `revenue before tax less core charges, cost of parts and of sublet work${wage ? ', and wages' : '; no wages'}`;
}

/** A figure in its unit; `none` where there is nothing to divide by. */
export function writeFigure(name: FigureName, value: DecimalString | null, currency: string, locale: string): string {
  if (value === null) return 'none';
  switch (FIGURES[name]) {
    case 'hours':
      return formatHours(value, locale);
    case 'percent':
      return formatPercent(value, locale);
    default:
      return formatMoney(value, currency, locale);
  }
}

/** What is between two figures, with its sign. */
export function writeDifference(name: FigureName, value: DecimalString | null, currency: string, locale: string): string {
  if (value === null) return 'none';
  if (isZero(value)) return '0';
  const written = FIGURES[name] === 'percent' ? `${formatFigure(value, locale)} points` : writeFigure(name, value, currency, locale);
  return signed(written, value);
}

/** With a plus where it is above zero: a minus comes by itself. */
export function signed(written: string, value: DecimalString): string {
  return value.startsWith('-') || isZero(value) ? written : `+${written}`;
}

export function isZero(value: DecimalString): boolean {
  return !/[1-9]/.test(value);
}

/** The figures of a replay side by side; what they are stands beside them, or where there is no room, below. */
export function figuresTable(result: ReplayResult, locale: string): TemplateResult {
  const { before, after, difference, currency } = result;
  const others = OTHERS.filter((name) => [before[name], after[name]].some((value) => value !== null && !isZero(value)));
  const wage = others.includes('wages');
  const shown = [...FIRST, ...others];
  return html`<table class="ruled figures" part="figures">
    <caption class="unseen">What past estimates come to before and after</caption>
    <thead>
      <tr>
        <th scope="col">All estimates together</th>
        <th scope="col" class="figure">Before</th>
        <th scope="col" class="figure">After</th>
        <th scope="col" class="figure">Difference</th>
      </tr>
    </thead>
    <tbody>
      ${shown.map((name) => {
        const note = figureNote(name, wage);
        return html`<tr class=${name === 'grossProfit' ? 'main' : ''}>
          <th scope="row">${FIGURE_WORDS[name][0]}${note === '' ? nothing : html` <span class="note">${note}</span>`}</th>
          <td class="figure">${writeFigure(name, before[name], currency, locale)}</td>
          <td class="figure">${writeFigure(name, after[name], currency, locale)}</td>
          <td class="figure">${writeDifference(name, difference[name], currency, locale)}</td>
        </tr>`;
      })}
    </tbody>
  </table>
  <details class="narrow">
    <summary>What these figures are</summary>
    <ul class="list">
      ${shown.map((name) => (figureNote(name, wage) === '' ? nothing : html`<li><strong>${FIGURE_WORDS[name][0]}</strong>: ${figureNote(name, wage)}</li>`))}
    </ul>
  </details>`;
}
