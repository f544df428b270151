import type { Method } from '../documents/catalogue.js';
import { type Decimal, decimal, printPlain } from '../number/decimal.js';
import { type Reading, readReading } from './reading.js';
import { convert, quantityOf } from './units.js';

/** What a reading says against a method's limits. It proposes: a person decides whether a round was clean. */
export interface Judgement {
  readonly verdict: 'within' | 'outside' | 'unclear';
  readonly words: string;
}

/**
 * A reading against the usual limits of a test method; null where there is nothing to compare. Units of one quantity are
 * converted (psi against kPa).
 */
export function judgeReading(method: Method, text: string, locale: string): Judgement | null {
  if (text.trim() === '') return null;
  const reading = readReading(text, locale);
  if (method.drop !== null) return judgeDrop(method, reading);
  return method.least === null && method.most === null ? null : judgeRange(method, reading);
}

/** The usual limits of a method in words: "100 kPa, held for 15 minutes; at most 2 kPa may be lost". Empty where it has none. */
export function limitsText({ unit, start, minutes, drop, least, most }: Method): string {
  if (drop !== null) return `${start} ${unit}, held for ${minutes} minutes; at most ${drop} ${unit} may be lost`;
  if (least !== null && most !== null) return `between ${least} and ${most} ${unit}`;
  if (least !== null) return `at least ${least} ${unit}`;
  return most === null ? '' : `at most ${most} ${unit}`;
}

function judgeDrop({ unit, start, minutes, drop }: Method, reading: Reading): Judgement {
  const pressures = inUnit(reading, unit);
  if (pressures.length < 2)
    return unclear(
      `Write where it began and where it ended, each with its unit, and the time: ${start} ${unit} to … ${unit} in ${minutes} min.`,
    );
  const [from, to] = [pressures[0]!, pressures.at(-1)!];
  const lost = from.minus(to);
  const told = `From ${shown(from)} to ${shown(to)} ${unit} is a loss of ${shown(lost)} ${unit}; ${drop} ${unit} is the usual limit.`;
  if (lost.gt(decimal(drop!))) return { verdict: 'outside', words: `Outside the limit. ${told}` };
  if (from.lt(decimal(start!))) return unclear(`It began at ${shown(from)} ${unit}; the method asks for ${start} ${unit}.`);
  const watched = inUnit(reading, 'min').at(-1);
  if (watched === undefined) return unclear(`Write how long it was watched; the method asks for ${minutes} minutes.`);
  if (watched.lt(decimal(minutes!)))
    return unclear(`It was watched for ${shown(watched)} of ${minutes} minutes, which is too short to say.`);
  return { verdict: 'within', words: `Within the limit. ${told}` };
}

function judgeRange(method: Method, reading: Reading): Judgement {
  const { unit, least, most } = method;
  const value = inUnit(reading, unit)[0];
  if (value === undefined) return unclear(`Write the reading with its unit, like ${least ?? most} ${unit}.`);
  const outside = (least !== null && value.lt(decimal(least))) || (most !== null && value.gt(decimal(most)));
  return {
    verdict: outside ? 'outside' : 'within',
    words: `${outside ? 'Outside' : 'Within'} the limit: ${shown(value)} ${unit}; usual is ${limitsText(method)}.`,
  };
}

/** The figures of a reading that go with a unit, converted to it. */
function inUnit({ figures }: Reading, unit: string): Decimal[] {
  return figures.flatMap((figure) => {
    const value = figure.quantity === quantityOf(unit) ? convert(decimal(figure.value), figure.unit, unit) : null;
    return value === null ? [] : [value];
  });
}

function unclear(words: string): Judgement {
  return { verdict: 'unclear', words };
}

/** To two decimals: a reading that was converted has no end otherwise. Nothing is decided by what is shown. */
function shown(value: Decimal): string {
  return printPlain(value.toDecimalPlaces(2));
}
