import { html, nothing, type TemplateResult } from 'lit';
import { type ExplainedCode, explainedCodes } from '../../src/findings/codes.js';
import { findingName, roundsText, whyIncomplete } from '../../src/findings/round-words.js';
import type { PricedCharge, PricedLine } from '../../src/pricing/priced-estimate.js';
import { formatDay, formatFigure, formatMoney } from '../look/format.js';
import type { SheetView } from './context.js';
import { componentTitle } from './finding-rows.js';

/**
 * The estimate on paper. The grids hold only the rows that are in sight, so paper gets tables of its own, with every
 * row, and without what the shop pays.
 */
export function printSheet(view: SheetView): TemplateResult {
  const { estimate } = view.state;
  const { vehicle, customer } = estimate;
  const day = formatDay(estimate.createdAt, view.locale);
  return html`<div class="print" part="print">
    <h2>Estimate ${estimate.number}</h2>
    <dl>
      ${entry('Revision', [String(estimate.revision), day])}
      ${entry('Vehicle', [vehicle.label, vehicle.plate, vehicle.vin, vehicle.odometer === '' ? '' : `${vehicle.odometer} ${vehicle.unit}`])}
      ${entry('Customer', [customer.name, customer.phone, customer.email])} ${entry('Concern', [estimate.concern])}
    </dl>
    ${roundsPart(view)} ${findingsTable(view)} ${codesPart(view)} ${linesTable(view)}
    <div class="foot">
      <baysheet-totals .priced=${view.priced} .more=${whyIncomplete(estimate)} .deferral=${null} .locale=${view.locale}></baysheet-totals>
    </div>
  </div>`;
}

function entry(name: string, values: readonly string[]): TemplateResult | typeof nothing {
  const given = values.filter((value) => value !== '');
  return given.length === 0 ? nothing : html`<div><dt>${name}</dt><dd>${given.join(' · ')}</dd></div>`;
}

/** Which rounds there were, and whether more may be found. */
function roundsPart(view: SheetView): TemplateResult {
  const { estimate } = view.state;
  const why = whyIncomplete(estimate);
  const rounds = roundsText(estimate);
  return html`<p class="part">${rounds === '' ? nothing : html`${rounds}. `}<strong>${why === '' ? 'The list of findings is complete.' : why}</strong></p>`;
}

function codesPart(view: SheetView): TemplateResult | typeof nothing {
  const codes = explainedCodes(view.state.estimate);
  if (codes.length === 0) return nothing;
  const names = (code: ExplainedCode): string => code.findings.map((finding) => findingName(finding, view.catalogue.catalogue)).join('; ');
  return html`<p class="part">
    Trouble codes: ${codes.map((code) => `${code.code} (${code.findings.length === 0 ? 'no finding explains it' : names(code)})`).join(', ')}.
  </p>`;
}

function findingsTable(view: SheetView): TemplateResult | typeof nothing {
  const { findings } = view.state.estimate;
  if (findings.length === 0) return nothing;
  return html`<table>
    <caption>Findings</caption>
    <thead>
      <tr><th scope="col">Component</th><th scope="col">Fault</th><th scope="col">Seen by</th><th scope="col">Urgency</th><th scope="col" class="figure">Round</th></tr>
    </thead>
    <tbody>
      ${findings.map(
        (finding) => html`<tr>
          <th scope="row">${componentTitle(finding, view)}${finding.position === '' ? nothing : html`, ${finding.position}`}</th>
          <td>${finding.fault}</td>
          <td>${finding.seen.map((evidence) => [evidence.how, evidence.reading].filter(Boolean).join(' ')).join('; ')}</td>
          <td>${finding.urgency}</td>
          <td class="figure">${finding.round}</td>
        </tr>`,
      )}
    </tbody>
  </table>`;
}

function linesTable(view: SheetView): TemplateResult {
  const { lines, charges, currency } = view.priced;
  const once = charges.filter((charge) => charge.line === null);
  return html`<table>
    <caption>Work and parts, in ${currency}</caption>
    <thead>
      <tr>
        <th scope="col">Work</th><th scope="col" class="figure">Book h</th><th scope="col" class="figure">Shared h</th>
        <th scope="col" class="figure">Charged h or quantity</th><th scope="col" class="figure">Rate or unit price</th>
        <th scope="col" class="figure">Amount</th><th scope="col">Decision</th>
      </tr>
    </thead>
    <tbody>
      ${lines.map((line) => [lineRow(line, view), ...charges.filter((charge) => charge.line === line.id && !isMain(line, charge)).map((charge) => chargeRow(charge, view))])}
      ${once.map((charge) => chargeRow(charge, view))}
    </tbody>
  </table>`;
}

/** The charge that the row of the line itself shows. */
function isMain(line: PricedLine, charge: PricedCharge): boolean {
  return charge.kind === 'labour' || (line.kind !== 'operation' && charge.kind !== 'core');
}

function lineRow(line: PricedLine, view: SheetView): TemplateResult {
  const main = view.priced.charges.find((charge) => charge.line === line.id && isMain(line, charge));
  const figure = (text: string): string => (text === '0' ? '' : formatFigure(text, view.locale));
  const document = view.state.estimate.lines.find(({ id }) => id === line.id);
  const positions = document?.kind === 'operation' && document.positions.length > 0 ? ` (${document.positions.join(', ')})` : '';
  return html`<tr>
    <th scope="row">${line.priced || line.kind === 'note' ? line.title : html`<s>${line.title}</s>`}${positions}</th>
    <td class="figure">${figure(line.bookHours)}</td>
    <td class="figure">${figure(line.sharedHours)}</td>
    <td class="figure">${main === undefined ? nothing : formatFigure(main.qty, view.locale)}</td>
    <td class="figure">${main === undefined ? nothing : formatFigure(main.unit, view.locale)}</td>
    <td class="figure">${main === undefined ? nothing : formatFigure(main.amount, view.locale)}</td>
    <td>${line.kind === 'note' ? nothing : line.decision}</td>
  </tr>`;
}

function chargeRow(charge: PricedCharge, view: SheetView): TemplateResult {
  const condition = charge.part === undefined || charge.part.condition === 'new' ? '' : `, ${charge.part.condition}`;
  const number = charge.part === undefined || charge.part.number === '' ? '' : ` ${charge.part.number}`;
  const words = charge.kind === 'core' ? `Core charge: ${charge.title}` : `${charge.title}${number}${condition}`;
  return html`<tr class="sub">
    <td>${words}</td>
    <td></td>
    <td></td>
    <td class="figure">${formatFigure(charge.qty, view.locale)}</td>
    <td class="figure">${formatFigure(charge.unit, view.locale)}</td>
    <td class="figure">${formatFigure(charge.amount, view.locale)}</td>
    <td></td>
  </tr>`;
}

/** What the bar at the foot of a narrow sheet says. */
export function totalText(view: SheetView): string {
  return formatMoney(view.priced.totals.total, view.priced.currency, view.locale);
}
