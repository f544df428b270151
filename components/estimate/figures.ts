import { type DecimalString } from '../../src/number/decimal.js';
import { readFigure } from '../../src/number/locale-parse.js';
import type { Outcome, Reference } from './context.js';

type Use = (figure: DecimalString | null) => Outcome;

/** A figure that is not below zero; an empty entry gives `whenEmpty`. */
export function readAmount(text: string, reference: Reference, whenEmpty: DecimalString | null, use: Use): Outcome {
  return readQuantity(text, reference, whenEmpty, (figure) =>
    figure !== null && figure.startsWith('-')
      ? { reason: `"${text}" is below zero, which cannot be here. A credit is a part line with a negative quantity, or a negative fee.` }
      : use(figure),
  );
}

/** Any figure; an empty entry gives `whenEmpty`. */
export function readQuantity(text: string, reference: Reference, whenEmpty: DecimalString | null, use: Use): Outcome {
  if (text.trim() === '') return use(whenEmpty);
  const read = readFigure(text, reference.locale);
  return read.ok ? use(read.value) : { reason: read.reason };
}
