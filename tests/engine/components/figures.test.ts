import { describe, expect, test } from 'vitest';
import type { Outcome } from '../../../components/estimate/context.js';
import { readAmount, readQuantity } from '../../../components/estimate/figures.js';
import { Desk } from './desk.js';

/** What an entry is used as, or why it is not used. */
function read(reader: typeof readAmount, text: string, whenEmpty: string | null, locale = 'en-US'): string | null {
  let used: string | null | undefined;
  const outcome: Outcome = reader(text, { ...new Desk().reference, locale }, whenEmpty, (figure) => {
    used = figure;
    return { commands: [] };
  });
  return 'reason' in outcome ? `refused: ${outcome.reason}` : used!;
}

test('a figure is used digit by digit as it was typed', () => {
  expect(read(readAmount, '1.20', '0')).toBe('1.20');
  expect(read(readAmount, ' $1,204.50 ', '0')).toBe('1204.50');
  expect(read(readAmount, '1.204,50', '0', 'de')).toBe('1204.50');
  expect(read(readAmount, '=2*14.95+3', '0')).toBe('32.9');
  expect(read(readAmount, '=0.1+0.2', '0')).toBe('0.3');
});

test('an empty entry gives what stands for nothing', () => {
  expect(read(readAmount, '  ', '0')).toBe('0');
  expect(read(readAmount, '', null)).toBe(null);
  expect(read(readQuantity, '', '1')).toBe('1');
});

describe('below zero', () => {
  test.each(['-1', '(1)', '1-', '=2-3'])('%s is no amount, but a quantity', (text) => {
    expect(read(readAmount, text, '0')).toMatch(/^refused: ".*" is below zero.* A credit is/);
    expect(read(readQuantity, text, '0')).toBe('-1');
  });

  test('nothing below zero is nothing', () => {
    expect(read(readAmount, '-0', '0')).toBe('0');
  });
});

test('what is no figure is refused in words', () => {
  for (const text of ['two', '1,5', '=1/0', '=1+', '1e3', '--1', '9'.repeat(13)]) {
    expect(read(readAmount, text, '0'), text).toMatch(/^refused: ./);
  }
});
