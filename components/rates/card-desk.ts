import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Problem } from '../../src/documents/problem.js';
import type { Rates } from '../../src/documents/rates.js';
import type { CardList } from '../../src/store/card-draft.js';
import { define } from '../define.js';
import { GridController, type GridOptions } from '../estimate/grid-controller.js';
import { rowTools } from '../estimate/tools.js';
import { listActions } from './card-actions.js';
import { type CardOwner, LIST_GRIDS, listGrid, settingsGrid } from './card-grids.js';
import { type CardPlace, type GridName, pendingPlace, problemPlace } from './card-places.js';
import type { Preset } from './card-presets.js';
import { printedGrid } from './card-print.js';
import type { SettingsName } from './card-settings.js';
import type { CardView } from './card-view.js';
import { cardStyles } from './card.styles.js';

/**
 * The rate card in grids, with what it does beside it: worked examples, what is worth a look, the picture of the mark-up.
 * It writes nothing itself: its owner carries out what is done and hands back the next view.
 *
 * Registered by its user; the desk names it `baysheet-card-desk`.
 *
 * @property {CardOwner} owner carries out what a person does
 * @property {CardView | null} view what is shown
 * @property {Rates | null} saved the card before the changes that are not saved
 *
 * @csspart mark-up the picture of the mark-up with its ways out
 * @csspart problems what is worth a look
 * @csspart examples what the card makes of everyday work
 */
export class CardDesk extends LitElement {
  static override styles = cardStyles;

  @property({ attribute: false }) owner!: CardOwner;
  @property({ attribute: false }) view: CardView | null = null;
  @property({ attribute: false }) saved: Rates | null = null;

  /** What stands beside the grids: it prices, which they need not, so it is loaded when they stand. */
  @state() private beside: typeof import('./card-beside.js') | null = null;
  @state() private besideFault = '';
  @state() private presets: { readonly heading: string; readonly list: readonly Preset[] } | null = null;

  private readonly own: CardOwner = {
    // As it stands now: what is handed down comes with the next update.
    view: () => this.owner.view(),
    commit: (commands, what) => this.owner.commit(commands, what),
    undo: () => this.owner.undo(),
    redo: () => this.owner.redo(),
    announce: (text) => this.owner.announce(text),
  };
  private readonly plans: Readonly<Record<GridName, GridOptions>> = {
    labourClasses: listGrid('labourClasses', this.own),
    tiers: listGrid('tiers', this.own),
    fees: listGrid('fees', this.own),
    taxes: listGrid('taxes', this.own),
    card: settingsGrid('card', this.own),
    parts: settingsGrid('parts', this.own),
    supplies: settingsGrid('supplies', this.own),
    rounding: settingsGrid('rounding', this.own),
    authorisation: settingsGrid('authorisation', this.own),
  };
  private readonly grids = Object.fromEntries(
    Object.entries(this.plans).map(([name, plan]) => [name, new GridController(this, plan)]),
  ) as Record<GridName, GridController>;

  override connectedCallback(): void {
    super.connectedCallback();
    void this.loadBeside();
  }

  private async loadBeside(): Promise<void> {
    this.besideFault = '';
    try {
      this.beside ??= await import('./card-beside.js');
    } catch (fault) {
      this.besideFault = fault instanceof Error ? fault.message : String(fault);
    }
  }

  private go({ grid, row, column }: CardPlace): void {
    this.renderRoot.querySelector(`#${grid}`)?.scrollIntoView({ block: 'nearest' });
    this.grids[grid].focus(row, column);
  }

  private act(list: CardList, id: string): void {
    const { selection } = this.grids[list];
    if (selection === null || this.view === null) return;
    const found = listActions(LIST_GRIDS[list], selection, this.view).find((action) => action.id === id);
    if (found === undefined || found.disabled) return;
    this.owner.commit(found.commands, found.label);
    this.owner.announce(`Done: ${found.label}.`);
  }

  /** They are loaded when they are asked for: few cards are made anew. */
  private async offer(of: 'taxes' | 'authorisation'): Promise<void> {
    const [{ PresetDialog }, { RULE_PRESETS, TAX_PRESETS }] = await Promise.all([
      import('./preset-dialog.js'),
      import('./card-presets.js'),
    ]);
    define('baysheet-preset', PresetDialog);
    this.presets =
      of === 'taxes'
        ? { heading: 'Taxes of a place', list: TAX_PRESETS }
        : { heading: 'Rule of authorisation of a place', list: RULE_PRESETS };
  }

  private onPreset({ detail }: CustomEvent<Preset>): void {
    this.owner.commit(detail.commands(this.view!), `preset ${detail.place}`);
  }

  protected override render(): TemplateResult | typeof nothing {
    const { view } = this;
    if (view === null) return nothing;
    const { usable } = view;
    return html`<div class="layout">
        <div class="main">
          ${this.renderList('labourClasses', 'Labour classes')} ${this.renderSettings('card', 'The card itself')}
          <section class="wide" aria-labelledby="mark-up-title">
            <div class="band"><h2 id="mark-up-title">Parts</h2>${this.renderTools('tiers')}</div>
            <div class="pair">
              <div class="stack">
                <div class="sheet-of" id="tiers"></div>
                ${this.renderPrinted('tiers')}
                <div class="sheet-of" id="parts"></div>
                ${this.renderPrinted('parts')}
                ${usable === null ? nothing : this.beside?.pricesTable(usable, view.money)}
              </div>
              ${usable === null ? nothing : this.renderMarkUp(usable, view)}
            </div>
          </section>
          ${this.renderList('fees', 'Fees')} ${this.renderSettings('supplies', 'Shop supplies')}
          ${this.renderList('taxes', 'Taxes', html`<button @click=${() => void this.offer('taxes')}>Taxes of a place …</button>`)}
          ${this.renderSettings('rounding', 'Rounding')}
          ${this.renderSettings('authorisation', 'Authorisation', html`<button @click=${() => void this.offer('authorisation')}>Rule of a place …</button>`)}
        </div>
        <aside class="side" aria-label="What the card does">
          <section part="examples">${this.renderExamples(usable)}</section>
          ${this.renderProblems(view)}
        </aside>
      </div>
      <baysheet-preset
        heading=${this.presets?.heading ?? ''}
        .presets=${this.presets?.list ?? []}
        .open=${this.presets !== null}
        @choose=${this.onPreset}
        @close=${() => (this.presets = null)}
      ></baysheet-preset>
      <div class="popups" id="popups"></div>`;
  }

  private renderMarkUp(usable: Rates, { money }: CardView): TemplateResult | undefined {
    const { beside } = this;
    return beside?.markUpPanel(usable, money, (way) => this.owner.commit([{ do: 'set-parts', parts: way.parts }], beside.wayLabel(way)));
  }

  private renderExamples(usable: Rates | null): TemplateResult | typeof nothing {
    if (this.besideFault !== '') {
      return html`<p class="fault" role="alert">What the card does to prices cannot be loaded (${this.besideFault}).</p>
        <button @click=${this.loadBeside}>Try again</button>`;
    }
    return this.beside === null || this.saved === null ? nothing : this.beside.examplesTable(this.saved, usable);
  }

  private renderTools(list: CardList): TemplateResult {
    return rowTools(LIST_GRIDS[list].one, this.grids[list].selection, {
      add: () => this.grids[list].focus(`${list}:+`, LIST_GRIDS[list].columns[0]!.id),
      act: (id) => this.act(list, id),
    });
  }

  private renderList(list: CardList, title: string, more: TemplateResult | typeof nothing = nothing): TemplateResult {
    return html`<section aria-labelledby="${list}-title">
      <div class="band"><h2 id="${list}-title">${title}</h2>${this.renderTools(list)}${more}</div>
      <div class="sheet-of" id=${list}></div>
      ${this.renderPrinted(list)}
    </section>`;
  }

  private renderSettings(name: SettingsName, title: string, more: TemplateResult | typeof nothing = nothing): TemplateResult {
    return html`<section aria-labelledby="${name}-title">
      <div class="band"><h2 id="${name}-title">${title}</h2>${more}</div>
      <div class="sheet-of" id=${name}></div>
      ${this.renderPrinted(name)}
    </section>`;
  }

  /** What is printed in the place of a grid, which would be cut off. */
  private renderPrinted(name: GridName): TemplateResult {
    const { columns, label, rows } = this.plans[name];
    return printedGrid(
      label,
      columns.filter(({ id }) => id !== 'meaning'),
      rows() ?? [],
    );
  }

  private renderProblems(view: CardView): TemplateResult {
    const pending = [...view.state.pending];
    const count = pending.length + view.problems.length;
    return html`<section part="problems" aria-labelledby="problems-title">
      <h2 id="problems-title">To look at</h2>
      ${count === 0 ? html`<p class="quiet">Nothing.</p>` : nothing}
      <ul class="list">
        ${pending.map(
          ([key, { text, reason }]) => html`<li class="problem error">
            <strong>Not used:</strong> <button class="link" @click=${() => this.go(pendingPlace(key))}>“${text}”</button> <span class="hint">${reason}</span>
          </li>`,
        )}
        ${view.problems.map((problem) => this.renderProblem(problem, view))}
      </ul>
    </section>`;
  }

  private renderProblem(problem: Problem, view: CardView): TemplateResult {
    const place = problemPlace(problem, view);
    const severity = { error: 'Cannot be priced', warning: 'Check', note: 'Note' }[problem.severity];
    return html`<li class="problem ${problem.severity}">
      <strong>${severity}:</strong>
      ${place === null ? problem.message : html`<button class="link" @click=${() => this.go(place)}>${problem.message}</button>`}
      ${problem.hint === undefined ? nothing : html`<span class="hint">${problem.hint}</span>`}
    </li>`;
  }
}
