import type { DecimalString } from '../number/decimal.js';
import { readNumber } from '../number/locale-parse.js';
import { type Quantity, quantityOf } from './units.js';

/** One figure of a reading with its unit as written; no quantity where the unit is not known. */
export interface ReadingFigure {
  readonly value: DecimalString;
  readonly unit: string;
  readonly quantity: Quantity | null;
}

/** What a reading says. It is kept as it was written, whatever is found here; the hint says what could be written better. */
export interface Reading {
  readonly figures: readonly ReadingFigure[];
  readonly hint: string | null;
}

/** A figure that stands by itself, not inside a word like P0171, and what stands behind it. */
const FIGURE = /(?<![\p{L}\d.,])([-+\u2212\u2013]?\d+(?:[.,'’\u00a0\u202f]\d+)*)[\s\u00a0\u202f]?(1\/min|[%°º\p{L}][\p{L}·/-]*)?/gu;

/**
 * The figures of a reading with their units: `100 kPa to 38 kPa in 2 min`, `14,1 V` where the locale writes so. Never
 * refuses: an unknown unit, a missing one or a figure that can be read in two ways gives a hint.
 */
export function readReading(text: string, locale: string): Reading {
  if (text.trim() === '') return { figures: [], hint: null };
  const figures: ReadingFigure[] = [];
  for (const [, written = '', unit = ''] of text.matchAll(FIGURE)) {
    const number = readNumber(written, locale);
    if (!number.ok) return { figures: [], hint: number.reason };
    figures.push({ value: number.value, unit, quantity: quantityOf(unit) });
  }
  return { figures, hint: hintFor(figures) };
}

function hintFor(figures: readonly ReadingFigure[]): string | null {
  if (figures.length === 0) return 'There is no figure in this reading. Write figure and unit, like 100 kPa.';
  if (figures.some(({ quantity }) => quantity !== null)) return null;
  const unit = figures.find((figure) => figure.unit !== '')?.unit;
  if (unit === undefined) return 'The figure has no unit. Write it behind, like 100 kPa.';
  return `"${unit}" is not a unit that is known here; it stays as it is written.`;
}
