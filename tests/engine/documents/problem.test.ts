import { expect, it } from 'vitest';
import { error, hasErrors, note, printPath, printProblem, warning } from '../../../src/documents/problem.js';

it('a path reads as in JavaScript', () => {
  expect(printPath([])).toBe('');
  expect(printPath(['lines', 3, 'qty'])).toBe('lines[3].qty');
  expect(printPath(['extra', 'two words', 'x-y'])).toBe('extra["two words"]["x-y"]');
  expect(printPath([0, 'a'])).toBe('[0].a');
});

it('a problem prints as one line with where, what and how to mend it', () => {
  expect(printProblem(error('c', 'lines[3].qty', 'It is wrong.', 'Mend it.'))).toBe('error lines[3].qty: It is wrong. — Mend it.');
  expect(printProblem(warning('c', '', 'It is odd.'))).toBe('warning: It is odd.');
});

it('a problem without a hint has no key for one', () => {
  expect(note('c', 'p', 'm')).toEqual({ severity: 'note', code: 'c', path: 'p', message: 'm' });
  expect('hint' in note('c', 'p', 'm')).toBe(false);
});

it('only an error counts as one', () => {
  expect(hasErrors([warning('c', '', 'm'), note('c', '', 'm')])).toBe(false);
  expect(hasErrors([warning('c', '', 'm'), error('c', '', 'm')])).toBe(true);
  expect(hasErrors([])).toBe(false);
});
