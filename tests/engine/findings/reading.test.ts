/** Readings are kept as they are written; their figures and units are read for what can be said of them. */
import { describe, expect, it } from 'vitest';
import { judgeReading, limitsText } from '../../../src/findings/judge-reading.js';
import { readReading } from '../../../src/findings/reading.js';
import { convert, quantityOf } from '../../../src/findings/units.js';
import { decimal } from '../../../src/number/decimal.js';
import { type Method, parseCatalogue } from '../../../src/documents/catalogue.js';
import { aCatalogue } from '../../support/builders.js';

const figures = (text: string, locale = 'en-US') => readReading(text, locale).figures.map(({ value, unit }) => `${value} ${unit}`.trim());

describe('figures and units', () => {
  it.each([
    ['100 kPa to 38 kPa in 2 min', ['100 kPa', '38 kPa', '2 min']],
    ['14.1 V', ['14.1 V']],
    ['-12.5 % at idle', ['-12.5 %']],
    ['+8%', ['8 %']],
    ['71 °C', ['71 °C']],
    ['1,600 rpm', ['1600 rpm']],
    ['2000 1/min', ['2000 1/min']],
    ['opens at 72 kPa, 110 kPa is printed on it', ['72 kPa', '110 kPa']],
    ['100-38 kPa', ['100', '38 kPa']],
    ['code P0171 stored, 0.3 mm', ['0.3 mm']],
  ])('%s', (text, expected) => expect(figures(text)).toEqual(expected));

  it('in the writing of the locale', () => {
    expect(figures('98,5 kPa', 'de-DE')).toEqual(['98.5 kPa']);
    expect(figures('1.600,5 mV', 'de-DE')).toEqual(['1600.5 mV']);
  });

  it('a figure that can be read in two ways is told, not guessed', () => {
    expect(readReading('1.600 kPa', 'de-DE')).toMatchObject({ figures: [], hint: expect.stringContaining('can be read in two ways') });
  });

  it.each([
    ['', null],
    ['100 kPa', null],
    ['6 cracks on 100 mm', null],
    ['soft', /no figure/],
    ['38', /no unit/],
    ['2 of 8 mountings', /"of" is not a unit that is known here/],
    ['3 notches', /"notches" is not a unit/],
  ])('hint for "%s"', (text, hint) => {
    if (hint === null) expect(readReading(text, 'en').hint).toBeNull();
    else expect(readReading(text, 'en').hint).toMatch(hint);
  });

  it('knows units however they are written, but never mixes milli and mega', () => {
    expect(['KPA', 'Psi', 'u/min', 'ºC', 'mΩ', 'MΩ', 'ohms', 'furlong'].map(quantityOf)).toEqual([
      'pressure',
      'pressure',
      'speed of rotation',
      'temperature',
      'resistance',
      'resistance',
      'resistance',
      null,
    ]);
    expect(convert(decimal('1'), 'MΩ', 'kΩ')!.toFixed()).toBe('1000');
    expect(convert(decimal('1'), 'V', 'kPa')).toBeNull();
    expect(convert(decimal('3'), 'notches', 'Notches')!.toFixed()).toBe('3');
    expect(convert(decimal('3'), 'notches', 'clicks')).toBeNull();
  });
});

const method = (more: Partial<Method>): Method => {
  const read = parseCatalogue({ ...aCatalogue(), methods: [{ id: 'm', title: 'A test', ...more }] });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value.methods![0]!;
};
const hold = method({ unit: 'kPa', start: '100', minutes: '15', drop: '2' });
const range = method({ unit: 'V', least: '13.8', most: '14.8' });

describe('against the limits of a method', () => {
  it.each([
    ['100 kPa to 99 kPa in 15 min', 'within', /loss of 1 kPa; 2 kPa is the usual limit/],
    ['100 kPa to 98 kPa in 20 min', 'within', /loss of 2 kPa/],
    ['100 kPa to 38 kPa in 2 min', 'outside', /loss of 62 kPa/],
    ['100 kPa to 99 kPa in 2 min', 'unclear', /2 of 15 minutes/],
    ['100 kPa to 99 kPa', 'unclear', /how long/],
    ['80 kPa to 79 kPa in 15 min', 'unclear', /began at 80 kPa; the method asks for 100 kPa/],
    ['100 to 99 kPa in 15 min', 'unclear', /each with its unit/],
    ['held', 'unclear', /each with its unit/],
    ['14.6 psi to 14.5 psi in 900 s', 'within', /loss of 0.69 kPa/],
  ])('%s', (text, verdict, words) => {
    const judged = judgeReading(hold, text, 'en')!;
    expect(judged.verdict).toBe(verdict);
    expect(judged.words).toMatch(words);
  });

  it.each([
    ['14.1 V', 'within'],
    ['13.8 V', 'within'],
    ['14,800 mV', 'within'],
    ['13.2 V', 'outside'],
    ['15 V', 'outside'],
    ['good', 'unclear'],
  ])('%s: %s', (text, verdict) => {
    expect(judgeReading(range, text, 'en')!.verdict).toBe(verdict);
  });

  it('nothing to say without a reading or without limits', () => {
    expect(judgeReading(hold, ' ', 'en')).toBeNull();
    expect(judgeReading(method({}), '5 V', 'en')).toBeNull();
  });

  it('limits in words', () => {
    expect([hold, range, method({ unit: '%', most: '10' }), method({ unit: 'mm', least: '2' }), method({})].map(limitsText)).toEqual([
      '100 kPa, held for 15 minutes; at most 2 kPa may be lost',
      'between 13.8 and 14.8 V',
      'at most 10 %',
      'at least 2 mm',
      '',
    ]);
  });
});
