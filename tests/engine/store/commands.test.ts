import { expect, it } from 'vitest';
import { cellKey, rowOf } from '../../../src/store/commands.js';

it('a row tells its list, so that a line and a finding of one id have rows of their own', () => {
  expect(rowOf('lines', 'l3')).toBe('lines:l3');
  expect(rowOf('findings', 'l3')).not.toBe(rowOf('lines', 'l3'));
});

it('a cell is a row and a column', () => {
  expect(cellKey(rowOf('lines', 'l3'), 'hours')).toBe('lines:l3 hours');
});
