import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Decision } from '../../src/documents/lines.js';
import type { DecimalString } from '../../src/number/decimal.js';
import { readNumber } from '../../src/number/locale-parse.js';
import { type BudgetFit, fitToBudget } from '../../src/share/budget.js';
import type { CustomerCopy } from '../../src/share/customer-copy.js';
import type { Reply } from '../../src/share/reply.js';
import { sealReply } from '../../src/share/reply-text.js';
import { VERSION } from '../define.js';
import { send } from '../events.js';
import { type Answer, answerOpen, type Answers, decisionsOf, earlierAnswers } from './answers.js';
import { type Budget, budgetPane, NO_BUDGET } from './budget-pane.js';
import { confirmStep, type Person, type PersonFaults, personFaults } from './confirm-step.js';
import { consentSentence } from './consent.js';
import { CustomerModel, type CustomerView } from './customer-view.js';
import type { ReplyDetail } from './events.js';
import { findingsList } from './findings-list.js';
import { head, phoneLink } from './head.js';
import { lineCard } from './line-card.js';
import { chooseLanguage, type Language, LANGUAGES } from './messages/index.js';
import { openLink, type Refusal, readHash } from './open-link.js';
import { postReply } from './post-reply.js';
import { type Reader, readerOf } from './reader.js';
import { type Sent, messageText, sendPane } from './send-pane.js';
import { customerStyles } from './styles.js';
import { totalsTable } from './totals-table.js';
import { wantedLanguages } from './wanted-languages.js';

/** Stands for: no sealed copy is known. */
const NO_HASH = 'A'.repeat(43);

type Step = 'read' | 'confirm' | 'done';

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
 */
export class BaysheetCustomer extends LitElement {
  static readonly version = VERSION;
  static override styles = customerStyles;

  /** The sealed estimate. */
  @property() token = '';
  /** Take the sealed estimate from the page's address: `#e=…`. */
  @property({ type: Boolean, attribute: 'from-hash' }) fromHash = false;
  /** The public keys that the page trusts: JSON Web Keys, as a list, a set (`{ keys }`) or as JSON text. */
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
  @state() private person: Person = { name: '', phone: '', email: '', agreed: false };
  @state() private faults: PersonFaults = {};
  @state() private sending = false;
  @state() private sent: Sent | null = null;
  @state() private switched: Language | null = null;
  @state() private announced = '';
  /** The customer wanted to confirm while lines were without an answer. */
  @state() private isIncomplete = false;

  private reply: Reply | null = null;
  /** Of the link; null where the page has set the copy. */
  private linkHash: string | null = null;
  private attempts = 0;

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

  protected override willUpdate(changed: PropertyValues<this>): void {
    const sources = ['token', 'fromHash', 'keys', 'keysSrc'] as const;
    if (sources.some((name) => changed.has(name)) && this.link() !== '') void this.open(this.link());
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
    const result = await openLink(token, this.keys, this.keysSrc);
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
      this.answers = earlierAnswers(copy.estimate.lines.filter((line) => line.kind !== 'note'));
    } catch (fault) {
      this.refuse({ kind: 'pricing', code: 'copy', message: fault instanceof Error ? fault.message : String(fault) });
    }
  }

  private close(): void {
    this.model = null;
    this.refusal = null;
    this.budget = NO_BUDGET;
    this.step = 'read';
    this.sent = null;
    this.isIncomplete = false;
  }

  private refuse(refusal: Refusal): void {
    this.close();
    this.refusal = refusal;
    const message = refusal.message === '' ? this.reader().m.refusals[refusal.kind] : refusal.message;
    send(this, 'baysheet-problem', { source: 'link', problems: [{ severity: 'error', code: refusal.code, path: '', message }] });
  }

  private reader(): Reader {
    const language = this.switched ?? chooseLanguage(wantedLanguages(this, this.lang));
    const rates = this.model?.copy.rates;
    return readerOf(language, rates?.locale ?? 'en', rates?.currency ?? 'XXX');
  }

  private onAnswer(answers: Answers): void {
    this.answers = answers;
    this.isIncomplete &&= this.model!.view(answers).open.length > 0;
    this.announce();
  }

  private announce(): void {
    const { m, money } = this.reader();
    const { priced, open } = this.model!.view(this.answers);
    this.announced = m.announce(money(priced.totals.total), open.length === 0 ? m.allAnswered : m.open(open.length));
  }

  private onBudget(typed: string): void {
    const figure = readNumber(typed, this.reader().locale);
    if (!figure.ok || figure.value.startsWith('-')) this.budget = { typed, state: 'not-a-figure', fit: null };
    else this.budget = { typed, state: 'proposed', fit: this.fit(figure.value) };
  }

  /** What was agreed to earlier stays; what was said no to, and what was put off before the link was made, does not come back. */
  private fit(ceiling: DecimalString): BudgetFit {
    const { estimate } = this.model!.copy;
    const ids = (wanted: (answer: Answer | undefined, earlier: Decision) => boolean): string[] =>
      estimate.lines.filter(({ id, decision }) => wanted(this.answers[id], decision)).map(({ id }) => id);
    return fitToBudget(this.model!.copy, ceiling, {
      keep: ids((answer, earlier) => answer === 'yes' && earlier === 'approved'),
      among: ids((answer, earlier) => answer !== 'no' && !(answer === 'later' && earlier === 'deferred')),
    });
  }

  private onTake(): void {
    const { fit, typed } = this.budget;
    const putOff = fit!.left.filter((id) => this.answers[id] !== 'no');
    const left = Object.fromEntries(putOff.map((id): [string, Answer] => [id, 'later']));
    const chosen = Object.fromEntries(fit!.chosen.map((id): [string, Answer] => [id, 'yes']));
    this.budget = { typed, state: 'taken', fit: null };
    this.onAnswer({ ...this.answers, ...left, ...chosen });
  }

  private async go(step: Step): Promise<void> {
    this.step = step;
    await this.updateComplete;
    const title = this.renderRoot.querySelector<HTMLElement>('#title');
    title?.focus({ preventScroll: true });
    this.scrollIntoView({ block: 'start' });
  }

  private async onCheck(view: CustomerView): Promise<void> {
    const first = view.open[0];
    if (first === undefined) return this.go('confirm');
    this.isIncomplete = true;
    this.announced = this.reader().m.toAnswer(view.open.length);
    await this.updateComplete;
    const card = this.renderRoot.querySelector(`#line-${CSS.escape(first)}`);
    card?.scrollIntoView({ block: 'center' });
    card?.querySelector<HTMLInputElement>('.answer input')?.focus({ preventScroll: true });
  }

  private async onConfirm(view: CustomerView, reader: Reader): Promise<void> {
    this.faults = personFaults(this.person, reader.m);
    if (Object.keys(this.faults).length > 0) {
      await this.updateComplete;
      this.renderRoot.querySelector<HTMLElement>('form [aria-invalid="true"]')?.focus();
      return;
    }
    const { estimate } = view.copy;
    const { name, phone, email } = this.person;
    const contact = phone.trim() !== '' ? { kind: 'phone' as const, value: plain(phone) } : { kind: 'email' as const, value: plain(email) };
    this.reply = {
      estimate: estimate.id,
      revision: estimate.revision,
      hash: this.linkHash ?? this.hash,
      at: new Date().toISOString(),
      name: plain(name),
      contact,
      decisions: decisionsOf(view.answers),
      total: view.priced.totals.total,
      currency: view.priced.currency,
      locale: reader.locale,
      consent: plain(consentSentence(view, reader)),
    };
    await this.deliver(await sealReply(this.reply));
  }

  private async deliver(text: string): Promise<void> {
    const detail: ReplyDetail = { reply: structuredClone(this.reply!), text };
    const event = new CustomEvent('baysheet-reply', { detail, bubbles: true, composed: true, cancelable: true });
    const isTaken = !this.dispatchEvent(event);
    this.sending = true;
    const state = isTaken ? 'handed' : this.replyTo === '' ? 'own' : (await postReply(this.replyTo, detail)) ? 'handed' : 'failed';
    this.sending = false;
    this.sent = { text, state, copied: 'not', qr: null };
    await this.go('done');
  }

  private async onCopy(): Promise<void> {
    const copied = await navigator.clipboard?.writeText(this.sent!.text).then(() => true, () => false);
    this.sent = { ...this.sent!, copied: copied === true ? 'yes' : 'failed' };
  }

  private async onQr(): Promise<void> {
    if (this.sent!.qr !== null) {
      this.sent = { ...this.sent!, qr: null };
      return;
    }
    const drawn = await import('./qr.js').then(({ qrPath }) => qrPath(this.sent!.text) ?? 'too-long', () => 'not-loaded' as const);
    this.sent = { ...this.sent!, copied: 'not', qr: drawn };
  }

  protected override render(): TemplateResult {
    const reader = this.reader();
    const view = this.model?.view(this.answers) ?? null;
    return html`<div class="sheet" lang=${reader.language}>
      <slot name="header"></slot>
      ${this.renderLanguages(reader)} ${view === null ? this.renderNothing(reader) : this.renderStep(view, reader)}
      <p class="unseen" role="status">${this.announced}</p>
      <slot name="terms"></slot>
    </div>`;
  }

  private renderLanguages({ language, m }: Reader): TemplateResult {
    return html`<nav class="languages screen-only" aria-label=${m.language}>
      ${(Object.keys(LANGUAGES) as Language[]).map(
        (each) => html`<button type="button" lang=${each} aria-pressed=${each === language} @click=${() => (this.switched = each)}>${LANGUAGES[each]}</button>`,
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
    return html`${this.step === 'read' ? this.renderRead(view, reader) : this.step === 'confirm' ? this.renderConfirm(view, reader) : this.renderDone(view, reader)}
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
        ${budgetPane(this.budget, view, reader, {
          ask: (typed) => this.onBudget(typed),
          take: () => this.onTake(),
          leave: () => (this.budget = NO_BUDGET),
        })}
        <p class="screen-only"><button type="button" @click=${() => window.print()}>${m.print}</button></p>
      </div>
    </div>`;
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
        ${this.isIncomplete ? html`<span class="fault">${m.toAnswer(view.open.length)}</span>` : html`<span class="quiet">${rest}</span>`}
      </p>
      <button type="button" class="main" @click=${() => this.onCheck(view)}>${m.toConfirm}</button>
    </div>`;
  }

  private renderConfirm(view: CustomerView, reader: Reader): TemplateResult {
    return confirmStep(view, reader, this.person, this.faults, this.sending, {
      fill: (field, value) => {
        this.person = { ...this.person, [field]: value };
        if (Object.keys(this.faults).length > 0) this.faults = personFaults(this.person, reader.m);
      },
      change: () => void this.goBack(),
      send: () => void this.onConfirm(view, reader),
    });
  }

  /** What is agreed to may be another sentence afterwards, so it is asked again. */
  private goBack(): Promise<void> {
    this.person = { ...this.person, agreed: false };
    this.faults = {};
    return this.go('read');
  }

  private renderDone(view: CustomerView, reader: Reader): TemplateResult {
    const { sent } = this;
    const message = messageText(sent!.text, view, reader);
    const canShare = typeof navigator.share === 'function';
    return sendPane(sent!, view, reader, canShare, {
      retry: () => void this.deliver(sent!.text),
      share: () => void navigator.share({ title: reader.m.subject(view.copy.estimate.number), text: message }).catch(() => undefined),
      copy: () => void this.onCopy(),
      showQr: () => void this.onQr(),
      change: () => void this.goBack(),
    });
  }
}

/** Without the characters that cannot be seen and would turn the order of others round. */
function plain(words: string): string {
  return words.replace(/[\u0000-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069\ufeff]/g, '').trim();
}
