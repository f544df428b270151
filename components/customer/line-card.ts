import { html, nothing, type TemplateResult } from 'lit';
import { decimal, type DecimalString, sum } from '../../src/number/decimal.js';
import { fractionDigits } from '../../src/number/money.js';
import type { PricedCharge } from '../../src/pricing/priced-estimate.js';
import { type Answer, ANSWERS } from './answers.js';
import { type CustomerView, isZero, type LineView, titleOf } from './customer-view.js';
import { findingTitle } from './findings-list.js';
import type { Reader } from './reader.js';

const KINDS = ['labour', 'part', 'core', 'sublet', 'fee'] as const;

/** One line: what it is, what it mends, what it costs in labour, parts and tax, now or later, and the customer's answer. */
export function lineCard(item: LineView, view: CustomerView, reader: Reader, onAnswer: (answer: Answer) => void): TemplateResult {
  const { m } = reader;
  const { line, urgency, answer } = item;
  const left = answer === 'no' || answer === 'later';
  return html`<article class="line ${left ? 'left' : ''}" part="line" id="line-${line.id}" aria-labelledby="name-${line.id}">
    ${urgency === null ? nothing : html`<p class="urgency ${urgency}"><span>${m.urgency[urgency]}</span></p>`}
    <h4 class="line-title" id="name-${line.id}">${left ? html`<s>${reader.own(titleOf(item))}</s>` : reader.own(titleOf(item))}</h4>
    ${
      item.findings.length === 0
        ? nothing
        : html`<p class="quiet">${m.mends} ${reader.own(item.findings.map((finding) => findingTitle(finding, view)).join('; '))}</p>`
    }
    ${itemised(item, view, reader)} ${nowOrLater(item, reader)} ${answerGroup(item, reader, onAnswer)}
    ${line.decision === 'approved' ? html`<p class="quiet">${m.earlier}</p>` : nothing}
    ${left && urgency === 'unsafe' ? html`<p class="caution"><strong>${m.unsafeLeft}</strong> ${m.unsafeCaution}</p>` : nothing}
  </article>`;
}

/** Labour, parts and whatever else the line has, each with what it is made of; then tax, then the sum. */
function itemised(item: LineView, view: CustomerView, reader: Reader): TemplateResult {
  const { m } = reader;
  const isLeft = item.answer === 'no' || item.answer === 'later';
  const amount = (figure: string): TemplateResult =>
    html`<span class="figure">${isLeft ? html`<s>${reader.money(figure)}</s>` : reader.money(figure)}</span>`;
  const discount = addUp(item.charges.map((charge) => charge.discount));
  return html`<ul class="items">
    ${KINDS.map((kind) => {
      const some = item.charges.filter((charge) => charge.kind === kind);
      if (some.length === 0) return nothing;
      return html`<li>
        <span>${m.kinds[kind]}</span> ${amount(addUp(some.map((charge) => charge.amount)))}
        ${
          kind === 'labour'
            ? some.map((charge) => html`<p class="note">${labourNote(charge, item, reader)}</p>`)
            : html`<ul class="note">${some.map((charge) => html`<li><span>${chargeTitle(charge, reader)}</span> ${some.length === 1 ? nothing : amount(charge.amount)}</li>`)}</ul>`
        }
      </li>`;
    })}
    ${item.includedIn === null ? nothing : html`<li>${m.includedIn(item.includedIn)}</li>`}
    ${isZero(discount) ? nothing : html`<li><span>${m.discount}</span> ${amount(negative(discount))}</li>`}
    ${isZero(item.tax) ? nothing : html`<li><span>${view.priced.pricesIncludeTax ? m.taxInside : m.tax}</span> ${amount(item.tax)}</li>`}
    <li class="sum"><span>${m.line}</span> ${amount(item.total)}</li>
  </ul>`;
}

/** `6 × Water pump bolt · HV-2022-08 · new · $2.40 each`, with what the law of many places wants to see of a part. */
function chargeTitle({ kind, title, qty, unit, part }: PricedCharge, reader: Reader): TemplateResult {
  const { m } = reader;
  if (kind === 'sublet' || kind === 'fee') return reader.own(title);
  const more = part === undefined || kind === 'core' ? [] : [part.number, m.unit[part.condition]].filter(Boolean);
  const each = qty === '1' ? [] : [m.each(reader.money(unit))];
  return html`${qty === '1' ? nothing : `${qty} × `}${reader.own(title)}${[...more, ...each].map((words) => html` · <span class="number">${words}</span>`)}`;
}

/** Hours and rate, and why the hours are fewer than those of the guide. */
function labourNote(charge: PricedCharge, { line, priced }: LineView, reader: Reader): string {
  const { m } = reader;
  const extra =
    line.kind === 'operation' && line.extraHours !== null && !isZero(line.extraHours.hours)
      ? m.extraHours(reader.hours(line.extraHours.hours))
      : '';
  const shared = isZero(priced.sharedHours) ? '' : m.shared(reader.hours(priced.bookHours), reader.hours(priced.sharedHours));
  return [`${reader.hours(charge.qty)} × ${reader.money(charge.unit)}`, extra, shared].filter(Boolean).join(' · ');
}

/** Money, in the digits that it has. */
function addUp(amounts: readonly DecimalString[]): DecimalString {
  return sum(amounts.map(decimal)).toFixed(fractionDigits(amounts[0] ?? '0'));
}

/** Rule 14 in words; nothing where now and later are the same. */
function nowOrLater({ cost, sharedSteps, sharedWork }: LineView, reader: Reader): TemplateResult | typeof nothing {
  const { m } = reader;
  if (isZero(cost.extra)) return nothing;
  const isMore = !cost.extra.startsWith('-');
  const why = !isMore
    ? ''
    : sharedSteps.length > 0
      ? m.because(sharedSteps.join('; '))
      : sharedWork.length > 0
        ? m.becauseWork(sharedWork.join('; '))
        : '';
  const difference = isMore ? m.more(reader.money(cost.extra)) : m.less(reader.money(negative(cost.extra)));
  return html`<dl class="when" part="when">
    <div><dt>${m.now}</dt><dd class="figure">${reader.money(cost.now)}</dd></div>
    <div><dt>${m.later}</dt><dd class="figure">${reader.money(cost.later)}</dd></div>
    <div class="why"><dt class="unseen">${m.wait}</dt><dd><strong>${difference}</strong>${why === '' ? nothing : html`, ${why}`}</dd></div>
  </dl>`;
}

function answerGroup({ line, answer, ...rest }: LineView, reader: Reader, onAnswer: (answer: Answer) => void): TemplateResult {
  const { m } = reader;
  const words: Readonly<Record<Answer, string>> = { yes: m.yes, no: m.no, later: m.wait };
  return html`<fieldset class="answer" part="answer">
    <legend class="unseen">${m.question(titleOf({ line, answer, ...rest }))}</legend>
    ${ANSWERS.map(
      (each) => html`<label class=${answer === each ? 'chosen' : ''}>
        <input type="radio" name="answer-${line.id}" value=${each} .checked=${answer === each} @change=${() => onAnswer(each)} />
        <span>${words[each]}</span>
      </label>`,
    )}
  </fieldset>`;
}

export function negative(figure: string): string {
  return figure.startsWith('-') ? figure.slice(1) : `-${figure}`;
}
