import { adoptStyles, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { type Catalogue, parseCatalogue } from '../../src/documents/catalogue.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { Problem } from '../../src/documents/problem.js';
import { parseRates, type Rates } from '../../src/documents/rates.js';
import { type CardCommand, CardStore } from '../../src/store/card-draft.js';
import { type Renamed, renamedBetween, renamedBy } from '../../src/store/renamed.js';
import type { CardVersion } from '../../src/versions/card-versions.js';
import { VERSION } from '../define.js';
import { downloadEstimate, downloadText } from '../estimate/files.js';
import { OpenDocuments } from '../estimate/open-documents.js';
import { faultsPanel } from '../estimate/panels.js';
import { Announcer } from '../look/announcer.js';
import { formatDate, today } from '../look/format.js';
import { HostStates } from '../look/host-states.js';
import { printPage } from '../look/on-paper.js';
import type { KeptStore } from '../storage/port.js';
import type { CardOwner } from './card-grids.js';
import { CardModel, type CardView } from './card-view.js';
import type { CatalogueChecked, CatalogueDesk, CatalogueEdit } from './catalogue-desk.js';
import { type RatesEventMap, sendRates } from './events.js';
import { defineInnerElements, LATER } from './inner-elements.js';
import type { EstimateSource } from './replay-source.js';
import { ratesStyles } from './styles.js';
import { type Tab, tabList } from './tabs.js';
import { isUnsaved } from './unsaved.js';
import { VersionKeeper } from './version-keeper.js';
import { reasonOf, VersionSaving } from './version-saving.js';
import type { OpenEstimateDetail, TakeCardDetail, TakeHoursDetail } from './what-if-events.js';

const TABS: readonly Tab[] = [
  { id: 'card', title: 'Rate card' },
  { id: 'catalogue', title: 'Catalogue' },
  { id: 'what-if', title: 'What if' },
  { id: 'versions', title: 'Versions' },
];

/** How a step of undo is called that operations of the catalogue have followed. */
const RENAMING = 'renaming of ';

/** A grid measures and listens in the document of its script; in another one it would only half work. */
const ELSEWHERE =
  'This desk was moved into the document of a frame, where it cannot work. Load its script there and make it there. Nothing is lost: moved back, it goes on.';

/**
 * The owner's desk: the rate card and the catalogue in grids, what a change does before it is made, and every version
 * that was saved.
 *
 * It needs a rate card; with a catalogue it also checks that the two go together. What a person does is announced; what
 * the page sets is not.
 *
 * @fires {CustomEvent<RatesChangeDetail>} baysheet-change a person has changed the card or the catalogue; nothing is saved yet
 * @fires {CustomEvent<RatesSaveDetail>} baysheet-save a person saves a new version; unless prevented it is kept in `storage`, or offered as a file
 * @fires {CustomEvent<OpenDetail>} baysheet-open a person wants to see a past estimate; unless prevented it is offered as a file
 * @fires {CustomEvent<ProblemDetail>} baysheet-problem a document, an address or a file could not be read, or a version not be kept
 *
 * @slot header above the desk: the shop's name, say
 *
 * @csspart desk all of it
 * @csspart tools the row of buttons
 * @csspart mark-up the picture of the mark-up with its ways out
 * @csspart problems what is worth a look
 * @csspart examples what the card makes of everyday work
 *
 * @cssstate unusable something on the card keeps it from being priced by
 * @cssstate changed there are changes that are not saved
 *
 * @cssprop --baysheet-font typeface of everything
 * @cssprop --baysheet-text-size size of the text; widths follow it
 * @cssprop --baysheet-ink colour of text
 * @cssprop --baysheet-ink-quiet colour of text that stands back
 * @cssprop --baysheet-paper ground of grids and fields
 * @cssprop --baysheet-ground ground between them
 * @cssprop --baysheet-band ground of headings
 * @cssprop --baysheet-rule colour of hairlines
 * @cssprop --baysheet-rule-strong colour of stronger lines
 * @cssprop --baysheet-accent the one accent
 * @cssprop --baysheet-accent-ink text on the accent
 * @cssprop --baysheet-accent-wash a wash of the accent, behind what is chosen
 * @cssprop --baysheet-fault mark of an entry that cannot be used
 * @cssprop --baysheet-gap space between its parts
 * @cssprop --baysheet-radius roundness of corners
 * @cssprop --baysheet-focus outline of what has the keyboard
 * @cssprop --baysheet-sticky-top how far from the top of the window what stays in sight is, under a page's own bar
 */
export class BaysheetRates extends LitElement {
  static readonly version = VERSION;
  static override styles = ratesStyles;

  /** Where to read the rate card from. */
  @property({ attribute: 'rates-src' }) ratesSrc = '';
  /** Where to read the catalogue from. */
  @property({ attribute: 'catalogue-src' }) catalogueSrc = '';
  /** Past estimates for the what-if, beside those that `storage` keeps and files: a list, or a source that reads them one by one. */
  @property({ attribute: false }) estimates: readonly Estimate[] | EstimateSource = [];
  /** Where versions are kept, and past estimates found: a store by the port of `baysheet/storage`. */
  @property({ attribute: false }) storage: KeptStore | null = null;

  @state() private tab = 'card';

  private readonly announcer = new Announcer(this);
  private readonly states = new HostStates(this);
  private readonly documents = new OpenDocuments({ rates: parseRates, catalogue: parseCatalogue }, (name, problems) =>
    this.onDocument(name, problems),
  );
  private model: CardModel | null = null;
  /** The card before the changes that are not saved. */
  private saved: Rates | null = null;
  private savedCatalogue: Catalogue | null = null;
  private readonly keeper = new VersionKeeper(() => this.requestUpdate());
  /** Sections that somebody has looked at, once they are loaded; what was never looked at is not made. */
  private readonly seen = new Set(['card']);
  /** The catalogue as it stands on its desk, and the last that prices could be made with. */
  private catalogueNow: Catalogue | null = null;
  private catalogueUsable: Catalogue | null = null;
  private offered: readonly EstimateSource[] = [];
  private readonly saving = new VersionSaving(this, {
    load: () => this.look('versions'),
    rates: () => this.view()!.usable!,
    catalogue: () => this.catalogueUsable,
    keep: async (rates, catalogue) => {
      if (this.storage !== null) await this.keeper.keep(rates, this.saved!, catalogue);
      else this.download(rates);
    },
    saved: (rates) => this.isSaved(rates),
    announce: (text) => this.announcer.say(text),
  });
  private readonly cardOwner: CardOwner = {
    view: () => this.view(),
    commit: (commands, what) => this.commit(commands, what),
    undo: () => this.undo(),
    redo: () => this.redo(),
    announce: (text) => this.announcer.say(text),
  };

  /** The rate card as it stands, a copy; set it as an object or as JSON text, which begins a new history of undo. */
  @property({ attribute: false })
  get rates(): Rates | null {
    return copy(this.view()?.rates);
  }
  set rates(value: Rates | string | null) {
    this.documents.set('rates', value);
  }

  /** The catalogue as it stands, a copy; set it as an object or as JSON text. */
  @property({ attribute: false })
  get catalogue(): Catalogue | null {
    return copy(this.catalogueNow ?? undefined);
  }
  set catalogue(value: Catalogue | string | null) {
    this.documents.set('catalogue', value);
  }

  /** Takes the last step back. */
  undo(): void {
    this.step('undo');
  }

  /** Does again what was taken back last. */
  redo(): void {
    this.step('redo');
  }

  override connectedCallback(): void {
    super.connectedCallback();
    defineInnerElements();
    this.keeper.start();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.keeper.stop();
  }

  /** Style sheets belong to a document: they are lost on the way into another one, and taken up again on the way back. */
  adoptedCallback(): void {
    if (this.ownerDocument === document) adoptStyles(this.renderRoot as ShadowRoot, BaysheetRates.elementStyles);
    this.requestUpdate();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('ratesSrc')) void this.documents.load('rates', this.ratesSrc);
    if (changed.has('catalogueSrc')) void this.documents.load('catalogue', this.catalogueSrc);
    if (changed.has('storage')) this.keeper.use(this.storage);
    if (changed.has('estimates')) this.offered = sourcesOf(this.estimates);
    const view = this.view();
    this.states.set('unusable', view !== null && view.usable === null);
    this.states.set('changed', view !== null && this.differs(view));
  }

  /** Whether there are changes that are not saved. */
  private differs({ usable }: CardView): boolean {
    return isUnsaved(usable, this.saved) || isUnsaved(this.catalogueNow, this.savedCatalogue);
  }

  private view(): CardView | null {
    return this.model?.view(this.catalogueNow) ?? null;
  }

  private onDocument(name: 'rates' | 'catalogue', problems: readonly Problem[]): void {
    const rates = this.documents.get('rates');
    if (problems.length > 0) sendRates(this, 'baysheet-problem', { source: name, problems });
    else if (name === 'rates' && rates !== undefined) {
      this.saved = rates;
      if (this.model === null) this.model = new CardModel(new CardStore(rates));
      else this.model.store.replace(rates);
    } else if (name === 'catalogue') {
      this.savedCatalogue = this.catalogueNow = this.catalogueUsable = this.documents.get('catalogue') ?? null;
    }
    this.requestUpdate();
  }

  private commit(commands: readonly CardCommand[], what: string): void {
    const { model } = this;
    if (model === null) return;
    const before = model.store.getState();
    const renamed = renamedBy(commands, before.draft).filter(({ target, from }) => this.isNamed(target, from));
    const label = renamed.length === 0 ? what : `${RENAMING}${renamed.map(({ from }) => from).join(', ')}`;
    model.store.dispatch(commands, label);
    if (model.store.getState() === before) return;
    this.changed(label);
    void this.follow(renamed);
  }

  private step(way: 'undo' | 'redo'): void {
    const store = this.model?.store;
    if (store === undefined) return;
    const before = store.getState();
    const what = store.labels()[way];
    if (!store[way]()) return;
    this.changed(`${way} ${what}`);
    if (what?.startsWith(RENAMING)) void this.follow(renamedBetween(before.draft, store.getState().draft));
  }

  private isNamed(target: Renamed['target'], id: string): boolean {
    const operations = this.catalogueNow?.operations ?? [];
    return operations.some((operation) => (target === 'fees' ? operation.fees.includes(id) : operation.labourClass === id));
  }

  /** Operations of the catalogue name a labour class or a fee by its new id. */
  private async follow(renamed: readonly Renamed[]): Promise<void> {
    if (renamed.length === 0) return;
    const desk = await this.catalogueDesk();
    for (const { target, from, to } of renamed) desk.follow(target, from, to);
    this.announcer.say(`Operations of the catalogue follow: ${renamed.map(({ from, to }) => `${from} is ${to} now`).join(', ')}.`);
  }

  /** The desk of the catalogue, made where nobody has looked at it yet. */
  private async catalogueDesk(): Promise<CatalogueDesk> {
    await this.look('catalogue');
    await this.updateComplete;
    const desk = this.renderRoot.querySelector<CatalogueDesk>('baysheet-catalogue-desk')!;
    await desk.updateComplete;
    return desk;
  }

  private onCatalogueEdit({ detail }: CustomEvent<CatalogueEdit>): void {
    this.catalogueNow = detail.catalogue;
    this.changed(detail.what);
  }

  private onCatalogueChecked({ detail }: CustomEvent<CatalogueChecked>): void {
    if (!detail.usable || detail.catalogue === this.catalogueUsable) return;
    this.catalogueUsable = detail.catalogue;
    this.requestUpdate();
  }

  private onTakeCard({ detail }: CustomEvent<TakeCardDetail>): void {
    this.commit([{ do: 'set-card', rates: detail.rates }], detail.what);
    this.show('card');
  }

  private async onTakeHours({ detail }: CustomEvent<TakeHoursDetail>): Promise<void> {
    (await this.catalogueDesk()).takeHours(detail.hours, detail.what);
    this.show('catalogue');
  }

  private onOpenEstimate({ detail }: CustomEvent<OpenEstimateDetail>): void {
    if (sendRates(this, 'baysheet-open', detail)) downloadEstimate(detail.estimate, this.ownerDocument);
  }

  /** Tells the page, and paints. */
  private changed(what: string): void {
    const view = this.view();
    this.saving.said = '';
    this.requestUpdate();
    if (view === null) return;
    sendRates(this, 'baysheet-change', {
      rates: structuredClone(view.rates),
      catalogue: this.catalogue,
      usable: view.usable !== null,
      what,
    });
    if (what.startsWith('undo') || what.startsWith('redo')) this.announcer.say(`${what}.`);
  }

  private show(tab: string): void {
    this.tab = tab;
    this.announcer.clear();
    this.look(tab).catch((fault: unknown) => {
      this.announcer.say(`This section cannot be loaded (${reasonOf(fault)}). Choose it again to try again.`);
    });
  }

  private async look(tab: string): Promise<void> {
    if (this.seen.has(tab)) return;
    await LATER[tab]?.();
    this.seen.add(tab);
    this.requestUpdate();
  }

  private async onOpen(event: Event): Promise<void> {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (file === undefined) return;
    const text = await file.text().catch(() => '');
    input.value = '';
    const read = parseRates(text);
    if (read.ok) {
      this.documents.forgive('rates');
      this.commit([{ do: 'set-card', rates: read.value }], `opening ${file.name}`);
    } else this.documents.refuse('rates', read.problems);
  }

  private isSaved(rates: Rates): void {
    this.saved = rates;
    this.savedCatalogue = this.catalogueUsable;
    this.model!.store.dispatch([{ do: 'set', fields: { effectiveFrom: rates.effectiveFrom } }], 'day from which it is in force');
  }

  private download(rates: Rates): void {
    downloadText(
      `${JSON.stringify(rates, null, 2)}\n`,
      'application/json',
      `${rates.id}.${rates.effectiveFrom ?? 'first'}.rates.json`,
      this.ownerDocument,
    );
  }

  private onOpenVersion({ detail }: CustomEvent<CardVersion>): void {
    this.commit([{ do: 'set-card', rates: detail.rates }], 'opening of a version');
    this.show('card');
  }

  protected override render(): TemplateResult {
    if (this.ownerDocument !== document) return html`<p>${ELSEWHERE}</p>`;
    const view = this.view();
    const faults = this.documents.problems();
    return html`<div class="desk" part="desk">
      <slot name="header"></slot>
      ${faultsPanel(faults)} ${view !== null ? this.renderDesk(view) : faults.length === 0 ? html`<p class="quiet">Waiting for a rate card …</p>` : nothing}
      <p class="unseen" role="status">${this.announcer.text}</p>
    </div>`;
  }

  private renderDesk(view: CardView): TemplateResult {
    return html`${this.renderTools(view)} ${tabList('Owner’s desk', TABS, this.tab, (id) => this.show(id))}
      ${this.renderPanel(
        'card',
        html`<baysheet-card-desk exportparts="mark-up, problems, examples" .owner=${this.cardOwner} .view=${view} .saved=${this.saved}></baysheet-card-desk>`,
      )}
      ${this.renderPanel(
        'catalogue',
        html`<baysheet-catalogue-desk
          .catalogue=${this.catalogueNow}
          .rates=${view.usable ?? this.saved}
          .locale=${view.locale}
          @catalogue-edit=${this.onCatalogueEdit}
          @catalogue-checked=${this.onCatalogueChecked}
          @refuse=${({ detail }: CustomEvent<readonly Problem[]>) =>
            detail.length > 0 && sendRates(this, 'baysheet-problem', { source: 'catalogue', problems: detail })}
        ></baysheet-catalogue-desk>`,
      )}
      ${this.renderPanel(
        'what-if',
        html`<baysheet-what-if
          .catalogue=${this.savedCatalogue}
          .catalogueAfter=${this.catalogueUsable === this.savedCatalogue ? null : this.catalogueUsable}
          .ratesBefore=${this.saved}
          .ratesAfter=${view.usable}
          .offered=${this.offered}
          .store=${this.storage}
          .locale=${view.locale}
          @take-card=${this.onTakeCard}
          @take-hours=${this.onTakeHours}
          @open-estimate=${this.onOpenEstimate}
        ></baysheet-what-if>`,
      )}
      ${this.renderPanel(
        'versions',
        html`<baysheet-versions
          .versions=${this.keeper.cards.versions}
          .unreadable=${this.keeper.cards.unreadable}
          .fault=${this.keeper.fault}
          .rates=${view.usable ?? this.saved}
          .today=${today()}
          ?kept=${this.storage !== null}
          @open=${this.onOpenVersion}
          @download=${({ detail }: CustomEvent<CardVersion>) => this.download(detail.rates)}
        ></baysheet-versions>`,
      )}
      ${this.seen.has('versions') ? this.renderSaving(view) : nothing}`;
  }

  private renderSaving(view: CardView): TemplateResult {
    return html`<baysheet-version-save
      .rates=${view.usable}
      .saved=${this.saved}
      .versions=${this.keeper.cards.versions}
      .today=${today()}
      .fault=${this.saving.fault}
      .busy=${this.saving.isBusy}
      .pending=${view.state.pending.size}
      .open=${this.saving.isOpen && view.usable !== null}
      @keep=${({ detail }: CustomEvent<string>) => void this.saving.keep(detail)}
      @download=${({ detail }: CustomEvent<string>) => this.download({ ...view.usable!, effectiveFrom: detail || null })}
      @close=${() => this.saving.close()}
    ></baysheet-version-save>`;
  }

  private renderPanel(id: string, inside: TemplateResult): TemplateResult {
    return html`<div role="tabpanel" id="panel-${id}" aria-labelledby="tab-${id}" ?hidden=${id !== this.tab}>${this.seen.has(id) ? inside : html`<p>${id === this.tab ? this.announcer.text || 'Loading …' : nothing}</p>`}</div>`;
  }

  private renderTools(view: CardView): TemplateResult {
    const labels = this.model!.store.labels();
    const title = (what: string, label: string | null, keys: string): string => (label === null ? '' : `${what} ${label} (${keys})`);
    return html`<div class="head">
        <h2>${view.rates.title || view.rates.id}</h2>
        <p class="quiet">
          ${view.rates.effectiveFrom === null ? 'In force from the beginning' : `In force from ${formatDate(view.rates.effectiveFrom, view.locale)}`} ·
          ${view.usable === null ? html`<strong>cannot be used as it stands</strong>` : this.differs(view) ? html`<strong>changes not saved</strong>` : 'as saved'}
        </p>
      </div>
      <div class="tools screen-only" part="tools" role="toolbar" aria-label="Rate card">
        <button ?hidden=${this.tab !== 'card'} ?disabled=${labels.undo === null} title=${title('Undo', labels.undo, 'Ctrl+Z')} @click=${this.undo}>Undo</button>
        <button ?hidden=${this.tab !== 'card'} ?disabled=${labels.redo === null} title=${title('Redo', labels.redo, 'Ctrl+Y')} @click=${this.redo}>Redo</button>
        <span class="grow"></span>
        <label class="button" ?hidden=${this.tab !== 'card'}>Open … <input class="unseen" type="file" accept=".json,application/json" @change=${this.onOpen} /></label>
        <button class="main" ?disabled=${view.usable === null} @click=${() => void this.saving.open()}>Save a new version …</button>
        <button @click=${() => void printPage()}>Print</button>
      </div>
      ${this.saving.said === '' ? nothing : html`<p class="kept">${this.saving.said}</p>`}`;
  }
}

/** Its own events carry other details than those of the sheet. */
export interface BaysheetRates {
  addEventListener<K extends keyof RatesEventMap>(
    type: K,
    listener: (this: BaysheetRates, event: RatesEventMap[K]) => void,
    options?: boolean | AddEventListenerOptions,
  ): void;
  addEventListener<K extends keyof HTMLElementEventMap>(
    type: K,
    listener: (this: BaysheetRates, event: HTMLElementEventMap[K]) => void,
    options?: boolean | AddEventListenerOptions,
  ): void;
  addEventListener(type: string, listener: EventListenerOrEventListenerObject, options?: boolean | AddEventListenerOptions): void;
}

function sourcesOf(estimates: readonly Estimate[] | EstimateSource): EstimateSource[] {
  if ('read' in estimates) return [estimates];
  const { length } = estimates;
  return length === 0
    ? []
    : [{ title: `${length} ${length === 1 ? 'estimate' : 'estimates'} of this page`, count: length, read: (at) => estimates[at] }];
}

function copy<T>(value: T | undefined): T | null {
  return value === undefined ? null : structuredClone(value);
}
