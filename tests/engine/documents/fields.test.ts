import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { count, day, figure, id, positive, requiredText, signed, text } from '../../../src/documents/fields.js';

const takes = (schema: v.GenericSchema, value: unknown): boolean => v.safeParse(schema, value).success;

describe('figures', () => {
  it.each<[value: unknown, signed: boolean, figure: boolean, positive: boolean]>([
    ['1', true, true, true],
    ['0.0000000001', true, true, true],
    ['0', true, true, false],
    ['0.00', true, true, false],
    ['-0', true, true, false],
    ['-0.00', true, true, false],
    ['-0.01', true, false, false],
    ['-10', true, false, false],
    ['999999999999.9999999999', true, true, true],
    ['1000000000000', false, false, false],
    ['0.00000000001', false, false, false],
    ['', false, false, false],
    [' 1', false, false, false],
    ['1,5', false, false, false],
    ['0x10', false, false, false],
    ['Infinity', false, false, false],
    [1, false, false, false],
    [null, false, false, false],
    [['1'], false, false, false],
  ])('%j: signed %s, not below zero %s, above zero %s', (value, isSigned, isFigure, isPositive) => {
    expect([takes(signed, value), takes(figure, value), takes(positive, value)]).toEqual([isSigned, isFigure, isPositive]);
  });

  it('10 MB of digits are refused at once', () => {
    expect(takes(figure, '1'.repeat(10_000_000))).toBe(false);
  });
});

it.each([
  ['a', true],
  ['A-z_0.9', true],
  ['x'.repeat(64), true],
  ['x'.repeat(65), false],
  ['', false],
  ['a b', false],
  ['é', false],
  ['a\n', false],
  ['../a', false],
])('id %j: %s', (value, expected) => expect(takes(id, value)).toBe(expected));

it('words have at most 10,000 characters; where some are needed, space is not enough', () => {
  expect([takes(text, ''), takes(text, 'x'.repeat(10_000)), takes(text, 'x'.repeat(10_001))]).toEqual([true, true, false]);
  expect([
    takes(requiredText, 'x'),
    takes(requiredText, ''),
    takes(requiredText, ' \t\n'),
    takes(requiredText, ' '.repeat(5_000_000)),
  ]).toEqual([true, false, false, false]);
});

it('a count is a whole number from 1 to a million', () => {
  expect([1, 1_000_000].map((value) => takes(count, value))).toEqual([true, true]);
  expect([0, -1, 1.5, 1_000_001, Number.NaN, Infinity, '1'].map((value) => takes(count, value))).toEqual(Array(7).fill(false));
});

it('a day is one of the calendar', () => {
  expect(['2026-01-31', '2024-02-29'].map((value) => takes(day, value))).toEqual([true, true]);
  expect(['2026-02-29', '2026-04-31', '2026-13-01', '2026-1-1', '31.1.2026', ''].map((value) => takes(day, value))).toEqual(
    Array(6).fill(false),
  );
});
