import type { DecimalString } from '../../src/number/decimal.js';

/**
 * Figures as a reader's language writes them. A figure stays the decimal string that the engine gave: `Intl` takes
 * strings digit by digit, and every digit of the string is shown, no more and no fewer, so nothing is rounded again.
 * Text that is not a figure is handed back as it came.
 */

/** A sum may be longer than a single figure of a document; `Intl` shows up to 20 digits after the point everywhere. */
const FIGURE = /^-?\d+(\.\d{1,20})?$/;

/** Making a formatter costs far more than using one, and a sheet shows thousands of cells. */
const formatters = new Map<string, Intl.NumberFormat>();
const locales = new Map<string, string>();

/** An amount of money with its currency: `("1280.00", "USD", "en-US")` → `$1,280.00`. */
export function formatMoney(amount: DecimalString, currency: string, locale: string): string {
  if (!/^[A-Za-z]{3}$/.test(currency)) return `${formatFigure(amount, locale)} ${currency}`.trim();
  return format(amount, locale, `currency ${currency}`, { style: 'currency', currency });
}

/** Hours with the symbol of the unit, which is the same in every language: `("0.6", "de")` → `0,6 h`. */
export function formatHours(hours: DecimalString, locale: string): string {
  return `${formatFigure(hours, locale)}\u00a0h`;
}

/** A percentage that is already in hundredths: `("4.25", "en")` → `4.25%`. */
export function formatPercent(percent: DecimalString, locale: string): string {
  return format(percent, locale, 'percent', { style: 'unit', unit: 'percent', unitDisplay: 'short' });
}

/** A plain figure: `("1234.50", "de")` → `1.234,50`. */
export function formatFigure(figure: DecimalString, locale: string): string {
  return format(figure, locale, 'figure', {});
}

/** The day of a moment in ISO 8601, where the reader is: `("2026-03-02T14:05:00Z", "en-GB")` → `2 Mar 2026`. */
export function formatDay(moment: string, locale: string): string {
  const date = new Date(moment);
  if (moment === '' || Number.isNaN(date.getTime())) return moment;
  return new Intl.DateTimeFormat(usableLocale(locale), { dateStyle: 'medium' }).format(date);
}

/** A day of the calendar, the same wherever the reader is: `("2026-03-02", "en-GB")` → `2 Mar 2026`. */
export function formatDate(day: string, locale: string): string {
  const date = new Date(day);
  if (day === '' || Number.isNaN(date.getTime())) return day;
  return new Intl.DateTimeFormat(usableLocale(locale), { dateStyle: 'medium', timeZone: 'UTC' }).format(date);
}

/** Today where the reader is, by ISO 8601. */
export function today(now = new Date()): string {
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}

/** The locale itself, or `en` for one that is misspelt or that this browser does not know. */
export function usableLocale(locale: string): string {
  let usable = locales.get(locale);
  if (usable === undefined) {
    usable = isKnown(locale) ? locale : 'en';
    locales.set(locale, usable);
  }
  return usable;
}

function isKnown(locale: string): boolean {
  try {
    return Intl.NumberFormat.supportedLocalesOf(locale).length > 0;
  } catch {
    return false;
  }
}

function format(figure: DecimalString, locale: string, style: string, options: Intl.NumberFormatOptions): string {
  if (!FIGURE.test(figure)) return figure;
  const digits = figure.includes('.') ? figure.length - figure.indexOf('.') - 1 : 0;
  const key = `${locale} ${style} ${digits}`;
  let formatter = formatters.get(key);
  if (formatter === undefined) {
    formatter = new Intl.NumberFormat(usableLocale(locale), {
      ...options,
      minimumFractionDigits: digits,
      maximumFractionDigits: digits,
    });
    formatters.set(key, formatter);
  }
  return formatter.format(figure as Intl.StringNumericLiteral);
}
