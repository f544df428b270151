import { describe, expect, test } from 'vitest';
import { formatDay, formatFigure, formatHours, formatMoney, formatPercent, usableLocale } from '../../../components/look/format.js';

/** `Intl` parts groups and units with no-break spaces of several widths. */
const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ');

describe('formatMoney', () => {
  // Expected forms: Unicode CLDR number patterns as shipped with Node's ICU; common practice in each country.
  test.each([
    ['1280.00', 'USD', 'en-US', '$1,280.00'],
    ['-0.01', 'USD', 'en-US', '-$0.01'],
    ['1234567.89', 'EUR', 'de-DE', '1.234.567,89 €'],
    ['1234567.89', 'EUR', 'fr-FR', '1 234 567,89 €'],
    ['1234567', 'JPY', 'ja-JP', '￥1,234,567'],
    ['12.345', 'KWD', 'en-US', 'KWD 12.345'],
  ])('%s %s in %s', (amount, currency, locale, shown) => {
    expect(plain(formatMoney(amount, currency, locale))).toBe(shown);
  });

  test('shows the digits that it was given: a money step of 1, a unit price with four places', () => {
    expect(formatMoney('12', 'USD', 'en-US')).toBe('$12');
    expect(formatMoney('0.0088', 'USD', 'en-US')).toBe('$0.0088');
  });

  test('loses no digit that a JavaScript number would lose', () => {
    expect(formatMoney('999999999999.9999999999', 'USD', 'en-US')).toBe('$999,999,999,999.9999999999');
    expect(formatMoney('1.0050', 'USD', 'en-US')).toBe('$1.0050');
  });

  test('a currency that is no code stands behind the figure', () => {
    expect(formatMoney('5.00', 'credits', 'en')).toBe('5.00 credits');
    expect(formatMoney('5.00', '', 'en')).toBe('5.00');
  });
});

describe('hours, percentages, figures and days', () => {
  test('hours carry their symbol after a no-break space', () => {
    expect(formatHours('0.6', 'en')).toBe('0.6\u00a0h');
    expect(formatHours('1234.25', 'de')).toBe('1.234,25\u00a0h');
  });

  test('a percentage is not multiplied again', () => {
    expect(formatPercent('4.25', 'en')).toBe('4.25%');
    expect(plain(formatPercent('9.975', 'fr-CA'))).toBe('9,975 %');
    expect(formatPercent('100', 'en')).toBe('100%');
  });

  test('a figure keeps its trailing zeros', () => {
    expect(formatFigure('1234.50', 'de')).toBe('1.234,50');
    expect(formatFigure('-3', 'en')).toBe('-3');
  });

  test('text that is not a figure comes back as it was', () => {
    expect(formatMoney('abc', 'USD', 'en')).toBe('abc');
    expect(formatFigure('1e5', 'en')).toBe('1e5');
    expect(formatFigure('', 'en')).toBe('');
    expect(formatDay('soon', 'en')).toBe('soon');
  });

  test('a day is written as the language does', () => {
    expect(formatDay('2026-03-02T12:05:00Z', 'en-GB')).toBe('2 Mar 2026');
  });
});

describe('a locale that cannot be used', () => {
  test.each(['', 'no such locale', 'zz-ZZ', '123', '_'])('%j falls back to English', (locale) => {
    expect(usableLocale(locale)).toBe('en');
    expect(formatMoney('1234.50', 'USD', locale)).toBe('$1,234.50');
    expect(formatDay('2026-03-02T12:05:00Z', locale)).toBe('Mar 2, 2026');
  });
});
