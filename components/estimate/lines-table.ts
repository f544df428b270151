import { css, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Line } from '../../src/documents/lines.js';
import { linesFromCsv, type LinesRead } from '../../src/exchange/lines-from-csv.js';
import { linesToCsv } from '../../src/exchange/lines-to-csv.js';
import { tableForm } from '../../src/exchange/print-table.js';
import type { Command } from '../../src/store/commands.js';
import { dialogStyles, SheetDialog } from '../look/dialog.js';
import type { SheetView } from './context.js';
import { downloadText } from './files.js';

const MOST_LISTED = 100;
/** A table of lines is short; a file beyond this is something else. */
const MOST_CHARACTERS = 5_000_000;

/** Ways of writing figures that a table may come in: by the mark before its decimals. */
const FIGURES = [
  ['en-US', '1,234.5'],
  ['de-DE', '1.234,5'],
] as const;

export interface LinesEdit {
  readonly commands: readonly Command[];
  readonly what: string;
}

/**
 * The lines as a table for a spreadsheet (CSV), and lines out of such a table: what was read and every row that is no
 * line, before anything is taken in.
 *
 * @property {SheetView | null} view the sheet, priced
 *
 * @fires {CustomEvent<LinesEdit>} edit lines are to be taken in
 * @fires {Event} close it was closed
 */
export class LinesTable extends SheetDialog {
  static override styles = [
    dialogStyles,
    css`
      :host {
        position: absolute;
      }

      dialog {
        width: min(54rem, calc(100vw - 2rem));
      }

      section {
        display: grid;
        gap: 0.5rem;
      }

      section + section {
        padding-block-start: 0.75rem;
        border-block-start: 1px solid var(--_rule);
      }

      .side-by-side {
        display: flex;
        flex-wrap: wrap;
        gap: 0.75rem;
        align-items: end;
      }

      .scroll {
        overflow: auto;
        max-block-size: 16rem;
      }

      table.ruled {
        width: 100%;
      }

      textarea {
        font-family: ui-monospace, monospace;
      }

      select {
        width: auto;
      }

      .choice {
        display: flex;
        gap: 0.5rem;
        align-items: center;
        color: inherit;
      }
    `,
  ];

  @property({ attribute: false }) view: SheetView | null = null;

  @state() private text = '';
  @state() private figures: string = FIGURES[0][0];
  @state() private withPrices = true;
  @state() private fault = '';

  protected readonly heading = 'Lines as a table';

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('open') || !this.open) return;
    this.text = '';
    this.fault = '';
    this.figures = tableForm(this.view?.locale ?? 'en-US').decimalMark === ',' ? 'de-DE' : 'en-US';
  }

  private download(): void {
    const {
      state: { estimate },
      priced,
      locale,
    } = this.view!;
    const csv = linesToCsv({ lines: estimate.lines, form: tableForm(locale), priced: this.withPrices ? priced : null });
    // The mark tells spreadsheets that it is UTF-8.
    downloadText(`\ufeff${csv}`, 'text/csv;charset=utf-8', `${estimate.number || estimate.id}.lines.csv`, this.ownerDocument);
  }

  private async onFile(event: Event): Promise<void> {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (file === undefined) return;
    input.value = '';
    this.fault = '';
    if (file.size > MOST_CHARACTERS) this.fault = `${file.name} is too large to be a table of lines (${file.size} bytes).`;
    else
      this.text = await file
        .text()
        .catch((fault: unknown) => ((this.fault = `${file.name} cannot be read (${String(fault)}). Choose it again.`), ''));
  }

  private read(): LinesRead | null {
    const { view } = this;
    if (view === null || this.text.trim() === '') return null;
    return linesFromCsv(this.text, {
      locale: this.figures,
      catalogue: view.catalogue.catalogue,
      there: view.state.estimate.lines,
      labourClass: view.rates.rates.labourClasses[0]?.id ?? 'general',
    });
  }

  private take(lines: readonly Line[]): void {
    const commands = lines.map((entry): Command => ({ do: 'insert', list: 'lines', entry, before: null }));
    const what = `taking in ${lines.length === 1 ? '1 line' : `${lines.length} lines`}`;
    this.dispatchEvent(new CustomEvent<LinesEdit>('edit', { detail: { commands, what } }));
    this.close();
  }

  protected override renderBody(): TemplateResult {
    const read = this.read();
    const count = this.view!.state.estimate.lines.length;
    return html`<div class="body" data-not-kept>
      <section aria-labelledby="out">
        <h3 id="out">To a spreadsheet</h3>
        <label class="choice"><input type="checkbox" .checked=${this.withPrices} @change=${(event: Event) => (this.withPrices = (event.target as HTMLInputElement).checked)} /> With shared and charged hours, rates and amounts</label>
        <div><button ?disabled=${count === 0} @click=${this.download}>Save ${count === 1 ? '1 line' : `${count} lines`} as CSV</button></div>
        <p class="quiet">Cells that a spreadsheet would run as a formula have an apostrophe before them; it is taken off when the table comes back.</p>
      </section>
      <section aria-labelledby="in">
        <h3 id="in">From a table</h3>
        <div class="side-by-side">
          <label class="field">A file <input type="file" accept=".csv,.tsv,.txt,text/csv,text/plain" @change=${this.onFile} /></label>
          <label class="field"
            >Figures are written
            <select @change=${(event: Event) => (this.figures = (event.target as HTMLSelectElement).value)}>
              ${FIGURES.map(([locale, example]) => html`<option value=${locale} ?selected=${this.figures === locale}>${example}</option>`)}
            </select></label
          >
        </div>
        <label class="field"
          >or the table itself, with a row of headings
          <textarea rows="5" spellcheck="false" autocomplete="off" .value=${this.text} @input=${(event: Event) => (this.text = (event.target as HTMLTextAreaElement).value)}></textarea></label
        >
        ${this.fault === '' ? nothing : html`<p class="fault" role="alert">${this.fault}</p>`} ${read === null ? nothing : this.renderRead(read)}
      </section>
      <div class="buttons">
        <button @click=${this.close}>Close</button>
        ${
          read === null || read.lines.length === 0
            ? nothing
            : html`<button class="main" @click=${() => this.take(read.lines)}>Take in ${read.lines.length === 1 ? '1 line' : `${read.lines.length} lines`}${read.bad.length === 0 ? '' : ', leave the bad rows'}</button>`
        }
      </div>
    </div>`;
  }

  private renderRead({ lines, bad, problems }: LinesRead): TemplateResult {
    return html`${problems.map(({ severity, message, hint }) => html`<p class=${severity === 'error' ? 'fault' : 'quiet'}>${message} ${hint ?? ''}</p>`)}
      ${
        bad.length === 0
          ? nothing
          : html`<div class="scroll" tabindex="0" role="group" aria-label="Rows that are no line">
            <table class="ruled">
              <caption>
                ${bad.length === 1 ? '1 row is no line' : `${bad.length} rows are no lines`}
              </caption>
              <tbody>
                ${bad.slice(0, MOST_LISTED).map(({ line, reasons }) => html`<tr><th scope="row">line ${line}</th><td>${reasons.join(' ')}</td></tr>`)}
              </tbody>
            </table>
          </div>`
      }
      ${
        lines.length === 0
          ? nothing
          : html`<div class="scroll" tabindex="0" role="group" aria-label="Lines that were read">
            <table class="ruled">
              <caption>
                ${lines.length === 1 ? '1 line was read' : `${lines.length} lines were read`}
              </caption>
              <thead>
                <tr>
                  <th scope="col">Kind</th>
                  <th scope="col">Work</th>
                  <th scope="col" class="figure">Hours, quantity</th>
                  <th scope="col" class="figure">Cost</th>
                  <th scope="col" class="figure">Price</th>
                </tr>
              </thead>
              <tbody>
                ${lines.slice(0, MOST_LISTED).map((line) => this.renderLine(line))}
              </tbody>
            </table>
          </div>`
      }`;
  }

  private renderLine(line: Line): TemplateResult {
    const [work, quantity, cost, price] = this.cellsOf(line);
    return html`<tr>
      <td>${line.kind}</td>
      <td>${work}</td>
      <td class="figure">${quantity}</td>
      <td class="figure">${cost}</td>
      <td class="figure">${price}</td>
    </tr>`;
  }

  private cellsOf(line: Line): [work: string, quantity: string, cost: string, price: string] {
    switch (line.kind) {
      case 'operation': {
        const title = this.view!.catalogue.catalogue.operations.find(({ id }) => id === line.operation)?.title;
        return [title ?? `${line.operation} (not in the catalogue)`, line.bookHours ?? '', '', ''];
      }
      case 'labour':
        return [line.title, line.hours, '', ''];
      case 'part':
        return [line.title, line.qty, line.cost, line.unitPrice ?? ''];
      case 'sublet':
        return [line.title, '', line.cost, line.price ?? ''];
      case 'fee':
        return [line.title, '', '', line.amount];
      case 'note':
        return [line.text, '', '', ''];
    }
  }
}
