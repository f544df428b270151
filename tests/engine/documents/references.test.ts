import { expect, it } from 'vitest';
import { byId, duplicates, unknown } from '../../../src/documents/references.js';

it('each second of two equal ids is told, with where the first stands', () => {
  const problems = duplicates(['a', 'b', 'a', 'a'], 'parts');
  expect(problems.map(({ code, path, severity }) => [severity, code, path])).toEqual([
    ['error', 'duplicate', 'parts[2].id'],
    ['error', 'duplicate', 'parts[3].id'],
  ]);
  expect(problems[0]!.message).toContain('parts[0]');
  expect(problems[0]!.hint).toMatch(/another name/);
});

it('in a list of plain ids the path ends at the entry', () => {
  expect(duplicates(['a', 'a'], 'positions', '').map(({ path }) => path)).toEqual(['positions[1]']);
});

it('ids that are keys of every object are ids like others', () => {
  expect(duplicates(['__proto__', 'constructor', '__proto__'], 'parts').map(({ path }) => path)).toEqual(['parts[2].id']);
  expect(byId([{ id: '__proto__' }]).has('__proto__')).toBe(true);
  expect(byId([]).has('constructor')).toBe(false);
});

it('an id that leads nowhere is told with its place', () => {
  const [problem, ...rest] = unknown(['a', 'x'], new Set(['a']), 'step', 'operations[0].steps');
  expect(problem).toMatchObject({ severity: 'error', code: 'unknown-reference', path: 'operations[0].steps[1]' });
  expect(problem!.message).toBe('There is no step "x".');
  expect(problem!.hint).toBe('Add the step, or name another.');
  expect(rest).toEqual([]);
});

it('of two entries with one id the first counts', () => {
  expect(
    byId([
      { id: 'a', n: 1 },
      { id: 'a', n: 2 },
    ]).get('a'),
  ).toEqual({ id: 'a', n: 1 });
});
