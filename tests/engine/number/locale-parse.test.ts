/** Figures as people type and paste them: read for certain, or refused with a reason; never guessed. */
import { describe, expect, it } from 'vitest';
import { readFigure, readNumber } from '../../../src/number/locale-parse.js';

const value = (typed: string, locale: string): string | null => {
  const read = readFigure(typed, locale);
  if (!read.ok) expect(read.reason).toMatch(/\S.*\.$/s);
  return read.ok ? read.value : null;
};

describe('decimal and thousands marks of the locale', () => {
  it.each([
    ['en-US', '1,234.56', '1234.56'],
    ['en-US', '1,234', '1234'],
    ['en-US', '1.234', '1.234'],
    ['en-US', '12,345,678.9', '12345678.9'],
    ['de-DE', '1.234,56', '1234.56'],
    ['de-DE', '1,234', '1.234'],
    ['de-DE', '1.234.567', '1234567'],
    ['fr-FR', '1 234,50', '1234.50'],
    ['fr-FR', '1\u202f234,50', '1234.50'],
    ['fr-FR', '1\u00a0234,50', '1234.50'],
    ['de-CH', '12’345.50', '12345.50'],
    ['en-IN', '1,23,456.50', '123456.50'],
    ['en-US', '1 234.50', '1234.50'],
    // A locale that is read with Latin digits, and one that writes no thousands marks of its own.
    ['ar-EG', '1,234.56', '1234.56'],
    ['en-US-u-va-posix', '1,234.5', '1234.5'],
  ])('%s %j is %s', (locale, typed, expected) => expect(value(typed, locale)).toBe(expected));

  it('a point in pasted data is a decimal point even where people write a comma, if it can be nothing else', () => {
    expect([value('14.95', 'de-DE'), value('1.5', 'de-DE'), value('1234.5678', 'de-DE'), value('0.123', 'de-DE')]).toEqual([
      '14.95',
      '1.5',
      '1234.5678',
      '0.123',
    ]);
  });
});

describe('what can be read in two ways is refused', () => {
  it.each([
    ['de-DE', '1.234'],
    ['en-US', '1,5'],
    ['en-US', '1,23'],
    ['en-US', '1.234,56'],
    ['de-DE', '1,234.56'],
    ['en-US', '1,2,3'],
    ['en-US', '1.2.3'],
    ['en-US', '1,23,456.50'],
    ['en-US', '12,34'],
    ['en-US', '1 23'],
    ['de-DE', '1.5,3'],
    // Two kinds of thousands mark, and one that is none here.
    ['en-US', '1,234 567'],
    ['en-US', "1'234,567.5"],
    ['fr-FR', '1.234.567'],
    ['de-CH', '1,234'],
    // Austria and France write thousands with a space, but many there with a point.
    ['de-AT', '1.234'],
    ['fr-FR', '1.234'],
  ])('%s %j', (locale, typed) => expect(value(typed, locale)).toBeNull());

  it('with the ways to write it', () => {
    const read = readFigure('1.234', 'de-DE');
    expect(!read.ok && read.reason).toContain('1234 or 1,234');
  });
});

describe('signs and currency', () => {
  it.each([
    ['-5', '-5'],
    ['\u22125', '-5'],
    ['\u20135', '-5'],
    ['5-', '-5'],
    ['(5.00)', '-5.00'],
    ['+5', '5'],
    ['-0', '0'],
    ['(0.00)', '0.00'],
    ['$5', '5'],
    ['-$5', '-5'],
    ['$-5', '-5'],
    ['5 €', '5'],
    ['USD 5', '5'],
    ['5 USD', '5'],
    ['  5  ', '5'],
    ['\t5\n', '5'],
    ['15-', '-15'],
    ['$ -5', '-5'],
    ['-$ 5', '-5'],
    ['- $5', '-5'],
    ['+ $5', '5'],
    ['5 $ -', '-5'],
    ['( $5 )', '-5'],
    ['-5 €', '-5'],
  ])('%j is %s', (typed, expected) => expect(value(typed, 'en-US')).toBe(expected));
});

it.each([
  ['12.', '12'],
  ['.5', '0.5'],
  ['00012', '12'],
  ['0', '0'],
  ['000', '0'],
  ['1.50', '1.50'],
])('%j is written %s', (typed, expected) => {
  expect(value(typed, 'en-US')).toBe(expected);
});

it.each(['(5)6', '6(5)', '1$2', '12USD 345', '5 USD6'])('%j holds a figure, but is none', (typed) =>
  expect(value(typed, 'en-US')).toBeNull(),
);

it.each([
  '',
  ' ',
  'abc',
  '5 hours',
  '1e3',
  '5%',
  '0x10',
  '1_000',
  '١',
  '--5',
  '(5',
  '-',
  '.',
  ',',
  '½',
  '1/2',
  '1234567890123',
  '0.12345678901',
  'NaN',
  'Infinity',
])('%j is no figure', (typed) => expect(value(typed, 'en-US')).toBeNull());

describe('the reason says what is wrong and how to write it', () => {
  const reason = (typed: string, locale = 'en-US'): string => {
    const read = readNumber(typed, locale);
    return read.ok ? '' : read.reason;
  };

  it.each(['', '  ', '$'])('nothing: %j', (typed) => expect(reason(typed)).toContain('no figure here'));
  it.each(['1e3', '12e3', '1E3', '1.5e3', '1.25e3', '1e+3', '1e-3', '1e12'])('powers of ten: %j', (typed) =>
    expect(reason(typed)).toContain('powers of ten'),
  );
  it.each(['e', '1e', 'e3', 'x1e3', '1e3x', '1.e3', '1.xe3', '1f3', '1e*3', '1ex', '5 hours', 'h5', '+-5'])('no figure: %j', (typed) => {
    expect(reason(typed)).toContain('is not a figure');
  });
  it('a mark after the decimals', () => expect(reason('12.5 0')).toContain('separator after the decimals'));
  it('in the writing of the locale', () =>
    expect([reason('x', 'de-DE'), reason('x')]).toEqual([expect.stringContaining('12,50'), expect.stringContaining('12.50')]));

  it('with what was typed, shortened where it is long', () => {
    expect(reason(' abc ')).toContain('"abc"');
    expect(reason('x'.repeat(40))).toContain(`"${'x'.repeat(40)}"`);
    expect(reason('x'.repeat(41))).toContain(`"${'x'.repeat(40)}…"`);
  });
});

describe('a sum', () => {
  it.each([
    ['en-US', '=2*14.95+3', '32.9'],
    ['de-DE', '=2*14,95+3', '32.9'],
    ['de-DE', '=2*14.95+3', '32.9'],
    ['en-US', '= 1,000 + 1', '1001'],
    ['en-US', '=-5', '-5'],
    ['en-US', '  =1+1', '2'],
    ['en-US', '=0.1+0.2', '0.3'],
  ])('%s %j is %s', (locale, typed, expected) => expect(value(typed, locale)).toBe(expected));

  it('that has no end is refused with its beginning, not cut off in silence', () => {
    const read = readFigure('=10/3', 'en-US');
    expect(!read.ok && read.reason).toContain('3.3333333…');
  });

  it('that is too large is refused', () => expect(value('=999999999999*10', 'en-US')).toBeNull());

  it('is none without its sign', () => expect(value('2*14.95', 'en-US')).toBeNull());
});

describe('never a throw', () => {
  it.each(['en-1', 'xx-yy-zz', '', 'not a tag', 'tlh'])('whatever the locale: %j', (locale) => {
    expect(readFigure('12.50', locale)).toEqual({ ok: true, value: '12.50' });
  });

  it('at 10 MB of anything, and the reason stays short', () => {
    for (const typed of ['1.', '1', ' ', 'x', '1,111', '(', '$', '=', '=1+', '-']) {
      const read = readFigure(typed.repeat(10_000_000 / typed.length), 'en-US');
      expect(read.ok).toBe(false);
      expect(!read.ok && read.reason.length).toBeLessThan(300);
    }
  }, 30_000);
});

it('one number alone is no sum', () => {
  expect(readNumber('=1', 'en-US').ok).toBe(false);
  expect(readNumber('1', 'en-US')).toEqual({ ok: true, value: '1' });
  expect(readNumber(' USD 5 ', 'en-US')).toEqual({ ok: true, value: '5' });
});
