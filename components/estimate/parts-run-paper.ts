import { html, nothing, type TemplateResult } from 'lit';
import { stateWords } from '../../src/work/part-notes.js';
import type { PartsPlan, PartToGet } from '../../src/work/parts-plan.js';
import { formatFigure } from '../look/format.js';
import type { SheetView } from './context.js';
import { neededFor } from './parts-run-text.js';

/** The parts run on paper: one table for each supplier, with a box to tick, and no prices. */
export function partsRunPaper(plan: PartsPlan, { state: { estimate }, locale }: SheetView): TemplateResult {
  const { vehicle, number, revision } = estimate;
  const facts = [vehicle.label, vehicle.plate, vehicle.vin].filter((fact) => fact !== '');
  return html`<div class="print parts-run" part="print">
    <h2>Parts run for estimate ${number}</h2>
    <dl>
      <div><dt>Vehicle</dt><dd>${facts.join(' · ')}</dd></div>
      <div><dt>Revision</dt><dd>${revision}</dd></div>
    </dl>
    ${plan.warnings.map((warning) => html`<p class="notice"><strong>Check:</strong> ${warning.message} ${warning.hint ?? ''}</p>`)}
    ${plan.suppliers.length === 0 ? html`<p>No approved line needs parts.</p>` : nothing}
    ${plan.suppliers.map(({ supplier, parts }) => supplierTable(supplier, parts, locale))}
    ${plan.notNeeded.map(
      (note) =>
        html`<p class="notice"><strong>Not needed any more:</strong> ${note.qty} × ${note.title} ${note.number}, ${note.state === 'here' ? 'here' : 'ordered'}.</p>`,
    )}
  </div>`;
}

/** So many parts stay on one page. */
const SHORT = 8;

function supplierTable(supplier: string, parts: readonly PartToGet[], locale: string): TemplateResult {
  const figure = (text: string): string => formatFigure(text, locale);
  const back = (part: PartToGet): unknown => {
    const words = takeBack(part, figure);
    return words === '' ? nothing : html`<br />Take back: ${words}`;
  };
  return html`<table class=${parts.length <= SHORT ? 'short' : ''}>
    <caption>${supplier || 'No supplier named'}</caption>
    <thead>
      <tr>
        <th scope="col" class="tick"><span class="unseen">Got it</span></th><th scope="col" class="figure get">To get</th>
        <th scope="col" class="part">Part</th><th scope="col" class="number">Number</th><th scope="col">For</th><th scope="col" class="state">State</th>
      </tr>
    </thead>
    <tbody>
      ${parts.map(
        (part) => html`<tr>
          <td><span class="box"></span></td>
          <td class="figure strong">${part.qty === '0' ? '–' : figure(part.qty)}</td>
          <th scope="row">${part.title}${part.condition === 'new' ? nothing : html`, ${part.condition}`}${back(part)}${part.note === '' ? nothing : html`<br /><em>${part.note}</em>`}</th>
          <td class="number">${part.number}</td>
          <td>${neededFor(part, figure, 1)}</td>
          <td class="state">${stateWords(part)}</td>
        </tr>`,
      )}
    </tbody>
  </table>`;
}

/** What goes to the counter with the list: old parts for their core charge, and parts not needed. */
export function takeBack({ cores, giveBack }: PartToGet, figure: (text: string) => string): string {
  return [cores === '0' ? '' : `${figure(cores)} old`, giveBack === '0' ? '' : `${figure(giveBack)} unused`]
    .filter((words) => words !== '')
    .join(', ');
}
