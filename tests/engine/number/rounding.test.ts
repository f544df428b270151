/** Rule 12: three ways to round a half; a negative amount is the mirror image of the positive one. */
import { describe, expect, it } from 'vitest';
import { decimal, printPlain } from '../../../src/number/decimal.js';
import { type Rounding, round, roundToDigits, truncate } from '../../../src/number/rounding.js';

/** value, step, then half-up, half-even, half-down. */
const CASES: [value: string, step: string, up: string, even: string, down: string][] = [
  ['2.345', '0.01', '2.35', '2.34', '2.34'],
  ['2.355', '0.01', '2.36', '2.36', '2.35'],
  ['-2.345', '0.01', '-2.35', '-2.34', '-2.34'],
  ['-2.355', '0.01', '-2.36', '-2.36', '-2.35'],
  ['2.3450000001', '0.01', '2.35', '2.35', '2.35'],
  ['2.3449999999', '0.01', '2.34', '2.34', '2.34'],
  ['0.005', '0.01', '0.01', '0', '0'],
  ['-0.005', '0.01', '-0.01', '0', '0'],
  // A step of 0.05: 1.025 lies half-way between 20 and 21 steps.
  ['1.025', '0.05', '1.05', '1', '1'],
  // 1.075 lies half-way between 21 and 22 steps.
  ['1.075', '0.05', '1.1', '1.1', '1.05'],
  ['-1.075', '0.05', '-1.1', '-1.1', '-1.05'],
  ['1.03', '0.05', '1.05', '1.05', '1.05'],
  ['1.02', '0.05', '1', '1', '1'],
  ['2.5', '1', '3', '2', '2'],
  ['3.5', '1', '4', '4', '3'],
  ['1.0005', '0.001', '1.001', '1', '1'],
];

const MODES: [Rounding, number][] = [
  ['half-up', 2],
  ['half-even', 3],
  ['half-down', 4],
];

describe.each(MODES)('%s', (mode, column) => {
  it.each(CASES)('%s to steps of %s', (...row) => {
    expect(printPlain(round(decimal(row[0]), decimal(row[1]), mode))).toBe(row[column]);
  });
});

it('the quick rounding to digits is the same as rounding to that step', () => {
  for (const [mode] of MODES) {
    for (const [value, step] of CASES.filter(([, each]) => each === '0.01')) {
      expect(printPlain(roundToDigits(decimal(value), 2, mode))).toBe(printPlain(round(decimal(value), decimal(step), mode)));
    }
  }
});

it.each([
  ['12.3456', '0.01', '12.34'],
  ['12.3999', '0.05', '12.35'],
  ['-12.349', '0.01', '-12.34'],
  ['12', '5', '10'],
])('cuts %s off at steps of %s: %s', (value, step, cut) => {
  expect(printPlain(truncate(decimal(value), decimal(step)))).toBe(cut);
});
