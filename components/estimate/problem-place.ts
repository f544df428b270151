import type { Problem } from '../../src/documents/problem.js';
import type { Estimate } from '../../src/documents/estimate.js';
import { rowOf } from '../../src/store/commands.js';
import type { LineColumn } from './line-columns.js';
import { subRow } from './line-columns.js';

/** The cell of the lines grid that a problem is about, so that one press leads to it; null where there is none. */
export function problemPlace(problem: Problem, estimate: Estimate): { row: string; column: LineColumn } | null {
  const path = /^lines\[(\d+)\]\.(\w+)(?:\[(\d+)\])?/.exec(problem.path);
  const line = path === null ? undefined : estimate.lines[Number(path[1])];
  if (path === null || line === undefined) return null;
  const row = rowOf('lines', line.id);
  switch (path[2]) {
    case 'positions':
      return { row, column: 'where' };
    case 'bookHours':
      return { row, column: 'book' };
    case 'labourClass':
      return { row, column: 'rate' };
    case 'taxes':
      return { row, column: 'tax' };
    case 'extraHours':
      return { row: subRow(line.id, 'extra'), column: 'book' };
    default:
      return { row, column: 'work' };
  }
}
