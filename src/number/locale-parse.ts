import { DECIMAL_PATTERN, type DecimalString, printPlain } from './decimal.js';
import { evaluateSum } from './sum.js';

/** A figure that was read, or why it could not be, in words that end with how to mend it. */
export type ReadFigure = { readonly ok: true; readonly value: DecimalString } | { readonly ok: false; readonly reason: string };

/**
 * What a person typed or pasted as a figure: in the digits and separators of their locale, with or without a currency
 * sign, `(12.50)` or `12.50-` for less than zero, or a sum that begins with `=`. What can be read in two ways is
 * refused, never guessed.
 */
export function readFigure(typed: string, locale: string): ReadFigure {
  const text = typed.trim();
  if (text.startsWith('=')) return readSum(text.slice(1), locale);
  return readNumber(text, locale);
}

function readSum(text: string, locale: string): ReadFigure {
  const result = evaluateSum(text, (number) => readNumber(number, locale));
  if (!result.ok) return result;
  const value = printPlain(result.value);
  if (DECIMAL_PATTERN.test(value)) return { ok: true, value };
  const shown = result.value.toSignificantDigits(8).toFixed();
  return refuse(`The sum comes to ${shown}…, which has more digits than a figure may have. Type it rounded as you want it.`);
}

/** One number in the writing of the locale. */
export function readNumber(typed: string, locale: string): ReadFigure {
  const { decimal, group, inner } = separators(locale);
  let text = typed
    .replace(/[\u00a0\u202f\u2009\s]/g, ' ')
    .replace(/[\u2212\u2013]/g, '-')
    .trim();
  text = text
    .replace(/^\p{Sc}|\p{Sc}$/gu, '')
    .replace(/^[A-Z]{3} | [A-Z]{3}$/, '')
    .trim();
  if (text === '') return refuse('There is no figure here. Type one, like 12.50.');

  const signed = sign(text);
  text = signed.digits.replace(/^\p{Sc}|\p{Sc}$/gu, '').trim();
  if (/^\d+(\.\d+)?[eE][+-]?\d+$/.test(text)) return refuse(`"${typed.trim()}" is in powers of ten. Write it out.`);
  if (!/^[\d., '’]+$/.test(text) || !/\d/.test(text))
    return refuse(`"${shorten(typed)}" is not a figure. Type one, like ${example(decimal)}.`);

  const plain = plainDigits(text, decimal, group, inner);
  if (!plain.ok) return plain;
  const value = `${signed.negative && /[1-9]/.test(plain.value) ? '-' : ''}${plain.value}`;
  return DECIMAL_PATTERN.test(value) ? { ok: true, value } : refuse('A figure has up to 12 digits before the point and 10 after it.');
}

function sign(text: string): { negative: boolean; digits: string } {
  const inBrackets = /^\((.*)\)$/.exec(text);
  if (inBrackets !== null) return { negative: true, digits: inBrackets[1]!.trim() };
  if (text.startsWith('-')) return { negative: true, digits: text.slice(1).trim() };
  if (text.endsWith('-')) return { negative: true, digits: text.slice(0, -1).trim() };
  return { negative: false, digits: text.startsWith('+') ? text.slice(1).trim() : text };
}

/** Digits with at most one point. */
function plainDigits(text: string, decimal: string, group: string, inner: number): ReadFigure {
  const isGroup = (mark: string): boolean => mark === group || ` '’`.includes(mark);
  const parts = text.split(decimal);
  if (parts.length > 2) return refuse(`"${shorten(text)}" has more than one decimal separator (${decimal}).`);
  const [whole, fraction] = [parts[0]!, parts[1]];
  if (fraction !== undefined && /[^\d]/.test(fraction)) return refuse(`"${shorten(text)}" has a separator after the decimals.`);

  const grouped = new RegExp(`^[1-9]\\d{0,${inner - 1}}([^\\d]\\d{${inner}})*[^\\d]\\d{3}$`);
  const marks = whole.replace(/\d/g, '');
  if (marks === '') return { ok: true, value: withFraction(whole, fraction) };
  // A lone point, where people write a comma: the decimal point of pasted data, unless it may be a thousands mark.
  if (marks === '.' && fraction === undefined) {
    if (grouped.test(whole)) return ambiguous(text, decimal);
    return { ok: true, value: withFraction(...(whole.split('.') as [string, string])) };
  }
  if (isGroup(marks[0]!) && [...marks].every((mark) => mark === marks[0]) && grouped.test(whole)) {
    return { ok: true, value: withFraction(whole.replace(/[^\d]/g, ''), fraction) };
  }
  return refuse(`"${shorten(text)}" can be read in two ways. Write the decimals with "${decimal}", like ${example(decimal)}.`);
}

function ambiguous(text: string, decimal: string): ReadFigure {
  const [whole, rest] = text.split('.') as [string, string];
  return refuse(`"${text}" can be read in two ways. Write ${whole}${rest} or ${whole}${decimal}${rest}.`);
}

function withFraction(whole: string, fraction: string | undefined): DecimalString {
  const digits = whole.replace(/^0+(?=\d)/, '') || '0';
  return fraction === undefined || fraction === '' ? digits : `${digits}.${fraction}`;
}

/** The marks of a locale, and how many digits stand between its marks left of the last three (2 in India, else 3). */
function separators(locale: string): { decimal: string; group: string; inner: number } {
  const parts = numberFormat(locale).formatToParts(1234567.5);
  const whole = parts.filter((part) => part.type === 'integer').map((part) => part.value.length);
  const find = (type: string, otherwise: string): string => parts.find((part) => part.type === type)?.value ?? otherwise;
  return { decimal: find('decimal', '.'), group: find('group', ','), inner: whole.at(-2) ?? 3 };
}

const formats = new Map<string, Intl.NumberFormat>();

function numberFormat(locale: string): Intl.NumberFormat {
  let format = formats.get(locale);
  if (format === undefined) {
    format = new Intl.NumberFormat([...usable(locale), 'en'], { numberingSystem: 'latn' });
    formats.set(locale, format);
  }
  return format;
}

/** A tag that no browser can make sense of counts as none. */
function usable(locale: string): string[] {
  try {
    return Intl.getCanonicalLocales(locale);
  } catch {
    return [];
  }
}

function example(decimal: string): string {
  return `12${decimal}50`;
}

function shorten(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text.trim();
}

function refuse(reason: string): { ok: false; reason: string } {
  return { ok: false, reason };
}
