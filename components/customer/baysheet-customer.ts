import { type CSSResult, html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { CustomerCopy } from '../../src/share/customer-copy.js';
import { VERSION } from '../define.js';
import { send } from '../events.js';
import { HostStates } from '../look/host-states.js';
import type { Answering } from './answering.js';
import { type Answer, answerOpen, type Answers, earlierAnswers } from './answers.js';
import { type Budget, budgetPane, NO_BUDGET } from './budget-pane.js';
import type { Person } from './confirm-step.js';
import { CustomerModel, type CustomerView } from './customer-view.js';
import { findingsList } from './findings-list.js';
import { head, phoneLink } from './head.js';
import { forget, keep, recall } from './kept.js';
import { loadRest } from './later.js';
import { lineCard } from './line-card.js';
import { chooseLanguage, type Language, LANGUAGES, loadMessages, messagesOf } from './messages/index.js';
import { openLink, type Refusal, readHash } from './open-link.js';
import { type Reader, readerOf } from './reader.js';
import { customerStyles } from './styles.js';
import { totalsTable } from './totals-table.js';
import { wantedLanguages } from './wanted-languages.js';

type Rest = Awaited<ReturnType<typeof loadRest>>;

/** Stands for: no sealed copy is known. */
const NO_HASH = 'A'.repeat(43);

type Step = 'read' | 'confirm' | 'done';

const NOBODY: Person = { name: '', phone: '', email: '', agreed: false };

/**
 * The customer's estimate: what was found, what each line costs now and later, yes or no line by line, and an answer that
 * is checked before it counts. It needs nothing but the link: no server, no network.
 *
 * Texts are in English, Spanish or French: the `lang` of the element or of what it stands in, else the browser's own;
 * the reader can switch.
 *
 * @fires {CustomEvent<ReplyDetail>} baysheet-reply the customer has confirmed an answer; prevent the default to bring it to the shop yourself
 * @fires {CustomEvent<ProblemDetail>} baysheet-problem the link or the copy cannot be shown
 *
 * @slot header above the estimate
 * @slot terms below it
 *
 * @csspart head shop, vehicle and customer
 * @csspart findings what was found
 * @csspart more that more may be found, as long as the last test round was not clean
 * @csspart work the lines
 * @csspart line one line with its price and its answer
 * @csspart when what a line costs now and later
 * @csspart answer the three choices of a line
 * @csspart totals how the total is made
 * @csspart declined what is left out, struck through
 * @csspart saved what doing the work together saves
 * @csspart budget the ceiling and what fits
 * @csspart bar the total that stays in sight
 * @csspart confirm the step in which the answer is checked
 * @csspart done the answer and the ways to send it
 * @csspart refused why a link is not shown
 *
 * @cssstate refused the link cannot be shown
 * @cssstate answered the customer has confirmed an answer
 *
 * @cssprop --baysheet-font typeface of everything
 * @cssprop --baysheet-text-size size of the text; widths follow it
 * @cssprop --baysheet-ink colour of text
 * @cssprop --baysheet-ink-quiet colour of text that stands back
 * @cssprop --baysheet-paper ground of fields and totals
 * @cssprop --baysheet-ground ground behind all of it
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
 */
export class BaysheetCustomer extends LitElement {
  static readonly version = VERSION;
  static override styles = customerStyles;

  /** The sealed estimate. */
  @property() token = '';
  /** Take the sealed estimate from the page's address: `#e=…`. */
  @property({ type: Boolean, attribute: 'from-hash' }) fromHash = false;
  /** The public keys that the page trusts: JSON Web Keys, as a list, a set (`{ keys }`) or as JSON text. A set may have `shop`. */
  @property() keys: JsonWebKey[] | { keys: JsonWebKey[] } | string = '';
  /** Where to read those keys from. */
  @property({ attribute: 'keys-src' }) keysSrc = '';
  /** Where to POST the answer, as JSON `{ reply, text }`. Without it the customer sends it. */
  @property({ attribute: 'reply-to' }) replyTo = '';
  /** The shop's number, for a link that cannot be opened. */
  @property({ attribute: 'shop-phone' }) shopPhone = '';
  /** With `copy`: the hash of the sealed copy that it is, which the answer names. A link brings its own. */
  @property() hash = NO_HASH;
  /** Language of the texts: `en`, `es`, `fr`. */
  @property() override lang = '';

  @state() private model: CustomerModel | null = null;
  @state() private refusal: Refusal | null = null;
  @state() private opening = false;
  @state() private answers: Answers = {};
  @state() private budget: Budget = NO_BUDGET;
  @state() private step: Step = 'read';
  @state() private person = NOBODY;
  @state() private switched: Language | null = null;
  @state() private announced = '';
  /** What keeps the customer from confirming: lines without an answer, or a part of the page that the network did not bring. */
  @state() private hindrance: 'incomplete' | 'not-loaded' | null = null;

  private readonly states = new HostStates(this);
  private rest: Rest | null = null;
  private answering: Answering | null = null;
  /** Of the link; null where the page has set the copy. */
  private linkHash: string | null = null;
  private attempts = 0;
  /** How often the customer has asked for what fits. */
  private asked = 0;
  /** Texts of a language that are on their way. */
  private coming: Promise<void> | null = null;

  /** What is shown, for hosts that have it at hand without a link; a copy. */
  @property({ attribute: false })
  get copy(): CustomerCopy | null {
    return this.model === null ? null : structuredClone(this.model.copy);
  }
  set copy(value: CustomerCopy | null) {
    this.attempts += 1;
    this.opening = false;
    if (value === null) this.close();
    else this.show(structuredClone(value), null);
  }

  override connectedCallback(): void {
    super.connectedCallback();
    window.addEventListener('hashchange', this.onHash);
    if (this.hasUpdated && this.fromHash) this.onHash();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    window.removeEventListener('hashchange', this.onHash);
  }

  /** Style sheets belong to a document: in another one they are made anew. */
  adoptedCallback(): void {
    const Sheet = this.ownerDocument.defaultView?.CSSStyleSheet;
    if (Sheet === undefined) return;
    const made = BaysheetCustomer.elementStyles.map((style) => {
      const sheet = new Sheet();
      sheet.replaceSync((style as CSSResult).cssText);
      return sheet;
    });
    (this.renderRoot as ShadowRoot).adoptedStyleSheets = made;
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    const sources = ['token', 'fromHash', 'keys', 'keysSrc'] as const;
    if (sources.some((name) => changed.has(name)) && this.link() !== '') void this.open(this.link());
    this.states.set('refused', this.refusal !== null);
    this.states.set('answered', this.step === 'done');
    const language = this.language();
    if (messagesOf(language) === undefined) this.coming = this.fetchLanguage(language);
  }

  /** Nobody is shown a language that they have not asked for, unless theirs cannot be had. */
  private async fetchLanguage(language: Language): Promise<void> {
    const isThere = await loadMessages(language);
    if (!isThere) this.switched = 'en';
    this.requestUpdate();
  }

  protected override async getUpdateComplete(): Promise<boolean> {
    await super.getUpdateComplete();
    await this.coming;
    return super.getUpdateComplete();
  }

  private link(): string {
    return this.fromHash ? readHash(location.hash) : this.token;
  }

  private readonly onHash = (): void => {
    if (this.fromHash && this.link() !== this.opened) void this.open(this.link());
  };

  private opened = '';

  private async open(token: string): Promise<void> {
    this.opened = token;
    const attempt = (this.attempts += 1);
    if (token === '') return this.close();
    this.opening = true;
    const [result] = await Promise.all([openLink(token, this.keys, this.keysSrc), this.coming]);
    // Opening was work enough for one turn of the page.
    await new Promise((then) => setTimeout(then));
    if (attempt !== this.attempts) return;
    this.opening = false;
    if (result.ok) this.show(result.copy, result.hash);
    else this.refuse(result);
  }

  private show(copy: CustomerCopy, hash: string | null): void {
    try {
      const model = new CustomerModel(copy);
      if (!model.usable) return this.refuse({ kind: 'pricing', code: 'pricing', message: '' });
      this.close();
      this.model = model;
      this.linkHash = hash;
      this.begin(copy);
      void this.updateComplete.then(() => whenIdle(() => this.needRest()));
    } catch (fault) {
      this.refuseAsBroken(fault);
    }
  }

  /** With what was decided before the link was made, and what was answered before the page was loaded again. */
  private begin({ estimate }: CustomerCopy): void {
    const lines = estimate.lines.filter((line) => line.kind !== 'note');
    this.answers = earlierAnswers(lines);
    this.person = NOBODY;
    const kept = this.isKnown()
      ? recall(
          this.copyHash(),
          lines.map(({ id }) => id),
        )
      : null;
    if (kept === null) return;
    const { answers, ceiling, ...person } = kept;
    this.answers = { ...this.answers, ...answers };
    this.person = { ...person, agreed: false };
    this.budget = { ...NO_BUDGET, typed: ceiling };
  }

  private copyHash(): string {
    return this.linkHash ?? this.hash;
  }

  private isKnown(): boolean {
    return this.copyHash() !== NO_HASH;
  }

  private keep(): void {
    const { name, phone, email } = this.person;
    if (this.isKnown()) keep(this.copyHash(), { answers: this.answers, name, phone, email, ceiling: this.budget.typed });
  }

  /** Null where the network does not bring it; asked again, it is tried again. */
  private async needRest(): Promise<Rest | null> {
    this.rest ??= await loadRest().catch(() => null);
    return this.rest;
  }

  private close(): void {
    this.model = null;
    this.refusal = null;
    this.budget = NO_BUDGET;
    this.asked += 1;
    this.step = 'read';
    this.answering = null;
    this.hindrance = null;
  }

  private refuse(refusal: Refusal): void {
    this.close();
    this.refusal = refusal;
    const message = refusal.message || this.reader().m.refusals[refusal.kind];
    send(this, 'baysheet-problem', { source: 'link', problems: [{ severity: 'error', code: refusal.code, path: '', message }] });
  }

  /** A shop can sign what is no estimate; nobody is shown half of one. */
  private refuseAsBroken(fault: unknown): void {
    this.refuse({ kind: 'pricing', code: 'copy', message: fault instanceof Error ? fault.message : String(fault) });
  }

  private language(): Language {
    return this.switched ?? chooseLanguage(wantedLanguages(this, this.lang));
  }

  private reader(): Reader {
    const rates = this.model?.copy.rates;
    return readerOf(this.language(), rates?.locale ?? 'en', rates?.currency ?? 'XXX');
  }

  private onAnswer(answers: Answers): void {
    this.answers = answers;
    if (this.model!.view(answers).open.length === 0) this.hindrance = null;
    this.keep();
    this.announce();
  }

  private announce(): void {
    const { m, money } = this.reader();
    const { priced, open } = this.model!.view(this.answers);
    this.announced = m.announce(money(priced.totals.total), open.length === 0 ? m.allAnswered : m.open(open.length));
  }

  private async onBudget(typed: string): Promise<void> {
    const asked = (this.asked += 1);
    const isWanted = (): boolean => asked === this.asked;
    const { copy } = this.model!;
    this.budget = { typed, state: 'looking', fit: null };
    this.keep();
    const rest = await this.needRest();
    if (!isWanted()) return;
    if (rest === null) {
      this.budget = { typed, state: 'not-loaded', fit: null };
      return;
    }
    try {
      const fit = await rest.fit(copy, this.answers, typed, this.reader().locale, isWanted);
      if (isWanted()) this.budget = { typed, state: fit === null ? 'not-a-figure' : 'proposed', fit };
    } catch (fault) {
      if (isWanted()) this.refuseAsBroken(fault);
    }
  }

  private onTake(): void {
    const { fit, typed } = this.budget;
    const putOff = fit!.left.filter((id) => this.answers[id] !== 'no');
    const left = Object.fromEntries(putOff.map((id): [string, Answer] => [id, 'later']));
    const chosen = Object.fromEntries(fit!.chosen.map((id): [string, Answer] => [id, 'yes']));
    this.budget = { typed, state: 'taken', fit: null };
    this.onAnswer({ ...this.answers, ...left, ...chosen });
  }

  private onLeave(): void {
    this.budget = NO_BUDGET;
    this.keep();
  }

  private async go(step: Step): Promise<void> {
    this.step = step;
    await this.paint();
    const title = this.renderRoot.querySelector<HTMLElement>('#title');
    title?.focus({ preventScroll: true });
    this.scrollIntoView({ block: 'start' });
  }

  private async onCheck(view: CustomerView): Promise<void> {
    const first = view.open[0];
    if (first === undefined) return this.toConfirm();
    this.hindrance = 'incomplete';
    this.announced = this.reader().m.toAnswer(view.open.length);
    await this.updateComplete;
    const card = this.renderRoot.querySelector(`#line-${CSS.escape(first)}`);
    card?.scrollIntoView({ block: 'center' });
    card?.querySelector<HTMLInputElement>('.answer input')?.focus({ preventScroll: true });
  }

  private async toConfirm(): Promise<void> {
    const rest = await this.needRest();
    this.hindrance = rest === null ? 'not-loaded' : null;
    if (rest === null) return;
    this.answering ??= new rest.Answering({
      person: () => this.person,
      setPerson: (person) => this.setPerson(person),
      hash: () => this.copyHash(),
      replyTo: () => this.replyTo,
      root: () => this.renderRoot,
      dispatch: (event) => this.dispatchEvent(event),
      paint: () => this.paint(),
      go: (step) => this.go(step),
      onSent: () => forget(this.copyHash()),
      onBroken: (fault) => this.refuseAsBroken(fault),
    });
    await this.go('confirm');
  }

  private setPerson(person: Person): void {
    this.person = person;
    this.keep();
  }

  private paint(): Promise<boolean> {
    this.requestUpdate();
    return this.updateComplete;
  }

  protected override render(): TemplateResult {
    try {
      return this.renderSheet(this.reader());
    } catch (fault) {
      // Not while it renders.
      void Promise.resolve().then(() => this.refuseAsBroken(fault));
      return html``;
    }
  }

  private renderSheet(reader: Reader): TemplateResult {
    const isReadable = messagesOf(reader.language) !== undefined;
    return html`<div class="sheet" lang=${reader.language} aria-busy=${!isReadable}>
      <slot name="header"></slot>
      ${isReadable ? this.renderPage(reader) : nothing}
      <slot name="terms"></slot>
    </div>`;
  }

  private renderPage(reader: Reader): TemplateResult {
    const view = this.model?.view(this.answers) ?? null;
    return html`${this.renderLanguages(reader)} ${view === null ? this.renderNothing(reader) : this.renderStep(view, reader)}
      <p class="unseen" role="status">${this.announced}</p>`;
  }

  private renderLanguages({ language, m }: Reader): TemplateResult {
    return html`<nav class="languages screen-only" aria-label=${m.language}>
      ${(Object.keys(LANGUAGES) as Language[]).map(
        (each) =>
          html`<button type="button" lang=${each} aria-pressed=${each === language} @click=${() => (this.switched = each)}>${LANGUAGES[each]}</button>`,
      )}
    </nav>`;
  }

  private renderNothing({ m }: Reader): TemplateResult {
    const { refusal, shopPhone } = this;
    if (this.opening) return html`<p role="status">${m.waiting}</p>`;
    if (refusal === null) return html`<p>${m.empty}</p>`;
    return html`<section class="refused" part="refused" role="alert">
      <h2>${m.refused}</h2>
      <p>${m.refusals[refusal.kind]}</p>
      <p>${m.refusedHelp} ${shopPhone === '' ? nothing : phoneLink(shopPhone, m.call(shopPhone))}</p>
    </section>`;
  }

  private renderStep(view: CustomerView, reader: Reader): TemplateResult {
    const { terms } = view.copy.shop;
    return html`${this.step === 'read' ? this.renderRead(view, reader) : this.answering![this.step](view, reader)}
    ${terms === '' ? nothing : html`<footer class="terms quiet">${reader.own(terms)}</footer>`}
    ${this.step === 'read' ? this.renderBar(view, reader) : nothing}`;
  }

  private renderRead(view: CustomerView, reader: Reader): TemplateResult {
    const { m } = reader;
    return html`<div class="read">
      <div class="main">
        ${head(view, reader)} ${findingsList(view, reader)}
        <section class="work" part="work" aria-labelledby="work">
          <h3 id="work">${m.work}</h3>
          <p class="quiet hours">${m.hours}</p>
          ${view.lines.map((item) => lineCard(item, view, reader, (answer) => this.onAnswer({ ...this.answers, [item.line.id]: answer })))}
          ${view.notes.map((note) => html`<p class="quiet">${reader.own(note)}</p>`)}
          ${view.open.length === 0 ? nothing : this.renderAnswerAll(view, reader)}
        </section>
      </div>
      <div class="side">
        ${totalsTable(view, reader)}
        ${budgetPane(this.budget, view, reader, this.renderProposal(view, reader), (typed) => void this.onBudget(typed))}
        <p class="screen-only"><button type="button" @click=${() => window.print()}>${m.print}</button></p>
      </div>
    </div>`;
  }

  private renderProposal(view: CustomerView, reader: Reader): TemplateResult | typeof nothing {
    const { fit } = this.budget;
    return fit === null
      ? nothing
      : this.rest!.budgetProposal(fit, view, reader, { take: () => this.onTake(), leave: () => this.onLeave() });
  }

  private renderAnswerAll(view: CustomerView, { m }: Reader): TemplateResult {
    const all = (answer: Answer) => () => this.onAnswer(answerOpen(this.answers, view.open, answer));
    return html`<p class="buttons screen-only">
      <button type="button" @click=${all('yes')}>${m.allYes}</button>
      <button type="button" @click=${all('later')}>${m.allLater}</button>
    </p>`;
  }

  private renderBar(view: CustomerView, { m, money }: Reader): TemplateResult {
    const rest = view.open.length === 0 ? m.allAnswered : m.open(view.open.length);
    return html`<div class="bar" part="bar">
      <p>
        <span class="sum">${m.total} ${money(view.priced.totals.total)}</span>
        ${
          this.hindrance === null
            ? html`<span class="quiet">${rest}</span>`
            : html`<span class="fault">${this.hindrance === 'incomplete' ? m.toAnswer(view.open.length) : m.notLoaded}</span>`
        }
      </p>
      <button type="button" class="main" @click=${() => this.onCheck(view)}>${m.toConfirm}</button>
    </div>`;
  }
}

/** When the browser has nothing else to do; Safari does not say when that is. */
function whenIdle(work: () => unknown): void {
  if (typeof requestIdleCallback === 'function') requestIdleCallback(work);
  else setTimeout(work, 1000);
}
