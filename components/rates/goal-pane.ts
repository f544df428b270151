import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Catalogue } from '../../src/documents/catalogue.js';
import { printProblem } from '../../src/documents/problem.js';
import type { Rates } from '../../src/documents/rates.js';
import { decimal, type DecimalString } from '../../src/number/decimal.js';
import { readFigure } from '../../src/number/locale-parse.js';
import { moneyRule, printUnitPrice } from '../../src/number/money.js';
import { type FigureName, FIGURES } from '../../src/replay/figures.js';
import type { GoalAnswer, GoalTrial } from '../../src/replay/goal.js';
import { formatFigure, formatMoney, formatPercent } from '../look/format.js';
import { knobChoices, type KnobChoice } from './goal-knobs.js';
import { curve, plot } from './plots/plot.js';
import { scaleFor } from './plots/scale.js';
import { replayProgress } from './replay-progress.js';
import { type EstimateSource, everyNth } from './replay-source.js';
import { ReplayTask } from './replay-task.js';
import { counted, numbered } from './replay-words.js';
import { tell } from './what-if-events.js';
import { FIGURE_WORDS, writeFigure } from './what-if-figures.js';
import { whatIfStyles } from './what-if.styles.js';

/** The figures that a goal may be set for, the likeliest first. */
const GOALS: readonly FigureName[] = [
  'effectiveLabourRate',
  'grossProfit',
  'beforeTax',
  'total',
  'averageEstimate',
  'labourSales',
  'partsMargin',
  'partsMarginPercent',
];

/** So many estimates answer within seconds. */
const SAMPLE = 1000;

/** A figure as it stands in a field: in the writing of the locale, without marks between thousands. */
function formatEntry(value: DecimalString, locale: string): string {
  return formatFigure(value, locale).replace(/[\u00a0\u202f' ’]/g, '');
}

/** What was asked and what came of it. */
interface Asked {
  readonly answer: GoalAnswer;
  readonly choice: KnobChoice;
  readonly figure: FigureName;
  readonly after: Rates;
  /** Of how many estimates those that were priced are a sample; null where all were gone through. */
  readonly sampleOf: number | null;
}

/**
 * Which rate brings a figure to a target? Answered by replaying past estimates again and again.
 *
 * @property {Catalogue | null} catalogue what estimates are priced with
 * @property {Catalogue | null} catalogueAfter another catalogue for the card that is turned; null: the same
 * @property {Rates | null} ratesBefore the card that "as before" goes by
 * @property {Rates | null} ratesAfter the card that is turned
 * @property {EstimateSource | null} source past estimates
 * @property {string} wage for an hour, as it was typed; empty: none
 * @property {string} locale how figures are written
 *
 * @fires {CustomEvent<TakeCardDetail>} take-card a person takes over the card with the answer
 */
export class GoalPane extends LitElement {
  static override styles = whatIfStyles;

  @property({ attribute: false }) catalogue: Catalogue | null = null;
  @property({ attribute: false }) catalogueAfter: Catalogue | null = null;
  @property({ attribute: false }) ratesBefore: Rates | null = null;
  @property({ attribute: false }) ratesAfter: Rates | null = null;
  @property({ attribute: false }) source: EstimateSource | null = null;
  @property() wage = '';
  @property() locale = 'en';

  @state() private key = '';
  @state() private figure: FigureName = 'effectiveLabourRate';
  @state() private asBefore = false;
  @state() private sample = true;
  @state() private asked: Asked | null = null;
  @state() private said = '';
  @state() private fault = '';
  private readonly task = new ReplayTask(this);

  private async seek(choice: KnobChoice): Promise<void> {
    const { catalogue, ratesBefore: before, ratesAfter: after, source } = this;
    if (catalogue === null || before === null || after === null || source === null) return;
    const read = this.readFields();
    if (read === null) return;
    this.fault = '';
    this.said = 'The search runs.';
    const nth = this.sample ? Math.ceil(source.count / SAMPLE) : 1;
    const { figure } = this;
    const goal = { knob: choice.knob, from: read.from, to: read.to, step: read.step, figure, target: read.target };
    const side = { rates: after, catalogue: this.catalogueAfter };
    const outcome = await this.task.run(
      { name: 'goal', of: { catalogue, before, after: side, goal, wage: read.wage } },
      everyNth(source, nth),
    );
    if (outcome.how === 'cancelled') this.said = 'The search was cancelled.';
    else if (outcome.how === 'failed') [this.said, this.fault] = ['', `The search broke off (${outcome.message}).`];
    else {
      this.asked = { answer: outcome.answer, choice, figure, after, sampleOf: nth > 1 ? source.count : null };
      this.said = outcome.answer.ok ? 'There is an answer.' : 'There is no answer.';
    }
  }

  /** The figures of the form, or null with a fault where one cannot be read. */
  private readFields(): { from: string; to: string; step: string; target: DecimalString | 'as before'; wage: DecimalString | null } | null {
    const found: Record<string, string> = {};
    const names = ['from', 'to', 'step', ...(this.asBefore ? [] : ['target'])];
    for (const name of names) {
      const field = this.renderRoot.querySelector<HTMLInputElement>(`#${name}`)!;
      const read = readFigure(field.value, this.locale);
      if (!read.ok) {
        this.fault = `${field.labels![0]!.textContent.trim()}: ${read.reason}`;
        field.focus();
        return null;
      }
      found[name] = read.value;
    }
    const wage = this.wage.trim() === '' ? null : readFigure(this.wage, this.locale);
    if (wage?.ok === false) {
      this.fault = `The wage cannot be read. ${wage.reason}`;
      return null;
    }
    return {
      from: found['from']!,
      to: found['to']!,
      step: found['step']!,
      target: found['target'] ?? 'as before',
      wage: wage?.value ?? null,
    };
  }

  private take({ answer, choice }: Asked): void {
    if (answer.ok)
      tell(this, 'take-card', { rates: answer.rates, what: `${choice.title}: ${this.writeValue(choice, answer.reached.value)}` });
  }

  private writeValue({ unit }: KnobChoice, value: DecimalString): string {
    if (unit === 'percent') return formatPercent(value, this.locale);
    const { currency, moneyStep, rounding } = this.ratesAfter!;
    return formatMoney(printUnitPrice(decimal(value), moneyRule(currency, moneyStep, rounding)), currency, this.locale);
  }

  protected override render(): TemplateResult {
    const after = this.ratesAfter;
    if (after === null) return html`<p class="quiet">There is no card yet.</p>`;
    const choices = knobChoices(after);
    const choice = choices.find(({ key }) => key === this.key) ?? choices[0]!;
    const ready = this.catalogue !== null && this.ratesBefore !== null && this.source !== null;
    return html`<div class="stack">
      <form
        class="stack screen-only"
        @submit=${(event: Event) => {
          event.preventDefault();
          if (ready && !this.task.running) void this.seek(choice);
        }}
      >
        ${this.renderFields(choices, choice)}
        <div class="tools">
          <button type="submit" class="main" ?disabled=${!ready || this.task.running}>Seek</button>
          ${this.source === null ? html`<span class="quiet">Load past estimates first.</span>` : nothing}
        </div>
      </form>
      <p role="status" class=${this.said === '' ? 'unseen' : ''}>${this.said}</p>
      ${this.fault === '' ? nothing : html`<p class="notice fault" role="alert">${this.fault}</p>`}
      ${replayProgress(this.task, 'Goal seek', this.locale)} ${this.asked === null ? nothing : this.renderAnswer(this.asked)}
    </div>`;
  }

  private renderFields(choices: readonly KnobChoice[], choice: KnobChoice): TemplateResult {
    const unit = FIGURES[this.figure];
    const figure = (name: string, title: string, value: string): TemplateResult => html`<div class="field">
      <label for=${name}>${title}</label>
      <input id=${name} inputmode="decimal" autocomplete="off" .value=${value} />
    </div>`;
    const written = (value: string): string => formatEntry(value, this.locale);
    const suffix = choice.unit === 'percent' ? ', %' : `, ${this.ratesAfter!.currency}`;
    const many = this.source !== null && this.source.count > SAMPLE;
    return html`<div class="fields">
      <div class="field wide">
        <label for="knob">What may change</label>
        <select id="knob" @change=${(event: Event) => (this.key = (event.target as HTMLSelectElement).value)}>
          ${choices.map(({ key, title }) => html`<option value=${key} ?selected=${key === choice.key}>${title}</option>`)}
        </select>
      </div>
      ${figure('from', `From${suffix}`, written(choice.from))} ${figure('to', `to${suffix}`, written(choice.to))} ${figure('step', 'in steps of', written(choice.step))}
      <div class="field wide">
        <label for="figure">What it should bring</label>
        <select id="figure" @change=${(event: Event) => (this.figure = (event.target as HTMLSelectElement).value as FigureName)}>
          ${GOALS.map((name) => html`<option value=${name} ?selected=${name === this.figure}>${FIGURE_WORDS[name][0]}</option>`)}
        </select>
      </div>
      <fieldset>
        <legend class="unseen">To what</legend>
        <label class="choice"><input type="radio" name="to-what" .checked=${this.asBefore} @change=${() => (this.asBefore = true)} />to what it was before</label>
        <label class="choice"><input type="radio" name="to-what" .checked=${!this.asBefore} @change=${() => (this.asBefore = false)} />to this figure</label>
      </fieldset>
      ${this.asBefore ? nothing : figure('target', `Target${unit === 'percent' ? ', %' : `, ${this.ratesAfter!.currency}`}`, '')}
      ${
        many
          ? html`<fieldset>
            <legend class="unseen">On how many estimates</legend>
            <label class="choice"
              ><input type="radio" name="how-many" .checked=${this.sample} @change=${() => (this.sample = true)} />on about
              ${counted(SAMPLE, this.locale)} of them, evenly taken</label
            >
            <label class="choice"
              ><input type="radio" name="how-many" .checked=${!this.sample} @change=${() => (this.sample = false)} />on all
              ${counted(this.source!.count, this.locale)}</label
            >
          </fieldset>`
          : nothing
      }
    </div>`;
  }

  private renderAnswer(asked: Asked): TemplateResult {
    const { answer, choice, figure, sampleOf, after } = asked;
    const write = (value: DecimalString): string => writeFigure(figure, value, this.ratesBefore!.currency, this.locale);
    const name = FIGURE_WORDS[figure][0].toLowerCase();
    const on = `${numbered(answer.priced ?? 0, 'estimate', this.locale)}${sampleOf === null ? '' : ` of ${counted(sampleOf, this.locale)}`}`;
    const trials = answer.tried?.length ?? 0;
    return html`<div class="stack">
      ${after === this.ratesAfter ? nothing : html`<p class="stale">The card has changed since this search.</p>`}
      ${
        answer.ok
          ? html`<p class="answer">
              ${choice.title}: <strong>${this.writeValue(choice, answer.reached.value)}</strong> gives ${name}
              <strong>${write(answer.reached.figure)}</strong>, for a target of ${write(answer.target)}.
            </p>
            <p>
              ${
                answer.short === null
                  ? nothing
                  : html`The value beside it, ${this.writeValue(choice, answer.short.value)}, gives ${write(answer.short.figure)}.`
              }
              Checked by a replay of ${on} at each of ${counted(trials, this.locale)} values.
              ${answer.monotone ? nothing : 'The figure rises and falls over this range: there may be other answers.'}
              ${sampleOf === null ? nothing : 'On all of them it may come out a little otherwise: put it on the card and replay them.'}
            </p>
            <div class="tools screen-only">
              <button type="button" @click=${() => this.take(asked)}>Put it on the card</button>
            </div>`
          : html`<p class="notice">${answer.problems
              .map(printProblem)
              .join(' ')
              .replace(/^error [\w.]+: /, '')}</p>`
      }
      ${answer.tried === undefined ? nothing : this.renderTrials(answer.tried, answer.target ?? '0', asked, write)}
    </div>`;
  }

  private renderTrials(
    tried: readonly GoalTrial[],
    target: DecimalString,
    { choice, figure }: Asked,
    write: (value: DecimalString) => string,
  ): TemplateResult {
    const x = scaleFor(
      tried.map(({ value }) => value),
      5,
    );
    const y = scaleFor([target, ...tried.map((each) => each.figure)], 4);
    const label = `${FIGURE_WORDS[figure][0]} over the values that were tried, from ${write(tried[0]!.figure)} to ${write(tried.at(-1)!.figure)}.`;
    const value = (at: DecimalString): string => this.writeValue(choice, at);
    return html`<details>
      <summary>All that was tried</summary>
      <figure>
        <figcaption class="unseen">${label}</figcaption>
        ${plot({ label, x, y, xTitle: choice.title, yTitle: FIGURE_WORDS[figure][0], write: value, writeY: write }, [
          curve(
            [
              [x.from, target],
              [x.to, target],
            ],
            x,
            y,
            'curve target',
          ),
          curve(
            tried.map((each) => [each.value, each.figure]),
            x,
            y,
          ),
        ])}
      </figure>
      <table class="ruled">
        <caption class="unseen">${label}</caption>
        <thead>
          <tr>
            <th scope="col" class="figure">${choice.title}</th>
            <th scope="col" class="figure">${FIGURE_WORDS[figure][0]}</th>
          </tr>
        </thead>
        <tbody>
          ${tried.map((each) => html`<tr><td class="figure">${value(each.value)}</td><td class="figure">${write(each.figure)}</td></tr>`)}
        </tbody>
      </table>
    </details>`;
  }
}
