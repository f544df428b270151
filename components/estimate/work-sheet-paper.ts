import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { property } from 'lit/decorators.js';
import type { Estimate } from '../../src/documents/estimate.js';
import { atPositions } from '../../src/work/approved.js';
import type { CautionAt } from '../../src/work/caution-book.js';
import type { SheetPart } from '../../src/work/sheet-parts.js';
import type { CloseEntry, OpenEntry, SheetEntry, WorkEntry, WorkSheet } from '../../src/work/work-sheet.js';
import { baseStyles } from '../look/base.styles.js';
import { formatDay, formatFigure } from '../look/format.js';
import { printStyles } from '../look/print.styles.js';
import { workSheetStyles } from './work-sheet.styles.js';

/** How deep the rails are drawn; what lies deeper is drawn at this depth. */
const DEEPEST = 12;

/**
 * The technician's work sheet as it is printed: the approved work in the order of doing, with boxes to tick and no
 * prices. Rails at the left show which steps are open.
 *
 * @property {WorkSheet | null} sheet what is to be done
 * @property {Estimate | null} estimate whose it is
 * @property {string} locale how figures and the day are written
 */
export class WorkSheetPaper extends LitElement {
  static override styles = [baseStyles, printStyles, workSheetStyles];

  @property({ attribute: false }) sheet: WorkSheet | null = null;
  @property({ attribute: false }) estimate: Estimate | null = null;
  @property() locale = 'en';

  protected override render(): TemplateResult | typeof nothing {
    const { sheet, estimate } = this;
    if (sheet === null || estimate === null) return nothing;
    // The running head is printed again on each page: a page that is lost must tell whose it is.
    return html`<div class="pages">
      <div class="running"><div class="running-line">${this.renderRunning(estimate)}</div></div>
      <div class="rest">
        <div class="rest-cell">
          ${this.renderHead(estimate)} ${this.renderWarnings(sheet)} ${this.renderLoose(sheet)}
          ${
            sheet.entries.length === 0
              ? html`<p>${sheet.loose.length === 0 ? 'No line is approved yet, so there is nothing to do.' : 'No approved operation.'}</p>`
              : html`<ol class="order">${sheet.entries.map((entry) => this.renderEntry(entry, sheet.entries))}</ol>`
          }
          ${this.renderFoot(sheet)}
        </div>
      </div>
    </div>`;
  }

  private renderRunning({ number, revision, vehicle }: Estimate): TemplateResult {
    return html`<span>Work sheet ${number}, revision ${revision}</span><span>${vehicle.label}</span><strong>${vehicle.plate}</strong>`;
  }

  private renderHead(estimate: Estimate): TemplateResult {
    const { vehicle } = estimate;
    const fact = (name: string, value: string): TemplateResult | typeof nothing =>
      value === '' ? nothing : html`<div><dt>${name}</dt><dd>${value}</dd></div>`;
    return html`<header>
      <h2>Work sheet</h2>
      <dl>
        ${fact('Vehicle', vehicle.label)} ${fact('Plate', vehicle.plate)}
        ${fact('Estimate', [estimate.number, formatDay(estimate.createdAt, this.locale)].filter((text) => text !== '').join(', '))}
        ${fact('VIN', vehicle.vin)} ${fact('Odometer', vehicle.odometer === '' ? '' : `${this.figure(vehicle.odometer)} ${vehicle.unit}`)}
        <div><dt>Technician</dt><dd class="blank"></dd></div>
        <div class="whole"><dt>Concern</dt><dd>${estimate.concern || '–'}</dd></div>
      </dl>
    </header>`;
  }

  private renderWarnings({ warnings }: WorkSheet): TemplateResult | typeof nothing {
    if (warnings.length === 0) return nothing;
    return html`<ul class="warnings">
      ${warnings.map((warning) => html`<li><strong>Before you begin:</strong> ${warning.message} ${warning.hint ?? ''}</li>`)}
    </ul>`;
  }

  private renderLoose({ loose, notes }: WorkSheet): TemplateResult | typeof nothing {
    if (loose.length === 0 && notes.length === 0) return nothing;
    return html`<section class="loose">
      ${
        loose.length === 0
          ? nothing
          : html`<h3>Also to do, at a moment of your choice</h3>
            <ul>
              ${loose.map(
                (work) =>
                  html`<li><span class="box"></span><span><strong>${work.title}</strong>${work.what === '' ? nothing : html`, ${work.what}`}${work.note === '' ? nothing : html`. ${work.note}`}</span></li>`,
              )}
            </ul>`
      }
      ${notes.map((note) => html`<p><strong>Note:</strong> ${note}</p>`)}
    </section>`;
  }

  private renderEntry(entry: SheetEntry, entries: readonly SheetEntry[]): TemplateResult {
    const depth = Math.min(entry.depth, DEEPEST);
    return html`<li class="entry ${entry.kind}" value=${entry.n}>
      <span class="box"></span>
      <span class="n">${entry.n}</span>
      ${Array.from({ length: depth }, () => html`<span class="rail"></span>`)}
      ${entry.kind === 'work' ? nothing : html`<span class="mouth"></span>`}
      <div class="told">${entry.kind === 'open' ? this.renderOpen(entry) : entry.kind === 'work' ? this.renderWork(entry) : this.renderClose(entry, entries)}</div>
    </li>`;
  }

  private renderOpen(entry: OpenEntry): TemplateResult {
    return html`${cautions(entry.cautions)}
      <p><span class="what">Open</span> <b>${placed(entry.words, entry.position)}</b></p>`;
  }

  private renderClose(entry: CloseEntry, entries: readonly SheetEntry[]): TemplateResult {
    const far = entry.n - entry.opened > 1 && entries.length > 12;
    return html`${cautions(entry.cautions)}
      <p><span class="what">Close</span> <b>${placed(entry.words, entry.position)}</b>${far ? html` <span class="quiet">(opened in ${entry.opened})</span>` : nothing}</p>
      ${this.renderParts('Must be new', entry.renew)}`;
  }

  private renderWork(entry: WorkEntry): TemplateResult {
    return html`${cautions(entry.cautions)}
      <p class="job"><span class="what">${entry.closingTest ? 'Closing test' : 'Work'}</span> <b>${atPositions(entry.title, entry.positions)}</b></p>
      ${entry.findings.map((finding) => html`<p>Puts right: ${finding}</p>`)}
      ${entry.includes.map(
        (
          inner,
        ) => html`<p>Part of it: <b>${atPositions(inner.title, inner.positions)}</b>${inner.findings.length === 0 ? nothing : html`, puts right: ${inner.findings.join('; ')}`}</p>
          ${this.renderParts('Fit', inner.parts)}`,
      )}
      ${entry.extraHours === null ? nothing : html`<p><b>Allow ${this.figure(entry.extraHours.hours)} h more</b>${entry.extraHours.reason === '' ? nothing : html`: ${entry.extraHours.reason}`}</p>`}
      ${entry.overlaps.length === 0 ? nothing : html`<p>Goes together with: ${entry.overlaps.join('; ')}</p>`}
      ${this.renderParts('Fit', entry.parts)}
      ${entry.limits === '' ? nothing : html`<p>Usual limits: ${entry.limits}</p>`}
      ${
        entry.closingTest
          ? html`<p class="result"><span>Reading <span class="line"></span></span><span><span class="box"></span> within</span><span><span class="box"></span> not within: tell the advisor</span></p>`
          : nothing
      }
      ${entry.note === '' ? nothing : html`<p>Note: ${entry.note}</p>`}`;
  }

  private renderParts(called: string, parts: readonly SheetPart[]): TemplateResult | typeof nothing {
    if (parts.length === 0) return nothing;
    return html`<ul class="parts" aria-label=${called}>
      ${parts.map(
        (part, i) => html`<li>
          <span class="called">${i === 0 ? called : nothing}</span><span class="box"></span><span class="qty">${this.figure(part.qty)} ×</span>
          <span>${part.title}${part.condition === 'new' ? nothing : html`, ${part.condition}`} <span class="number">${part.number}</span></span>
        </li>`,
      )}
    </ul>`;
  }

  private renderFoot({ entries }: WorkSheet): TemplateResult {
    return html`<footer>
      <div class="found">
        <h3>Found while it was open</h3>
        <p>Tell the advisor before any more is done.</p>
        <div class="line"></div>
        <div class="line"></div>
      </div>
      ${entries.length === 0 ? nothing : html`<div class="signed"><span>Done by <span class="line"></span></span><span>Date, time <span class="line"></span></span><span>Checked by <span class="line"></span></span></div>`}
      <p class="quiet">
        The usual cautions only. The maker’s procedure, local codes and licensed practice come before anything written here.
      </p>
    </footer>`;
  }

  private figure(text: string): string {
    return formatFigure(text, this.locale);
  }
}

function placed(words: string, position: string | null): string {
  return position === null ? words : `${words}: ${position}`;
}

/** Cautions stand before what they are about: in full the first time, after that in one line. */
function cautions(list: readonly CautionAt[]): readonly (TemplateResult | typeof nothing)[] {
  const again = list.filter((caution) => !caution.first);
  return [
    ...list.filter((caution) => caution.first).map(({ n, text }) => html`<p class="caution"><strong>Caution ${n}:</strong> ${text}</p>`),
    again.length === 0
      ? nothing
      : html`<p class="caution again"><strong>${again.length === 1 ? 'Caution' : 'Cautions'} again:</strong> ${again.map(({ n, text }) => html` <b>${n}</b> ${text}.`)}</p>`,
  ];
}
