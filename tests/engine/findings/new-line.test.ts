import { expect, it } from 'vitest';
import type { OperationLine } from '../../../src/documents/lines.js';
import { freeId, isUntouched, operationLine } from '../../../src/findings/new-line.js';

const taken = (...ids: string[]): { id: string }[] => ids.map((id) => ({ id }));

it('a free id is the next number that nobody has', () => {
  expect(freeId('l', [])).toBe('l1');
  expect(freeId('l', taken('l1', 'l2'))).toBe('l3');
  // Two are there, one of them is l3 already.
  expect(freeId('l', taken('l1', 'l3'))).toBe('l4');
  expect(freeId('l', taken('l2'))).toBe('l3');
  expect(freeId('f', taken('a', 'b'))).toBe('f3');
});

it('a new line is untouched; whatever is said on it, it is not', () => {
  const line = operationLine('op', []);
  expect(isUntouched(line)).toBe(true);
  const where: Partial<OperationLine> = { positions: ['left'], findings: ['f1'] };
  expect(isUntouched({ ...line, ...where })).toBe(true);
  const edits: Partial<OperationLine>[] = [
    { labourClass: 'dear' },
    { bookHours: '0' },
    { extraHours: { hours: '0', reason: '' } },
    { taxes: [] },
    { note: 'x' },
    { decision: 'approved' },
    { parts: [{ part: 'p', qty: null, unitPrice: null, cost: null, condition: null, omit: false }] },
  ];
  for (const edit of edits) expect(isUntouched({ ...line, ...edit })).toBe(false);
});
