import { describe, expect, it } from 'vitest';
import { closure, cycles } from '../../../src/documents/closure.js';

const along =
  (graph: Record<string, string[]>) =>
  (id: string): string[] =>
    graph[id] ?? [];

describe('closure', () => {
  it('reaches what is needed through others, each once, in order of discovery', () => {
    const next = along({ a: ['b', 'c'], b: ['d'], c: ['d', 'e'] });
    expect([...closure(['a'], next)]).toEqual(['a', 'b', 'd', 'c', 'e']);
  });

  it('ends in a ring', () => {
    expect([...closure(['a'], along({ a: ['b'], b: ['a'] }))]).toEqual(['a', 'b']);
  });

  it('follows a chain of 10,000 without running out of stack', () => {
    const next = (id: string): string[] => (id === '9999' ? [] : [String(Number(id) + 1)]);
    expect(closure(['0'], next).size).toBe(10_000);
  });
});

describe('cycles', () => {
  it('finds none where two ways lead to the same', () => {
    expect(cycles('abcd', along({ a: ['b', 'c'], b: ['d'], c: ['d'] }))).toEqual([]);
  });

  it('tells a ring once, from its first id on, without what leads to it', () => {
    expect(cycles(['x', 'a', 'b', 'c'], along({ x: ['a'], a: ['b'], b: ['c'], c: ['a'] }))).toEqual([['a', 'b', 'c']]);
  });

  it('tells what needs itself', () => {
    expect(cycles(['a'], along({ a: ['a'] }))).toEqual([['a']]);
  });

  it('tells two rings of one relation', () => {
    expect(cycles(['a', 'b', 'c', 'd'], along({ a: ['b'], b: ['a'], c: ['d'], d: ['c'] }))).toEqual([
      ['a', 'b'],
      ['c', 'd'],
    ]);
  });

  it('follows a ring of 10,000', () => {
    const ids = Array.from({ length: 10_000 }, (_, i) => String(i));
    const found = cycles(ids, (id) => [String((Number(id) + 1) % 10_000)]);
    expect(found.map((ring) => ring.length)).toEqual([10_000]);
  });
});
