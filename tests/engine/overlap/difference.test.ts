/** What an edit has done to a list, and making it to another list. */
import { describe, expect, it } from 'vitest';
import { difference, spliced } from '../../../src/overlap/difference.js';

const list = (text: string): string[] => [...text];

describe('between', () => {
  it.each([
    ['abc', 'abc', 3, '', ''],
    ['abc', 'aXc', 1, 'b', 'X'],
    ['abcde', 'aXcde', 1, 'b', 'X'],
    ['abcde', 'acde', 1, 'b', ''],
    ['abc', 'abXc', 2, '', 'X'],
    ['abc', 'ac', 1, 'b', ''],
    ['abcd', 'acbd', 1, 'bc', 'cb'],
    ['', 'ab', 0, '', 'ab'],
    ['ab', '', 0, 'ab', ''],
    ['aa', 'aaa', 2, '', 'a'],
    ['aaa', 'a', 1, 'aa', ''],
  ])('"%s" and "%s"', (before, now, start, removed, added) => {
    const change = difference(list(before), list(now));
    expect(change).toEqual({ start, removed: list(removed), added: list(added) });
    expect(spliced(list(before), start, removed.length, change.added).join('')).toBe(now);
  });
});

it('compares objects, not what they hold', () => {
  expect(difference([{ a: 1 }], [{ a: 1 }])).toMatchObject({ start: 0, removed: [{ a: 1 }], added: [{ a: 1 }] });
});

it('leaves both lists as they were', () => {
  const before = list('abc');
  spliced(before, 1, 1, ['x']);
  expect(before).toEqual(list('abc'));
});
