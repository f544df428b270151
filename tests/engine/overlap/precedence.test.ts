/** The order that decides who carries (rule 4): highest labour rate, then longest book hours, then first in the sheet. */
import { expect, it } from 'vitest';
import { decimal } from '../../../src/number/decimal.js';
import { byPrecedence } from '../../../src/overlap/precedence.js';
import type { Work } from '../../../src/overlap/work.js';

const work = (line: string, rate: string, bookHours: string): Work =>
  ({ line, rate: decimal(rate), bookHours: decimal(bookHours) }) as Work;
const order = (...works: Work[]): string =>
  byPrecedence(works)
    .map(({ line }) => line)
    .join(' ');

it('the dearest hour first, however short', () => {
  expect(order(work('long', '100', '9'), work('dear', '100.01', '0.1'))).toBe('dear long');
});

it('of equal rates the longest first', () => {
  expect(order(work('short', '100', '1'), work('long', '100.00', '2'))).toBe('long short');
});

it('compares figures by value: 9.5 h is less than 10 h, 100 is 100.00', () => {
  expect(order(work('a', '100', '9.5'), work('b', '100.00', '10'), work('c', '99', '100'))).toBe('b a c');
});

it('of equal lines the first in the sheet', () => {
  expect(order(work('a', '100', '2'), work('b', '100', '2.0'), work('c', '100', '2'))).toBe('a b c');
});

it('leaves the list it was given as it was', () => {
  const works = [work('a', '1', '1'), work('b', '2', '1')];
  byPrecedence(works);
  expect(works.map(({ line }) => line)).toEqual(['a', 'b']);
});
