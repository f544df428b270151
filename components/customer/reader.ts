import { html, type TemplateResult } from 'lit';
import type { DecimalString } from '../../src/number/decimal.js';
import { formatDay, formatHours, formatMoney, formatPercent } from '../look/format.js';
import { en } from './messages/en.js';
import { type Language, localeOf, type Messages, messagesOf } from './messages/index.js';

/** Whoever reads: their language, and how their money, hours and days are written. */
export interface Reader {
  readonly language: Language;
  readonly locale: string;
  readonly m: Messages;
  money(amount: DecimalString): string;
  hours(hours: DecimalString): string;
  percent(percent: DecimalString): string;
  day(moment: string): string;
  /** Words that the shop wrote, in its own language and direction. */
  own(words: string): TemplateResult;
}

/**
 * Texts that have not been loaded are in English.
 *
 * @param shopLocale the rate card's locale: the country of the figures, the language of the shop's words
 */
export function readerOf(language: Language, shopLocale: string, currency: string): Reader {
  const locale = localeOf(language, shopLocale);
  const shopLanguage = shopLocale.split('-')[0]!;
  return {
    language,
    locale,
    m: messagesOf(language) ?? en,
    money: (amount) => formatMoney(amount, currency, locale),
    hours: (hours) => formatHours(hours, locale),
    percent: (percent) => formatPercent(percent, locale),
    day: (moment) => formatDay(moment, locale),
    own: (words) => html`<bdi lang=${shopLanguage}>${words}</bdi>`,
  };
}
