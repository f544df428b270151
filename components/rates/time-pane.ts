import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Catalogue } from '../../src/documents/catalogue.js';
import { printProblem } from '../../src/documents/problem.js';
import type { Rates } from '../../src/documents/rates.js';
import type { ChargedJobs } from '../../src/replay/charged-hours.js';
import { type BadRow, type ClockedColumns, type ClockedTable, readClockedHours } from '../../src/replay/clocked-hours.js';
import { LEAST_JOBS, type OperationTime, type TimeFeedback, timeFeedback } from '../../src/replay/time-feedback.js';
import { formatHours } from '../look/format.js';
import { scrolling } from '../look/scrolling.js';
import { spreadPicture } from './plots/spread.js';
import { replayProgress } from './replay-progress.js';
import type { EstimateSource } from './replay-source.js';
import { ReplayTask } from './replay-task.js';
import { counted, numbered } from './replay-words.js';
import { timesTable } from './time-table.js';
import { tell } from './what-if-events.js';
import { whatIfStyles } from './what-if.styles.js';

/** What a file of clocked hours gave. */
interface Feedback {
  readonly file: string;
  readonly table: ClockedTable;
  readonly feedback: TimeFeedback;
  /** Whether past estimates were asked what they charged. */
  readonly looked: boolean;
}

/**
 * Sets clocked hours from a table beside the hours charged, and proposes book hours; nothing is changed unless a person
 * ticks it and takes it over.
 *
 * @property {Catalogue | null} catalogue whose operations were clocked
 * @property {Rates | null} rates what past estimates are priced with, to see what they charged
 * @property {EstimateSource | null} source past estimates; null: all rows are set beside the book
 * @property {string} locale how figures are written and read
 *
 * @fires {CustomEvent<TakeHoursDetail>} take-hours a person takes over proposed book hours
 */
export class TimePane extends LitElement {
  static override styles = whatIfStyles;

  @property({ attribute: false }) catalogue: Catalogue | null = null;
  @property({ attribute: false }) rates: Rates | null = null;
  @property({ attribute: false }) source: EstimateSource | null = null;
  @property() locale = 'en';

  @state() private shown: Feedback | null = null;
  /** A table whose columns nobody knows yet. */
  @state() private unknown: { readonly file: string; readonly text: string; readonly headings: readonly string[] } | null = null;
  @state() private ticked: ReadonlySet<string> = new Set();
  @state() private said = '';
  @state() private fault = '';
  private readonly task = new ReplayTask(this);

  private async onFile(event: Event): Promise<void> {
    const input = event.target as HTMLInputElement;
    const [file] = input.files ?? [];
    if (file === undefined) return;
    const text = await file.text();
    input.value = '';
    await this.read(file.name, text);
  }

  private async read(file: string, text: string, columns?: ClockedColumns): Promise<void> {
    const { catalogue } = this;
    if (catalogue === null) return;
    [this.said, this.fault, this.unknown] = ['', '', null];
    const table = readClockedHours(text, catalogue, this.locale, columns);
    if (table.columns === null && table.headings.length > 0) {
      this.unknown = { file, text, headings: table.headings };
      return;
    }
    if (table.rows.length === 0) {
      this.fault = `${file}: ${table.problems.length === 0 ? 'no row can be used.' : table.problems.map(printProblem).join(' ')} What is shown is as it was before.`;
      if (table.bad.length > 0) this.fault += ` Line ${table.bad[0]!.line}: ${table.bad[0]!.reason}`;
      return;
    }
    const looked = await this.lookUp(table, catalogue);
    if (looked === 'no') return;
    this.ticked = new Set();
    this.shown = { file, table, feedback: timeFeedback(table.rows, catalogue, looked), looked: looked !== null };
    this.said = `${file} read.`;
  }

  /** What past estimates charged; null where none is to be asked, `no` where that did not come to an end. */
  private async lookUp(table: ClockedTable, catalogue: Catalogue): Promise<ChargedJobs | null | 'no'> {
    const { source, rates } = this;
    if (source === null || rates === null || table.rows.every(({ estimate }) => estimate === null)) return null;
    const outcome = await this.task.run({ name: 'hours', of: { catalogue, rates, rows: table.rows } }, source);
    if (outcome.how === 'done' && outcome.answer.ok) return outcome.answer.charged;
    if (outcome.how === 'cancelled') this.said = 'Cancelled. What is shown is as it was before.';
    else
      this.fault = `What was charged could not be looked up (${outcome.how === 'failed' ? outcome.message : 'the card or the catalogue cannot be used'}).`;
    return 'no';
  }

  private onColumns(event: Event): void {
    event.preventDefault();
    const chosen = (name: string): number => Number(this.renderRoot.querySelector<HTMLSelectElement>(`#${name}`)!.value);
    const estimate = chosen('estimate');
    const { file, text } = this.unknown!;
    void this.read(file, text, { operation: chosen('operation'), hours: chosen('hours'), estimate: estimate === -1 ? null : estimate });
  }

  private onTick(id: string, on: boolean): void {
    const ticked = new Set(this.ticked);
    if (on) ticked.add(id);
    else ticked.delete(id);
    this.ticked = ticked;
  }

  private take(proposing: readonly OperationTime[]): void {
    const hours = proposing
      .filter(({ operation }) => this.ticked.has(operation))
      .map(({ operation, proposed }) => ({ operation, bookHours: proposed!.bookHours }));
    tell(this, 'take-hours', {
      hours,
      what: hours.length === 1 ? 'book hours of an operation' : `book hours of ${hours.length} operations`,
    });
    this.ticked = new Set();
  }

  protected override render(): TemplateResult {
    return html`<div class="stack">
      <div class="tools screen-only">
        <input class="unseen" id="file" type="file" accept=".csv,.tsv,.txt,text/csv" tabindex="-1" aria-hidden="true" @change=${this.onFile} />
        <button type="button" ?disabled=${this.catalogue === null || this.task.running} @click=${() => this.renderRoot.querySelector<HTMLInputElement>('#file')!.click()}>
          Choose a table of clocked hours…
        </button>
        <span class="quiet">CSV with a column for the operation (id or title) and one for the hours; a third may name the estimate.</span>
      </div>
      ${replayProgress(this.task, 'Looking up what was charged', this.locale)}
      <p role="status" class=${this.said === '' ? 'unseen' : ''}>${this.said}</p>
      ${this.fault === '' ? nothing : html`<p class="notice fault" role="alert">${this.fault}</p>`}
      ${this.unknown === null ? nothing : this.renderColumns(this.unknown.headings)} ${this.shown === null ? nothing : this.renderFeedback(this.shown)}
    </div>`;
  }

  private renderColumns(headings: readonly string[]): TemplateResult {
    const choose = (name: string, title: string, none: boolean): TemplateResult => html`<div class="field">
      <label for=${name}>${title}</label>
      <select id=${name}>
        ${none ? html`<option value="-1">none</option>` : nothing} ${headings.map((heading, i) => html`<option value=${i}>${heading || `Column ${i + 1}`}</option>`)}
      </select>
    </div>`;
    return html`<form class="stack" @submit=${this.onColumns}>
      <p>Which column is which?</p>
      <div class="fields">${choose('operation', 'Operation', false)} ${choose('hours', 'Clocked hours', false)} ${choose('estimate', 'Estimate', true)}</div>
      <div class="tools"><button type="submit" class="main">Read the table</button></div>
    </form>`;
  }

  private renderFeedback({ file, table, feedback, looked }: Feedback): TemplateResult {
    const { operations, losing } = feedback;
    const proposing = operations.filter(({ proposed }) => proposed !== null);
    const jobs = operations.reduce((sum, each) => sum + each.jobs, 0);
    const bad = [...table.bad, ...feedback.bad].sort((a, b) => a.line - b.line);
    const label = `How long the operations took that lose most: ${losing.map(({ title, lost }) => `${title} ${formatHours(lost, this.locale)}`).join(', ')}.`;
    return html`<div class="stack">
      <p>
        ${file}: ${numbered(jobs, 'job', this.locale)} of ${numbered(operations.length, 'operation', this.locale)}.
        ${looked ? 'Charged hours are those of past estimates where they were found, else the book hours.' : 'Each job is set beside the book hours.'}
      </p>
      ${table.problems.map((problem) => html`<p class="notice fault">${printProblem(problem)}</p>`)} ${this.renderBad(bad)}
      <h3>Where most hours are lost</h3>
      ${
        losing.length === 0
          ? html`<p>No operation takes longer than is charged.</p>`
          : html`<figure>
              ${spreadPicture(losing, {
                label,
                xTitle: 'Clocked hours of a job',
                mark: 'Line: least to most; box: quartiles; stroke: median; diamond: book hours',
                write: (hours) => formatHours(hours, this.locale),
              })}
            </figure>
            ${scrolling('The operations that lose most hours', timesTable(losing, 'The operations that lose most hours', this.locale))}`
      }
      ${this.renderProposals(proposing)}
      <details>
        <summary><strong>All operations that were clocked</strong></summary>
        ${scrolling('All operations that were clocked', timesTable(operations, 'All operations that were clocked', this.locale))}
      </details>
    </div>`;
  }

  private renderBad(bad: readonly BadRow[]): TemplateResult | typeof nothing {
    if (bad.length === 0) return nothing;
    return html`<details>
      <summary><strong>${bad.length === 1 ? '1 row was' : `${counted(bad.length, this.locale)} rows were`} not used</strong></summary>
      <ul class="list">
        ${bad.slice(0, 200).map(({ line, reason }) => html`<li>Line ${counted(line, this.locale)}: ${reason}</li>`)}
        ${bad.length > 200 ? html`<li>${counted(bad.length - 200, this.locale)} more.</li>` : nothing}
      </ul>
    </details>`;
  }

  private renderProposals(proposing: readonly OperationTime[]): TemplateResult {
    const hours = (value: string): string => formatHours(value, this.locale);
    return html`<h3>Proposed book hours</h3>
      <p class="quiet">
        The median of what a job would take on its own: its clocked hours and the teardown that another line paid for, to a tenth of an hour, from at least
        ${counted(LEAST_JOBS, this.locale)} jobs, never below the hours of the operation's steps. Nothing changes until you take it over.
      </p>
      ${
        proposing.length === 0
          ? html`<p>There is nothing to propose.</p>`
          : html`${scrolling(
              'Proposed book hours',
              html`<table class="ruled">
                <caption class="unseen">Proposed book hours</caption>
                <thead>
                  <tr>
                    <td class="screen-only"></td>
                    <th scope="col">Operation</th>
                    <th scope="col" class="figure">Jobs</th>
                    <th scope="col" class="figure">Book</th>
                    <th scope="col" class="figure">Proposed</th>
                  </tr>
                </thead>
                <tbody>
                  ${proposing.map(
                    ({ operation, title, bookHours, proposed }) => html`<tr>
                      <td class="screen-only">
                        <input
                          type="checkbox"
                          aria-label="Take over ${title}"
                          .checked=${this.ticked.has(operation)}
                          @change=${(event: Event) => this.onTick(operation, (event.target as HTMLInputElement).checked)}
                        />
                      </td>
                      <th scope="row">${title} ${proposed!.heldBySteps ? html`<span class="note">as its steps alone take; they may be too long</span>` : nothing}</th>
                      <td class="figure">${counted(proposed!.jobs, this.locale)}</td>
                      <td class="figure">${hours(bookHours)}</td>
                      <td class="figure">${hours(proposed!.bookHours)}</td>
                    </tr>`,
                  )}
                </tbody>
              </table>`,
            )}
            <div class="tools screen-only">
              <button type="button" class="main" ?disabled=${this.ticked.size === 0} @click=${() => this.take(proposing)}>Take over what is ticked</button>
            </div>`
      }`;
  }
}
