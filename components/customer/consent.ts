import type { DecimalString } from '../../src/number/decimal.js';
import { fractionDigits } from '../../src/number/money.js';
import type { AuthorisationRule } from '../../src/documents/rates.js';
import { needsConsent } from '../../src/consent/headroom.js';
import type { CustomerView } from './customer-view.js';
import { isZero } from './customer-view.js';
import type { FullReader } from './full-reader.js';

/** The sentence that the customer agrees to: what is authorised, for how much, and what the shop may add without asking. */
export function consentSentence(view: CustomerView, reader: FullReader): string {
  const { m } = reader;
  const { shop, rates } = view.copy;
  const name = shop.name === '' ? m.shop : shop.name;
  if (!view.lines.some(({ answer }) => answer === 'yes')) return m.consentNone(name);
  return `${m.consent(name, reader.money(view.priced.totals.total))} ${headroomSentence(view, rates.authorisation, reader)}`;
}

function headroomSentence(view: CustomerView, rule: AuthorisationRule | null, reader: FullReader): string {
  const { m } = reader;
  const { price } = needsConsent(view.priced, '0', rule);
  const free = needsConsent(view.priced, price, rule).headroom;
  if (rule === null || isZero(free)) return m.noHeadroom;
  const amount = reader.money(free);
  return m.headroom(rule.base === 'before-tax' ? `${amount} (${m.beforeTax})` : amount, ruleInWords(rule, free, reader));
}

/** `10% or $25.00, whichever is less`; only the parts of the rule that count. */
function ruleInWords(rule: AuthorisationRule, like: DecimalString, reader: FullReader): string {
  const { m } = reader;
  const money = (figure: DecimalString): string => reader.money(inDigitsOf(figure, like));
  const percent = rule.percent === null ? null : reader.percent(rule.percent);
  const amount = rule.amount === null ? null : money(rule.amount);
  const words =
    rule.pick === 'percent'
      ? percent
      : rule.pick === 'amount'
        ? amount
        : percent === null || amount === null
          ? (percent ?? amount)
          : m.ruleBoth[rule.pick](percent, amount);
  const base = words ?? '';
  return rule.cap === null ? base : m.ruleCap(base, money(rule.cap));
}

/** A figure of a document is written as it was typed, "25"; beside money it reads better as money: "25.00". */
function inDigitsOf(figure: DecimalString, like: DecimalString): DecimalString {
  const missing = fractionDigits(like) - fractionDigits(figure);
  if (missing <= 0) return figure;
  return `${figure}${figure.includes('.') ? '' : '.'}${'0'.repeat(missing)}`;
}
