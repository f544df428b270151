import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Catalogue } from '../../src/documents/catalogue.js';
import { parseEstimate } from '../../src/documents/estimate.js';
import { printProblem } from '../../src/documents/problem.js';
import type { Rates } from '../../src/documents/rates.js';
import { readFigure } from '../../src/number/locale-parse.js';
import { priceEstimate } from '../../src/pricing/price-estimate.js';
import type { MovedEstimate } from '../../src/replay/most-moved.js';
import type { ReplayResult } from '../../src/replay/replay.js';
import { formatMoney } from '../look/format.js';
import { scrolling } from '../look/scrolling.js';
import type { KeptStore } from '../storage/port.js';
import { histogram, histogramTable } from './plots/histogram.js';
import { droppedFiles, fileSource } from './replay-files.js';
import { keptSource } from './replay-kept.js';
import { replayProgress } from './replay-progress.js';
import type { EstimateSource } from './replay-source.js';
import { ReplayTask } from './replay-task.js';
import { counted, numbered } from './replay-words.js';
import type { ComparedEstimate } from './what-if-details.js';
import { tell, type WhatIfEventMap } from './what-if-events.js';
import { figuresTable, signed } from './what-if-figures.js';
import { leftOutList, movedTable } from './what-if-moved.js';
import { whatIfStyles } from './what-if.styles.js';

/** What a result was worked out from: it is told when that is no longer what is set. */
interface Worked {
  readonly result: ReplayResult;
  readonly catalogue: Catalogue;
  readonly catalogueAfter: Catalogue | null;
  readonly before: Rates;
  readonly after: Rates;
  readonly source: EstimateSource;
}

/**
 * What a change of rates would have done to past estimates: it loads them, replays them under the card before and the
 * card after, shows what came of it, seeks goals, and sets clocked hours beside charged ones.
 *
 * Registered by its user through `defineWhatIfElements`, as `baysheet-what-if`.
 *
 * @property {Catalogue | null} catalogue what both sides are priced with
 * @property {Catalogue | null} catalogueAfter another catalogue for the card after; null: the same
 * @property {Rates | null} ratesBefore the card that estimates were priced with
 * @property {Rates | null} ratesAfter the card as it is being changed
 * @property {readonly EstimateSource[]} offered estimates that the page has at hand, each with a button
 * @property {KeptStore | null} store where estimates are kept; null: no button for them
 * @property {EstimateSource | null} source the estimates that are loaded; a page may set it
 * @property {string} locale how figures are written
 *
 * @fires {CustomEvent<OpenEstimateDetail>} open-estimate a person wants to see a past estimate
 * @fires {CustomEvent<TakeCardDetail>} take-card a person takes over the card that goal seek has found
 * @fires {CustomEvent<TakeHoursDetail>} take-hours a person takes over book hours proposed from clocked ones
 *
 * @csspart figures the table of figures
 * @csspart moved the estimates that move most
 * @csspart left-out what could not be replayed
 */
export class WhatIfPane extends LitElement {
  static override styles = whatIfStyles;

  @property({ attribute: false }) catalogue: Catalogue | null = null;
  @property({ attribute: false }) catalogueAfter: Catalogue | null = null;
  @property({ attribute: false }) ratesBefore: Rates | null = null;
  @property({ attribute: false }) ratesAfter: Rates | null = null;
  @property({ attribute: false }) offered: readonly EstimateSource[] = [];
  @property({ attribute: false }) store: KeptStore | null = null;
  @property({ attribute: false }) source: EstimateSource | null = null;
  @property() locale = 'en';

  @state() private worked: Worked | null = null;
  @state() private wage = '';
  /** What was done last, in words. */
  @state() private said = '';
  @state() private fault = '';
  @state() private over = false;
  @state() private compared: ComparedEstimate | null = null;
  private readonly task = new ReplayTask(this);

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('source') && this.source !== null) this.said = `${this.source.title} loaded.`;
  }

  /** Replays the estimates that are loaded; what is shown stays until there is something new. */
  async replay(): Promise<void> {
    const { catalogue, catalogueAfter, ratesBefore: before, ratesAfter: after, source } = this;
    if (catalogue === null || before === null || after === null || source === null) return;
    const wage = this.wage.trim() === '' ? null : readFigure(this.wage, this.locale);
    if (wage?.ok === false) {
      this.fault = `The wage cannot be read. ${wage.reason}`;
      return;
    }
    this.fault = '';
    this.said = 'The replay runs.';
    const side = { rates: after, catalogue: catalogueAfter };
    const job = { name: 'replay', of: { catalogue, before, after: side, wage: wage?.value ?? null } } as const;
    const outcome = await this.task.run(job, source);
    if (outcome.how === 'cancelled')
      this.said = this.worked === null ? 'The replay was cancelled.' : 'The replay was cancelled. What is shown is the one before.';
    else if (outcome.how === 'failed') this.fail(`The replay broke off (${outcome.message}). What is shown is as it was before.`);
    else if (!outcome.answer.ok) this.fail(`Nothing was replayed. ${outcome.answer.problems.map(printProblem).join(' ')}`);
    else {
      const { result } = outcome.answer;
      this.worked = { result, catalogue, catalogueAfter, before, after, source };
      this.said = `${numbered(result.counts.priced, 'estimate', this.locale)} replayed.`;
    }
  }

  private fail(words: string): void {
    this.said = '';
    this.fault = words;
  }

  private load(source: EstimateSource): void {
    this.fault = '';
    if (source.count === 0) {
      this.fail('There is no estimate among these. Estimates are files that end in .json.');
      return;
    }
    this.source = source;
  }

  private onFiles(event: Event): void {
    const input = event.target as HTMLInputElement;
    this.load(fileSource([...(input.files ?? [])]));
    input.value = '';
  }

  private async onKept(): Promise<void> {
    try {
      const source = await keptSource(this.store!);
      if (source.count === 0) this.fail('No estimate is kept here yet.');
      else this.load(source);
    } catch (fault) {
      this.fail(`What is kept here cannot be read. ${fault instanceof Error ? fault.message : ''}`);
    }
  }

  private async onDrop(event: DragEvent): Promise<void> {
    event.preventDefault();
    this.over = false;
    if (event.dataTransfer === null) return;
    try {
      this.load(fileSource(await droppedFiles(event.dataTransfer)));
    } catch (fault) {
      this.fail(`What was dropped cannot be read. ${fault instanceof Error ? fault.message : ''}`);
    }
  }

  private async look(moved: MovedEstimate): Promise<void> {
    const { catalogue, catalogueAfter, before, after, source } = this.worked!;
    try {
      const read = parseEstimate(await source.read(moved.at));
      if (!read.ok || read.value.id !== moved.id) throw new Error('it is no longer what it was');
      const priced = (rates: Rates, of: Catalogue) => priceEstimate({ estimate: read.value, catalogue: of, rates });
      this.compared = { estimate: read.value, before: priced(before, catalogue), after: priced(after, catalogueAfter ?? catalogue) };
    } catch (fault) {
      this.fail(`Estimate ${moved.number || moved.id} cannot be opened (${fault instanceof Error ? fault.message : String(fault)}).`);
    }
  }

  private readonly pass = <K extends keyof WhatIfEventMap>(event: WhatIfEventMap[K]): void => {
    tell(this, event.type as K, event.detail);
  };

  protected override render(): TemplateResult {
    return html`<div class="stack">
      ${this.renderSource()} ${this.renderReplay()}
      <section aria-labelledby="goal-title">
        <h2 id="goal-title">Goal seek</h2>
        <baysheet-goal
          .catalogue=${this.catalogue}
          .catalogueAfter=${this.catalogueAfter}
          .ratesBefore=${this.ratesBefore}
          .ratesAfter=${this.ratesAfter}
          .source=${this.source}
          .wage=${this.wage}
          .locale=${this.locale}
          @take-card=${this.pass}
        ></baysheet-goal>
      </section>
      <section aria-labelledby="time-title">
        <h2 id="time-title">Time feedback</h2>
        <baysheet-time
          .catalogue=${this.catalogue}
          .rates=${this.ratesBefore}
          .source=${this.source}
          .locale=${this.locale}
          @take-hours=${this.pass}
        ></baysheet-time>
      </section>
      <baysheet-what-if-details
        .compared=${this.compared}
        .open=${this.compared !== null}
        .locale=${this.locale}
        @open-estimate=${() => tell(this, 'open-estimate', { estimate: this.compared!.estimate })}
        @close=${() => (this.compared = null)}
      ></baysheet-what-if-details>
    </div>`;
  }

  private renderSource(): TemplateResult {
    const pick = (name: string, folder: boolean): TemplateResult => html`<input
        class="unseen"
        id=${name}
        type="file"
        accept=".json,application/json"
        multiple
        ?webkitdirectory=${folder}
        tabindex="-1"
        aria-hidden="true"
        @change=${this.onFiles}
      /><button type="button" @click=${() => this.renderRoot.querySelector<HTMLInputElement>(`#${name}`)!.click()}>
        ${folder ? 'Choose a folder…' : 'Choose files…'}
      </button>`;
    return html`<section class="screen-only" aria-labelledby="source-title">
      <h2 id="source-title">Past estimates</h2>
      <div
        class="drop ${this.over ? 'over' : ''}"
        @dragover=${(event: DragEvent) => {
          event.preventDefault();
          this.over = true;
        }}
        @dragleave=${() => (this.over = false)}
        @drop=${this.onDrop}
      >
        ${pick('files', false)} ${pick('folder', true)}
        ${this.store === null ? nothing : html`<button type="button" @click=${this.onKept}>Those kept here</button>`}
        ${this.offered.map((source) => html`<button type="button" @click=${() => this.load(source)}>${source.title}</button>`)}
        <span class="quiet">or drop files or a folder here. They stay on this machine.</span>
      </div>
      <p role="status">${this.said}</p>
      ${this.fault === '' ? nothing : html`<p class="notice fault" role="alert">${this.fault}</p>`}
    </section>`;
  }

  private renderReplay(): TemplateResult {
    const ready = this.catalogue !== null && this.ratesBefore !== null && this.ratesAfter !== null && this.source !== null;
    return html`<section aria-labelledby="replay-title">
      <h2 id="replay-title">What the change would have done</h2>
      <div class="tools screen-only">
        <div class="field short">
          <label for="wage">Wage an hour, if any</label>
          <input id="wage" inputmode="decimal" autocomplete="off" .value=${this.wage} @change=${(event: Event) => (this.wage = (event.target as HTMLInputElement).value)} />
        </div>
        <button type="button" class="main" ?disabled=${!ready || this.task.running} @click=${this.replay}>
          ${this.source === null ? 'Replay' : `Replay ${numbered(this.source.count, 'estimate', this.locale)}`}
        </button>
        ${this.source === null ? html`<span class="quiet">Load past estimates first.</span>` : nothing}
      </div>
      ${replayProgress(this.task, 'Replay', this.locale)} ${this.worked === null ? nothing : this.renderResult(this.worked)}
    </section>`;
  }

  private renderResult(worked: Worked): TemplateResult {
    const { result, source } = worked;
    const { counts, changes, moved, currency } = result;
    const stale =
      worked.before !== this.ratesBefore ||
      worked.after !== this.ratesAfter ||
      source !== this.source ||
      worked.catalogue !== this.catalogue ||
      worked.catalogueAfter !== this.catalogueAfter;
    const count = (number: number): string => counted(number, this.locale);
    const money = (amount: string): string => formatMoney(amount, currency, this.locale);
    const words = {
      label: `How the totals of ${numbered(counts.priced, 'estimate', this.locale)} change: ${count(changes.up)} rise, ${count(changes.down)} fall, ${count(changes.unchanged)} stay.`,
      xTitle: 'Change of the total',
      yTitle: 'Estimates',
      write: (amount: string) => signed(money(amount), amount),
      count,
    };
    return html`
      ${stale ? html`<p class="stale">The card, the catalogue or the estimates have changed since this replay.</p>` : nothing}
      <p>
        ${source.title}, ${count(counts.priced)} replayed: ${count(changes.up)} rise, ${count(changes.down)} fall, ${count(changes.unchanged)} stay
        as they are.${counts.withoutCost === 0 ? nothing : ` ${count(counts.withoutCost)} parts or sublet lines have no known cost: their whole price counts as margin.`}
      </p>
      <div class="side-by-side">
        ${scrolling('Before and after', figuresTable(result, this.locale))}
        <div class="stack">
          <figure>
            <figcaption>How the totals change</figcaption>
            ${histogram(changes, words)}
            ${
              changes.classes.length === 0
                ? html`<p>No total changes.</p>`
                : html`<details><summary>The same as a table</summary>${scrolling('How the totals change, as a table', histogramTable(changes, words))}</details>`
            }
          </figure>
          <h3>The estimates that move most</h3>
          ${scrolling(
            'The estimates that move most',
            movedTable(moved, currency, this.locale, (each) => void this.look(each)),
          )}
        </div>
      </div>
      ${leftOutList(result.leftOut, this.locale)}
    `;
  }
}
