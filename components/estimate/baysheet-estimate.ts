import { adoptStyles, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property } from 'lit/decorators.js';
import { type Catalogue, parseCatalogue } from '../../src/documents/catalogue.js';
import { type Estimate, parseEstimate } from '../../src/documents/estimate.js';
import type { Problem } from '../../src/documents/problem.js';
import { parseRates, type Rates } from '../../src/documents/rates.js';
import { propose } from '../../src/findings/propose-lines.js';
import { whyIncomplete } from '../../src/findings/round-words.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import type { ShopSettings } from '../../src/share/shop.js';
import type { Command } from '../../src/store/commands.js';
import { VERSION } from '../define.js';
import { send } from '../events.js';
import { openBrowserStore } from '../storage/browser-store.js';
import { Announcer } from '../look/announcer.js';
import { HostStates } from '../look/host-states.js';
import { OnPaper } from '../look/on-paper.js';
import type { KeptStore } from '../storage/port.js';
import { findingActions, lineActions } from './actions.js';
import type { AuthorisationDesk, Recorded } from './authorisation-desk.js';
import type { SheetView } from './context.js';
import { PhotoKeeper } from './evidence-keeper.js';
import type { EvidencePane } from './evidence-pane.js';
import { EstimateFiles } from './estimate-files.js';
import { FileDrop } from './file-drop.js';
import { SPARE_FINDING } from './finding-columns.js';
import { FollowUp } from './follow-up.js';
import { GridController } from './grid-controller.js';
import { findingsGrid, linesGrid } from './grids.js';
import { defineInnerElements } from './inner-elements.js';
import type { JobEdit } from './job-form.js';
import { Keeping } from './keeping.js';
import type { KeepingDesk } from './keeping-desk.js';
import { savingWords } from './keeping-words.js';
import { SPARE_LINE } from './line-columns.js';
import type { LinesEdit, LinesTable } from './lines-table.js';
import { newEstimate } from './new-estimate.js';
import { type DocumentName, OpenDocuments } from './open-documents.js';
import { cautionsPanel, faultsPanel, problemsPanel } from './panels.js';
import type { PaneEdit } from './pane-edit.js';
import { PhotoIntake } from './photo-intake.js';
import { printSheet, totalText } from './print-sheet.js';
import { problemPlace } from './problem-place.js';
import { type Quoted, QuotedTerms } from './quoted-terms.js';
import { SheetSession } from './sheet-session.js';
import { estimateStyles } from './styles.js';
import { rowTools, sheetTools } from './tools.js';
import type { Paper, WorkDesk, WorkEdit } from './work-desk.js';

/** A grid measures and listens in the document of its script; in another one it would only half work. */
const ELSEWHERE =
  'This sheet was moved into the document of a frame, where it cannot work. Load its script there and make it there. Nothing is lost: moved back, it goes on.';

/**
 * The service advisor's sheet: what was found, the lines that put it right, what it all comes to, and a picture of the
 * teardown that the lines share.
 *
 * It needs a catalogue and a rate card; without an estimate it begins an empty one. What a person does is announced;
 * what the page sets is not.
 *
 * @fires {CustomEvent<ChangeDetail>} baysheet-change a person has changed the estimate
 * @fires {CustomEvent<SaveDetail>} baysheet-save a person wants it saved; unless prevented it is offered as a file
 * @fires {CustomEvent<ShareDetail>} baysheet-share a customer's copy was sealed; unless prevented the dialog offers ways to send it
 * @fires {CustomEvent<ProblemDetail>} baysheet-problem a document, an address or a file could not be read
 *
 * @slot header above the sheet: the shop's name, say
 * @slot terms below it: what the shop must tell its customers
 *
 * @csspart sheet all of it
 * @csspart tools the row of buttons
 * @csspart saving among them: how it stands with the saving
 * @csspart keeping what is to be known about the keeping: open in another tab, not saved and why, two versions
 * @csspart rounds the test rounds, and whether the list of findings is complete
 * @csspart quoted under which card the estimate is priced, where that is not the one in force
 * @csspart findings the findings with their grid
 * @csspart evidence the evidence of the chosen finding, and the trouble codes
 * @csspart lines the lines with their grid
 * @csspart teardown the picture of shared teardown
 * @csspart cautions what to look out for
 * @csspart problems what keeps the sum from being complete
 * @csspart totals the side with the totals
 * @csspart notice in the totals: that the sum is not complete, or that more may be found
 * @csspart sum in the totals: the table of the sum
 * @csspart discount in the totals: the row of a discount
 * @csspart tax in the totals: the row of a tax
 * @csspart total in the totals: the row of the total
 * @csspart cash in the totals: the row of the cash total
 * @csspart saved in the totals: what doing it together saves
 * @csspart later in the totals: what each line costs later
 * @csspart standing in the authorisation: where the estimate stands with its customer
 * @csspart difference in the authorisation: what has changed since
 * @csspart print what is printed instead of all this
 *
 * @cssstate incomplete something keeps the sum from being complete
 * @cssstate reading nothing can be changed here now: the estimate is open elsewhere
 *
 * @cssprop --baysheet-font typeface of everything
 * @cssprop --baysheet-text-size size of the text; widths follow it
 * @cssprop --baysheet-ink colour of text
 * @cssprop --baysheet-ink-quiet colour of text that stands back
 * @cssprop --baysheet-paper ground of grids, fields and totals
 * @cssprop --baysheet-ground ground between them
 * @cssprop --baysheet-band ground of headings
 * @cssprop --baysheet-rule colour of hairlines
 * @cssprop --baysheet-rule-strong colour of stronger lines
 * @cssprop --baysheet-accent the one accent
 * @cssprop --baysheet-accent-ink text on the accent
 * @cssprop --baysheet-accent-wash a wash of the accent, behind what is chosen
 * @cssprop --baysheet-fault mark of an entry that cannot be used
 * @cssprop --baysheet-gap space between the parts of the sheet
 * @cssprop --baysheet-radius roundness of corners
 * @cssprop --baysheet-focus outline of what has the keyboard
 * @cssprop --baysheet-sticky-top how far from the top of the window the totals stay, under a page's own bar
 */
export class BaysheetEstimate extends LitElement {
  static readonly version = VERSION;
  static override styles = estimateStyles;

  /** Where to read the catalogue from. */
  @property({ attribute: 'catalogue-src' }) catalogueSrc = '';
  /** Where to read the rate card from. */
  @property({ attribute: 'rates-src' }) ratesSrc = '';
  /** Where to read the estimate from. */
  @property({ attribute: 'estimate-src' }) estimateSrc = '';
  /** Address of the page that shows estimates to customers; without it nothing can be shared as a link. */
  @property({ attribute: 'customer-page' }) customerPage = '';
  /** Address of the script of `<baysheet-customer>`, for the estimate as a file; without it no file is offered. */
  @property({ attribute: 'customer-script' }) customerScript = '';
  /**
   * What the customer may read of the shop: `name`, `phone`, `email`, `address`, `timeZone`, `terms`; with `published: true`
   * the customer's page says it beside its keys, and links leave it out.
   */
  @property({ attribute: false }) shop: ShopSettings = {};

  /** `browser` keeps everything in this browser, in a store of the page's origin that all its sheets share. */
  @property({ attribute: 'keep-in' }) keepIn = '';
  /** The id of the kept estimate to open first; without it, and without `estimate-src`, the one that was open last. */
  @property({ attribute: 'estimate-id' }) estimateId = '';
  /** The page's address names the estimate that is open, as `#estimate=ID`, and opens the one that it names. */
  @property({ attribute: 'id-in-hash', type: Boolean }) idInHash = false;

  /**
   * Where everything is kept, instead of `keep-in`: the estimate with every change, as it is typed; photos, under their
   * content hash (without it they stay in the estimate, as data URLs); and the card and catalogue that an estimate was
   * quoted under, so that its prices stay when those of the page change. A page that keeps estimates itself leaves it away.
   */
  @property({ attribute: false }) storage: KeptStore | null = null;

  private browserStore: KeptStore | null = null;
  /** Whether the estimate is being set by the page's program. */
  private isGiven = false;
  private readonly announcer = new Announcer(this);
  private readonly states = new HostStates(this);
  private readonly paper = new OnPaper(this, () => this.performUpdate());
  private readonly documents = new OpenDocuments(
    { catalogue: parseCatalogue, rates: parseRates, estimate: parseEstimate },
    (name, problems) => this.onDocument(name, problems),
  );
  private readonly quoted = new QuotedTerms(() => this.requestUpdate());
  private readonly session = new SheetSession(this.documents, this.quoted);
  private readonly later = new FollowUp(() => this.requestUpdate());
  private readonly desk = {
    view: () => this.session.view(),
    isReading: () => this.keeping.isReading,
    commit: (commands: readonly Command[], what: string) => this.commit(commands, what),
    undo: () => this.undo(),
    redo: () => this.redo(),
    announce: (text: string) => this.announcer.say(text),
    total: () => this.total(),
    showEvidence: (finding: string) => this.showEvidence(finding),
  };
  private readonly tools = {
    undo: () => this.undo(),
    redo: () => this.redo(),
    propose: () => this.onPropose(),
    show: (paper: Paper) => this.workDesk?.show(paper),
    estimates: () => this.keepingDesk?.showEstimates(),
    open: (event: Event) => this.files.choose(event),
    save: () => void this.files.save(),
  };
  private readonly findingTools = {
    add: () => this.findings.focus(SPARE_FINDING, 'component'),
    act: (id: string) => this.onAct('findings', id),
  };
  private readonly lineTools = { add: () => this.lines.focus(SPARE_LINE, 'work'), act: (id: string) => this.onAct('lines', id) };
  private readonly keeping: Keeping = new Keeping(this, {
    state: () => this.session.state,
    priced: () => this.session.view()?.priced ?? null,
    show: ({ estimate, pending }) => {
      this.session.put(estimate, pending);
      this.requestUpdate();
    },
    begin: () => {
      if (this.session.store !== null) this.session.put(newEstimate(new Date()));
      else this.assemble('catalogue');
      this.requestUpdate();
    },
    commit: (commands, what) => this.commit(commands, what),
    enter: (grid, row, column, text) => (grid === 'lines' ? this.lines : this.findings).enter(row, column, text),
    announce: (text) => this.announcer.say(text),
  });
  private readonly findings = new GridController(this, findingsGrid(this.desk));
  private readonly lines = new GridController(this, linesGrid(this.desk));
  private readonly photos = new PhotoKeeper(() => this.photosChanged());
  private readonly files: EstimateFiles = new EstimateFiles(this, this.photos, {
    estimate: () => this.session.estimate!,
    isKept: () => this.keptIn() !== null,
    told: (problems) => (problems.length === 0 ? this.documents.forgive('estimate') : this.documents.refuse('estimate', problems)),
    show: (estimate, name) => {
      if (this.session.store === null || this.keeping.isReading) this.keeping.begin(estimate);
      else this.commit([{ do: 'set-estimate', estimate }], `opening ${name}`);
    },
    announce: (text) => this.announcer.say(text),
  });
  private readonly intake = new PhotoIntake({
    findings: () => this.session.estimate!.findings,
    evidence: () => this.evidence,
    choose: ({ id }) => {
      this.findings.focus(`findings:${id}`, 'component');
      return this.updateComplete;
    },
    announce: (text) => this.announcer.say(text),
  });

  constructor() {
    super();
    this.addController(new FileDrop(this, { open: (file) => void this.files.open(file), announce: (text) => this.announcer.say(text) }));
  }

  /** The catalogue, as an object or as JSON text. */
  @property({ attribute: false })
  get catalogue(): Catalogue | null {
    return copy(this.documents.get('catalogue'));
  }
  set catalogue(value: Catalogue | string | null) {
    this.documents.set('catalogue', value);
  }

  /** The rate card, as an object or as JSON text. */
  @property({ attribute: false })
  get rates(): Rates | null {
    return copy(this.documents.get('rates'));
  }
  set rates(value: Rates | string | null) {
    this.documents.set('rates', value);
  }

  /**
   * The estimate as it stands, a copy; set it as an object or as JSON text, which begins a new history of undo. One that says
   * what the sheet has already changes nothing.
   */
  @property({ attribute: false })
  get estimate(): Estimate | null {
    return copy(this.session.estimate ?? this.documents.get('estimate'));
  }
  set estimate(value: Estimate | string | null) {
    this.isGiven = true;
    this.documents.set('estimate', value);
    this.isGiven = false;
  }

  /** The estimate with every figure worked out, a copy; null while documents are missing. */
  get priced(): PricedEstimate | null {
    return copy(this.session.view()?.priced);
  }

  /** Opens a customer's reply that the page has received: a text, or a link that holds it. */
  openReply(text: string): void {
    this.renderRoot.querySelector<AuthorisationDesk>('baysheet-authorisation-desk')?.openReply(text);
  }

  /** Opens an estimate that is kept in `storage`; false where there is none that can be read. */
  openKept(id: string): Promise<boolean> {
    return this.keeping.open(id);
  }

  /** Takes the last step back. */
  undo(): void {
    if (this.keeping.refuses()) return;
    const what = this.session.store?.labels().undo;
    if (this.session.store?.undo()) this.changed(`undo ${what}`);
  }

  /** Does again what was taken back last. */
  redo(): void {
    if (this.keeping.refuses()) return;
    const what = this.session.store?.labels().redo;
    if (this.session.store?.redo()) this.changed(`redo ${what}`);
  }

  override connectedCallback(): void {
    super.connectedCallback();
    defineInnerElements();
    this.quoted.start();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.quoted.stop();
    this.later.stop();
  }

  /** Style sheets belong to a document: they are lost on the way into another one, and taken up again on the way back. */
  adoptedCallback(): void {
    if (this.ownerDocument === document) adoptStyles(this.renderRoot as ShadowRoot, BaysheetEstimate.elementStyles);
    this.requestUpdate();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('catalogueSrc')) void this.documents.load('catalogue', this.catalogueSrc);
    if (changed.has('ratesSrc')) void this.documents.load('rates', this.ratesSrc);
    if (changed.has('storage') || changed.has('keepIn')) {
      const store = this.keptIn();
      this.photos.use(store);
      this.quoted.use(store);
      this.keeping.use(store);
    }
    if (changed.has('estimateSrc')) {
      const read = (): void => void this.documents.load('estimate', this.estimateSrc);
      // Without an address there is nothing that could go before what was open last.
      if (this.estimateSrc === '') read();
      else this.keeping.readSource(read);
    }
    const view = this.session.view();
    if (this.findings.selection !== null) this.intake.chooseRow(this.findings.selection.row);
    if (view !== null && this.isConnected) this.later.start(view);
    this.states.set('incomplete', view !== null && !view.priced.complete);
    this.states.set('reading', this.keeping.isReading);
  }

  private keptIn(): KeptStore | null {
    if (this.storage !== null || this.keepIn !== 'browser') return this.storage;
    this.browserStore ??= openBrowserStore();
    return this.browserStore;
  }

  private get keepingDesk(): KeepingDesk | null {
    return this.renderRoot.querySelector<KeepingDesk>('baysheet-keeping');
  }

  private get workDesk(): WorkDesk | null {
    return this.renderRoot.querySelector<WorkDesk>('baysheet-work-desk');
  }

  private onDocument(name: DocumentName, problems: readonly Problem[]): void {
    if (problems.length > 0) send(this, 'baysheet-problem', { source: name, problems });
    else this.assemble(name);
    this.requestUpdate();
  }

  /** Puts the sheet together as soon as there is something to put together. */
  private assemble(name: DocumentName): void {
    const catalogue = this.documents.get('catalogue');
    const rates = this.documents.get('rates');
    const estimate = this.documents.get('estimate');
    if (name === 'estimate' && estimate !== undefined) {
      if (this.isGiven && this.session.shows(estimate)) return;
      this.session.put(estimate);
      this.keeping.brought(this.isGiven ? 'given' : 'source');
    }
    if (catalogue === undefined || rates === undefined) return;
    if (estimate === undefined && this.session.store === null && (this.estimateSrc !== '' || !this.keeping.mayBegin)) return;
    if (this.session.store !== null) return;
    this.session.put(newEstimate(new Date()));
    this.keeping.brought('new');
  }

  private commit(commands: readonly Command[], what: string): void {
    if (this.session.store === null || this.keeping.refuses()) return;
    const taken = this.session.take(commands, what, this.keptIn() !== null);
    if (taken === null) return;
    this.changed(what);
    if (taken.isRevised) this.announcer.say(`This is revision ${this.session.estimate!.revision} now; the one before stays on record.`);
  }

  /** Tells the page, and paints. */
  private changed(what: string): void {
    this.keeping.changed();
    const view = this.session.view();
    this.requestUpdate();
    if (view === null) return;
    const { totals, currency, complete } = view.priced;
    send(this, 'baysheet-change', { estimate: structuredClone(view.state.estimate), totals, currency, complete, what });
    if (what.startsWith('undo') || what.startsWith('redo')) this.announcer.say(`${what}. ${this.total()}`);
  }

  private total(): string {
    const view = this.session.view();
    return view === null ? '' : `Total ${totalText(view)}${view.priced.complete ? '' : ', not complete'}.`;
  }

  private onJob({ detail: { path, value } }: CustomEvent<JobEdit>): void {
    const estimate = this.session.estimate!;
    const [field, inner] = path as [keyof Estimate, string?];
    const whole = inner === undefined ? value : { ...(estimate[field] as object), [inner]: value };
    this.commit([{ do: 'set-job', fields: { [field]: whole } }], `change of ${path.join(' ')}`);
  }

  private onQuote({ detail }: CustomEvent<Quoted>): void {
    const newer = this.quoted.newer(this.session.estimate!.quoted, this.session.page()!);
    if (newer !== null) void this.quoted.keep(newer);
    this.commit([{ do: 'quote', quoted: detail }], 'pricing again');
  }

  private onPropose(): void {
    const estimate = this.session.estimate!;
    this.commit([{ do: 'set-lines', lines: propose(estimate, this.session.terms()!.catalogue).lines }], 'proposal of lines');
  }

  private onAct(of: 'findings' | 'lines', id: string): void {
    const view = this.session.view();
    const { selection } = this[of];
    if (view === null || selection === null) return;
    const found = (of === 'lines' ? lineActions : findingActions)(selection, view).find((action) => action.id === id);
    if (found === undefined) return;
    this.commit(found.commands, found.label);
    this.announcer.say(`Done: ${found.label}. ${this.total()}`);
  }

  private readonly onPane = ({ detail }: CustomEvent<PaneEdit>): void => this.commit(detail.commands, detail.what);

  private get evidence(): EvidencePane | null {
    return this.renderRoot.querySelector<EvidencePane>('baysheet-evidence');
  }

  private photosChanged(): void {
    this.evidence?.requestUpdate();
  }

  private showEvidence(finding: string): void {
    this.intake.chosen = finding;
    this.requestUpdate();
    this.evidence?.focus();
  }

  protected override render(): TemplateResult {
    const view = this.session.view();
    const faults = this.documents.problems();
    if (this.ownerDocument !== document) return html`<p>${ELSEWHERE}</p>`;
    const body =
      view !== null
        ? this.renderSheet(view)
        : faults.length === 0
          ? html`<p class="quiet">Waiting for a catalogue and a rate card …</p>`
          : nothing;
    return html`<div class="sheet" part="sheet">
        <slot name="header"></slot>
        ${faultsPanel(faults)}
        <div class="screen">${body}</div>
        ${view !== null && this.paper.shown ? (this.workDesk?.paper() ?? printSheet(view)) : nothing}
        <slot name="terms"></slot>
        <p class="unseen" role="status">${this.announcer.text}</p>
      </div>
      <div class="popups" id="popups"></div>`;
  }

  private renderSheet(view: SheetView): TemplateResult {
    const { estimate } = view.state;
    const kept = this.keptIn() === null ? null : savingWords(this.keeping, view.locale);
    return html`<baysheet-job
        .estimate=${estimate}
        .taxes=${view.rates.rates.taxes}
        .locale=${view.locale}
        @baysheet-job-edit=${this.onJob}
      ></baysheet-job>
      <baysheet-quoted
        exportparts="quoted"
        .estimate=${estimate}
        .terms=${this.session.terms()}
        .newer=${this.quoted.newer(estimate.quoted, this.session.page()!)}
        .missing=${this.quoted.isMissing(estimate.quoted, this.session.page()!)}
        .fault=${this.quoted.fault}
        .locale=${view.locale}
        @quote=${this.onQuote}
      ></baysheet-quoted>
      <baysheet-keeping
        exportparts="keeping"
        .keeping=${this.keeping}
        .state=${this.keeping.state}
        .estimate=${estimate}
        .price=${this.session.price}
        .locale=${view.locale}
        @save-file=${() => void this.files.offer()}
        @open-file=${({ detail }: CustomEvent<File>) => void this.files.open(detail)}
      ></baysheet-keeping>
      ${sheetTools(this.session.store!.labels(), view.proposal.unanswered.filter(({ reason }) => reason === 'not-proposed').length, kept, this.tools)}
      <div class="layout">
        <div class="main">
          <section part="rounds" aria-labelledby="rounds-title">
            <div class="band"><h2 id="rounds-title">Test rounds</h2></div>
            <baysheet-rounds .estimate=${estimate} .catalogue=${view.catalogue} .locale=${view.locale} @edit=${this.onPane} @add=${this.findingTools.add}></baysheet-rounds>
          </section>
          <section part="findings" aria-labelledby="findings-title" @paste=${this.intake.onPaste} @dragover=${this.intake.onDragOver} @drop=${this.intake.onDrop}>
            <div class="band"><h2 id="findings-title">Findings</h2>${rowTools('finding', this.findings.selection, this.findingTools)}</div>
            <div class="sheet-of" id="findings"></div>
            <div part="evidence">
              <baysheet-evidence
                .estimate=${estimate}
                .finding=${this.intake.chosen}
                .catalogue=${view.catalogue}
                .photos=${this.photos}
                .locale=${view.locale}
                @edit=${this.onPane}
              ></baysheet-evidence>
              <baysheet-codes .estimate=${estimate} .catalogue=${view.catalogue} @edit=${this.onPane}></baysheet-codes>
            </div>
          </section>
          <section part="lines" aria-labelledby="lines-title">
            <div class="band"><h2 id="lines-title">Lines</h2>${rowTools('line', this.lines.selection, this.lineTools)}
              <button @click=${() => (this.renderRoot.querySelector<LinesTable>('baysheet-lines-table')!.open = true)}>Table …</button>
            </div>
            <div class="sheet-of" id="lines"></div>
          </section>
          <section part="teardown" aria-labelledby="teardown-title">
            <div class="band"><h2 id="teardown-title">Teardown</h2></div>
            <baysheet-teardown
              .priced=${this.later.pictured}
              .locale=${view.locale}
              @baysheet-pick=${(event: CustomEvent<{ line: string }>) => this.lines.focus(`lines:${event.detail.line}`, 'work')}
            ></baysheet-teardown>
          </section>
          ${problemsPanel(
            view.priced.problems,
            (problem) => {
              const place = problemPlace(problem, estimate)!;
              this.lines.focus(place.row, place.column);
            },
            (problem) => problemPlace(problem, estimate) !== null,
          )}
          ${cautionsPanel(view.priced)}
        </div>
        <aside class="side" part="totals" aria-label="Totals">
          <baysheet-totals
            exportparts="notice, sum, discount, tax, total, cash, saved, later"
            .priced=${view.priced}
            .more=${whyIncomplete(estimate)}
            .deferral=${this.later.deferral}
            .locale=${view.locale}
          >
            <section class="authorisation" aria-labelledby="authorisation-title">
              <h2 id="authorisation-title">Authorisation</h2>
              <baysheet-authorisation-desk
                exportparts="standing, difference"
                .view=${view}
                .price=${this.session.price}
                .shop=${this.shop}
                .page=${this.customerPage}
                .script=${this.customerScript}
                .photos=${this.photos}
                @record=${({ detail }: CustomEvent<Recorded>) => this.commit([{ do: 'set-estimate', estimate: detail.estimate }], detail.what)}
                @refuse=${({ detail }: CustomEvent<readonly Problem[]>) => this.documents.refuse('estimate', detail)}
              ></baysheet-authorisation-desk>
            </section>
          </baysheet-totals>
        </aside>
      </div>
      <baysheet-lines-table .view=${view} @edit=${({ detail }: CustomEvent<LinesEdit>) => this.commit(detail.commands, detail.what)}></baysheet-lines-table>
      <baysheet-work-desk
        .view=${view}
        @edit=${({ detail }: CustomEvent<WorkEdit>) => this.commit(detail.commands, detail.what)}
      ></baysheet-work-desk>
      <div class="bar" aria-hidden="true"><span>Total</span><span>${totalText(view)}</span></div>`;
  }
}

function copy<T>(value: T | undefined): T | null {
  return value === undefined ? null : structuredClone(value);
}
