import { css, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { live } from 'lit/directives/live.js';
import type { Method } from '../../src/documents/catalogue.js';
import type { Estimate, Finding, TestRound } from '../../src/documents/estimate.js';
import { type Judgement, judgeReading, limitsText } from '../../src/findings/judge-reading.js';
import { readReading } from '../../src/findings/reading.js';
import { findingName, whyIncomplete } from '../../src/findings/round-words.js';
import { type FoundRound, foundRounds, isPlugged, listComplete } from '../../src/findings/rounds.js';
import type { CatalogueIndex } from '../../src/overlap/catalogue-index.js';
import { baseStyles } from '../look/base.styles.js';
import { paneStyles } from './pane.styles.js';
import { sendEdit, type PaneEdit } from './pane-edit.js';
import {
  chooseMethod,
  describeRound,
  markClean,
  missingClosing,
  plug,
  proposeClosing,
  readRound,
  removeRound,
  startRound,
} from './rounds-edits.js';

/**
 * Leads through the test rounds: test, record what is found, plug or isolate it, test again, until a round finds nothing
 * new. It says in words whether the list of findings is complete, and what comes next.
 *
 * Registered by its user; the sheet names it `baysheet-rounds`.
 *
 * @property {Estimate | null} estimate whose rounds; null shows nothing
 * @property {CatalogueIndex | null} catalogue test methods, cautions and the names of components
 * @property {string} locale how figures in readings are written
 *
 * @fires {CustomEvent<PaneEdit>} edit what a person did, as one step
 * @fires {Event} add a person wants to write down a finding
 *
 * @csspart complete whether the list is complete, and what comes next
 * @csspart round one test round
 */
export class RoundsPane extends LitElement {
  static override styles = [
    baseStyles,
    paneStyles,
    css`
      .next {
        display: flex;
        flex-wrap: wrap;
        gap: 0.5rem 1rem;
        align-items: center;
        justify-content: space-between;
        padding: 0.625rem 0.875rem;
        background: var(--_paper);
        border: 1px solid var(--_rule);
        border-inline-start: 3px solid var(--_rule-strong);
      }

      .next.complete {
        border-inline-start-color: var(--_accent);
      }

      ol {
        margin-block-end: 0.5rem;
      }

      details {
        border-block-end: 1px solid var(--_rule);
      }

      .result {
        margin-inline-start: auto;
      }

      .body {
        display: grid;
        gap: 0.75rem;
        padding-block: 0.25rem 0.875rem;
      }

      .plug {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
        gap: 0.25rem 1rem;
        align-items: center;
      }

      @container (max-width: 34rem) {
        .plug {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  @property({ attribute: false }) estimate: Estimate | null = null;
  @property({ attribute: false }) catalogue: CatalogueIndex | null = null;
  @property() locale = 'en';

  /** Rounds that a person has opened or closed; the others are open while they are under way. */
  @state() private opened: ReadonlyMap<number, boolean> = new Map();

  private edit(edit: PaneEdit): void {
    sendEdit(this, edit);
  }

  /** Not by the `toggle` event, which is also sent when a round is opened or closed from here. */
  private onSummary(n: number, open: boolean, event: Event): void {
    event.preventDefault();
    this.opened = new Map(this.opened).set(n, !open);
  }

  private onStart(): void {
    this.step(startRound(this.estimate!, this.catalogue!.catalogue), 'li:last-of-type select');
  }

  /** An edit that takes the button away with which it was made: the keyboard goes on where the next thing is to be done. */
  private step(edit: PaneEdit, next = '.next button'): void {
    this.next = next;
    this.edit(edit);
  }

  /** Where the keyboard goes when the sheet comes back with what was edited. */
  private next: string | null = null;

  protected override updated(changed: PropertyValues<this>): void {
    if (!changed.has('estimate') || this.next === null) return;
    this.renderRoot.querySelector<HTMLElement>(this.next)?.focus();
    this.next = null;
  }

  protected override render(): TemplateResult | typeof nothing {
    const { estimate, catalogue } = this;
    if (estimate === null || catalogue === null) return nothing;
    const rounds = foundRounds(estimate);
    return html`${rounds.length === 0 ? nothing : html`<ol>${rounds.map((found) => this.renderRound(found, found === rounds.at(-1), estimate, catalogue))}</ol>`}
      ${this.renderNext(rounds.at(-1), estimate, catalogue)}`;
  }

  /** Whether the list is complete, and what comes next. */
  private renderNext(last: FoundRound | undefined, estimate: Estimate, catalogue: CatalogueIndex): TemplateResult {
    const complete = listComplete(estimate);
    return html`<div class="next ${complete ? 'complete' : ''}" part="complete">
      <div role="status">
        ${
          complete
            ? html`<strong>The list of findings is complete:</strong> round ${last!.round.n}, the last one, found nothing new.`
            : html`<strong>${whyIncomplete(estimate) || 'No test round is recorded.'}</strong> ${nextStep(last)}`
        }
      </div>
      <div class="buttons">
        ${
          last === undefined || last.clean || last.findings.length > 0
            ? html`<button class=${complete ? '' : 'main'} @click=${this.onStart}>${last === undefined ? 'Start round 1' : `Test again: start round ${last.round.n + 1}`}</button>`
            : html`<button class="main" @click=${() => this.dispatchEvent(new Event('add'))}>Write down a finding</button>
              <button @click=${() => this.step(markClean(estimate, last.round.n, true))}>Nothing new: round ${last.round.n} was clean</button>`
        }
      </div>
      ${missingClosing(estimate, catalogue.catalogue).map(
        (method) => html`<p>
          No line proves the repair by “${method.title}”.
          <button @click=${() => this.step(proposeClosing(estimate, method))}>Add ${catalogue.operations.get(method.closing!)!.title}</button>
        </p>`,
      )}
    </div>`;
  }

  private renderRound(found: FoundRound, isLast: boolean, estimate: Estimate, catalogue: CatalogueIndex): TemplateResult {
    const { round, findings, clean } = found;
    const plugged = findings.filter(isPlugged).length;
    const open = this.opened.get(round.n) ?? (isLast && !clean);
    const count = findings.length === 0 ? 'nothing found yet' : `${findings.length} found, ${plugged} plugged or isolated`;
    return html`<li part="round">
      <details .open=${live(open)}>
        <summary @click=${(event: Event) => this.onSummary(round.n, open, event)}>
          <strong>Round ${round.n}</strong> <span>${round.method || 'no method named'}</span>
          ${round.reading === undefined ? nothing : html`<span class="quiet">${round.reading}</span>`}
          <span class="result">${clean ? 'clean' : count}</span>
        </summary>
        <div class="body">${this.renderMethod(round, estimate, catalogue)} ${this.renderFound(found, isLast, estimate, catalogue)}</div>
      </details>
    </li>`;
  }

  private renderMethod(round: TestRound, estimate: Estimate, catalogue: CatalogueIndex): TemplateResult {
    const { n } = round;
    const methods = catalogue.catalogue.methods ?? [];
    const method = methods.find(({ id }) => id === round.methodId);
    const lost = round.methodId !== undefined && method === undefined;
    const value = (event: Event): string => (event.target as HTMLInputElement).value;
    return html`<div class="fields">
        <div class="field">
          <label for="method-${n}">Test method, round ${n}</label>
          <select id="method-${n}" @change=${(event: Event) => this.edit(chooseMethod(estimate, n, value(event), catalogue.catalogue))}>
            <option value="" .selected=${live(round.methodId === undefined)}>none of the catalogue</option>
            ${methods.map(({ id, title }) => html`<option value=${id} .selected=${live(id === round.methodId)}>${title}</option>`)}
            ${lost ? html`<option value=${round.methodId!} .selected=${live(true)}>${round.methodId} (not in this catalogue)</option>` : nothing}
          </select>
        </div>
        <div class="field">
          <label for="words-${n}">In words</label>
          <input id="words-${n}" autocomplete="off" .value=${live(round.method)} @change=${(event: Event) => this.edit(describeRound(estimate, n, 'method', value(event)))} />
        </div>
        <div class="field">
          <label for="reading-${n}">Reading</label>
          <input
            id="reading-${n}"
            autocomplete="off"
            placeholder=${placeholder(method)}
            aria-describedby="judged-${n}"
            .value=${live(round.reading ?? '')}
            @change=${(event: Event) => this.edit(readRound(estimate, n, value(event)))}
          />
          <span id="judged-${n}" class="hint">${this.judged(round, method)}</span>
        </div>
        <div class="field whole">
          <label for="note-${n}">Note</label>
          <textarea id="note-${n}" rows="2" .value=${live(round.note)} @change=${(event: Event) => this.edit(describeRound(estimate, n, 'note', value(event)))}></textarea>
        </div>
      </div>
      ${method === undefined ? nothing : methodNotes(method, catalogue)}`;
  }

  private judged(round: TestRound, method: Method | undefined): string | null {
    const text = round.reading ?? '';
    const judgement = method === undefined ? null : judgeReading(method, text, this.locale);
    if (judgement === null) return readReading(text, this.locale).hint;
    return `${judgement.words} ${advice(judgement, round)}`.trim();
  }

  private renderFound({ round, findings }: FoundRound, isLast: boolean, estimate: Estimate, catalogue: CatalogueIndex): TemplateResult {
    if (findings.length === 0) {
      return html`<div class="buttons">
        <label class="check">
          <input type="checkbox" .checked=${live(round.clean)} @change=${(event: Event) => this.edit(markClean(estimate, round.n, (event.target as HTMLInputElement).checked))} />
          Clean: round ${round.n} found nothing new
        </label>
        ${isLast ? html`<button @click=${() => this.step(removeRound(estimate, round.n))}>Take round ${round.n} out</button>` : nothing}
      </div>`;
    }
    return html`<div class="list">
      <p class="label">What round ${round.n} found, and how it was plugged or isolated for the next</p>
      ${findings.map((finding) => this.renderPlug(finding, catalogue))}
    </div>`;
  }

  private renderPlug(finding: Finding, { catalogue }: CatalogueIndex): TemplateResult {
    const name = findingName(finding, catalogue);
    return html`<div class="plug">
      <span>${name}</span>
      <input
        autocomplete="off"
        aria-label="How this was plugged or isolated: ${name}"
        placeholder="plugged, clamped off … (empty: not)"
        .value=${live(finding.plugged ?? '')}
        @change=${(event: Event) => this.edit(plug(finding, (event.target as HTMLInputElement).value))}
      />
    </div>`;
  }
}

function nextStep(last: FoundRound | undefined): string {
  if (last === undefined) return 'Choose a test and begin.';
  if (last.findings.length === 0) return 'Test, and write down what shows; or say that nothing new did.';
  const open = last.findings.filter((finding) => !isPlugged(finding)).length;
  const plugIt =
    open === 0
      ? 'All of it is plugged or isolated:'
      : `Plug or isolate what hides more (${open} of ${last.findings.length} ${open === 1 ? 'is' : 'are'} not), then`;
  return `${plugIt} test again.`;
}

function methodNotes(method: Method, { cautions }: CatalogueIndex): TemplateResult {
  const limits = limitsText(method);
  return html`<div class="list hint">
    ${limits === '' && method.basis === '' ? nothing : html`<p>${limits === '' ? nothing : html`Usual limits: ${limits}. `}<span class="quiet">${method.basis}</span></p>`}
    ${method.cautions.map((id) => html`<p class="caution">${cautions.get(id)}</p>`)}
  </div>`;
}

function placeholder(method: Method | undefined): string {
  if (method === undefined || method.unit === '') return '';
  return method.drop === null ? `… ${method.unit}` : `${method.start} ${method.unit} to … ${method.unit} in ${method.minutes} min`;
}

/** What a reading speaks for; a person decides. */
function advice({ verdict }: Judgement, round: TestRound): string {
  if (verdict === 'within' && !round.clean) return 'That speaks for a clean round, unless something new was seen.';
  return verdict === 'outside' && round.clean ? 'Yet the round is marked clean: look again.' : '';
}
