import { usableLocale } from '../look/format.js';

/** A whole number as the reader's language writes it. */
export function counted(count: number, locale: string): string {
  return new Intl.NumberFormat(usableLocale(locale)).format(count);
}

/** A number of things: `1 estimate`, `1,200 estimates`. */
export function numbered(count: number, thing: string, locale: string): string {
  return `${counted(count, locale)} ${count === 1 ? thing : `${thing}s`}`;
}
