import { html, nothing, type TemplateResult } from 'lit';
import { consentSentence } from './consent.js';
import { type CustomerView, titleOf, unsafeLeft } from './customer-view.js';
import { moreMayBeFound, unsafeCaution } from './findings-list.js';
import type { FullReader } from './full-reader.js';
import type { AllMessages } from './messages/en-answer.js';
import { totalsTable } from './totals-table.js';

/** What the customer has filled in. */
export interface Person {
  readonly name: string;
  readonly phone: string;
  readonly email: string;
  readonly agreed: boolean;
}

export type PersonField = 'name' | 'phone' | 'email' | 'agreed';
/** What is wrong, by field. */
export type PersonFaults = Partial<Record<PersonField, string>>;

/** A name, a way to be reached and the tick are needed; a number or address that cannot be one is told. */
export function personFaults(person: Person, m: AllMessages): PersonFaults {
  const faults: PersonFaults = {};
  const [phone, email] = [person.phone.trim(), person.email.trim()];
  if (!/\p{L}/u.test(person.name)) faults.name = m.needName;
  if (phone === '' && email === '') faults.phone = m.needContact;
  if (phone !== '' && phone.replace(/\D/g, '').length < 5) faults.phone = m.badPhone;
  if (email !== '' && !/^[^\s@]+@[^\s@]+\.[^\s@]+$/.test(email)) faults.email = m.badEmail;
  if (!person.agreed) faults.agreed = m.needConsent;
  return faults;
}

export interface ConfirmActions {
  fill(field: PersonField, value: string | boolean): void;
  change(): void;
  send(): void;
}

/** Everything once more, to be checked and changed before it counts (WCAG 3.3.4). */
export function confirmStep(
  view: CustomerView,
  reader: FullReader,
  person: Person,
  faults: PersonFaults,
  sending: boolean,
  actions: ConfirmActions,
): TemplateResult {
  const { m } = reader;
  const { authorisation } = view.copy.rates;
  const submit = (event: Event): void => {
    event.preventDefault();
    actions.send();
  };
  const field = (
    name: 'name' | 'phone' | 'email',
    label: string,
    type: string,
    autocomplete: string,
  ): TemplateResult => html`<div class="field">
    <label for=${name}>${label}</label>
    <input
      id=${name}
      type=${type}
      autocomplete=${autocomplete}
      maxlength="120"
      .value=${person[name]}
      aria-invalid=${faults[name] !== undefined}
      aria-describedby=${faults[name] === undefined ? nothing : `${name}-fault`}
      @input=${(event: Event) => actions.fill(name, (event.target as HTMLInputElement).value)}
    />
    ${fault(name, faults)}
  </div>`;

  return html`<div class="confirm" part="confirm">
    <h2 id="title" tabindex="-1">${m.confirm}</h2>
    <p class="quiet">${m.estimate(view.copy.estimate.number)} · ${m.nothingYet}</p>
    ${answered(view, reader)}
    <p class="buttons screen-only"><button type="button" @click=${actions.change}>${m.change}</button></p>
    ${totalsTable(view, reader)} ${moreMayBeFound(view, reader)}
    <form novalidate @submit=${submit}>
      <h3>${m.you}</h3>
      ${field('name', m.name, 'text', 'name')}
      <p class="quiet">${m.reach}</p>
      ${field('phone', m.phone, 'tel', 'tel')} ${field('email', m.email, 'email', 'email')}
      <label class="agree">
        <input
          id="agreed"
          type="checkbox"
          .checked=${person.agreed}
          aria-invalid=${faults.agreed !== undefined}
          aria-describedby=${faults.agreed === undefined ? nothing : 'agreed-fault'}
          @change=${(event: Event) => actions.fill('agreed', (event.target as HTMLInputElement).checked)}
        />
        <span>${consentSentence(view, reader)}</span>
      </label>
      ${fault('agreed', faults)}
      ${authorisation === null ? nothing : html`<p class="quiet">${m.ruleNote(authorisation.source)}</p>`}
      <p class="buttons screen-only"><button class="main" ?disabled=${sending}>${sending ? m.sending : m.send}</button></p>
    </form>
  </div>`;
}

function fault(name: PersonField, faults: PersonFaults): TemplateResult | typeof nothing {
  return faults[name] === undefined ? nothing : html`<p class="fault" id="${name}-fault">${faults[name]}</p>`;
}

/** What is to be done, and what is not, with the caution that goes with it. */
export function answered(view: CustomerView, reader: FullReader): TemplateResult {
  const { m } = reader;
  const list = (title: string, answer: 'yes' | 'no' | 'later'): TemplateResult | typeof nothing => {
    const some = view.lines.filter((item) => item.answer === answer);
    if (some.length === 0) return nothing;
    const words = (text: string | TemplateResult): TemplateResult => (answer === 'yes' ? html`${text}` : html`<s>${text}</s>`);
    return html`<h3>${title}</h3>
      <ul class="answered">
        ${some.map((item) => html`<li><span>${words(reader.own(titleOf(item)))}</span> <span class="figure">${words(reader.money(answer === 'yes' ? item.total : item.cost.now))}</span></li>`)}
      </ul>`;
  };
  const unsafe = unsafeLeft(view);
  return html`${list(m.saidYes, 'yes')} ${list(m.saidNo, 'no')} ${list(m.saidLater, 'later')}
  ${
    unsafe.length === 0
      ? nothing
      : html`<p><strong>${m.unsafeIsOut}</strong></p>
        <ul class="plain">${unsafe.map((item) => html`<li>${reader.own(titleOf(item))}</li>`)}</ul>
        ${unsafeCaution(view, reader)}`
  }`;
}
