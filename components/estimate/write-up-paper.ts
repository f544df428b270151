import { html, type TemplateResult } from 'lit';
import type { SheetView } from './context.js';

/** Concern, cause and correction on paper. */
export function writeUpPaper({ state: { estimate } }: SheetView): TemplateResult {
  const { number, vehicle, concern, cause, correction } = estimate;
  const facts = [vehicle.label, vehicle.plate, vehicle.vin, vehicle.odometer === '' ? '' : `${vehicle.odometer} ${vehicle.unit}`];
  const text = (title: string, words: string): TemplateResult =>
    html`<section class="text"><h3>${title}</h3><p>${words || '–'}</p></section>`;
  return html`<div class="print write-up" part="print">
    <h2>Write-up of ${number}</h2>
    <dl><div><dt>Vehicle</dt><dd>${facts.filter((fact) => fact !== '').join(' · ')}</dd></div></dl>
    ${text('Concern', concern)} ${text('Cause', cause)} ${text('Correction', correction)}
  </div>`;
}
