import { describe, expect, it } from 'vitest';
import { beyondLimits, LIMITS } from '../../../src/documents/limits.js';

const nested = (depth: number): unknown => {
  let value: unknown = 'x';
  for (let i = 0; i < depth; i += 1) value = { inner: value };
  return value;
};

describe('how deep', () => {
  it('as deep as the limit is let through, one more is not', () => {
    expect(beyondLimits(nested(LIMITS.depth))).toBeNull();
    expect(beyondLimits(nested(LIMITS.depth + 1))).toContain('nested deeper');
  });

  it('a value that holds itself is refused', () => {
    const ring: Record<string, unknown> = {};
    ring.self = ring;
    expect(beyondLimits(ring)).toContain('nested deeper');
  });

  it('100,000 levels do not run out of stack', () => expect(beyondLimits(nested(100_000))).not.toBeNull());
});

describe('how long', () => {
  it('a list as long as the limit is let through, one more is not', () => {
    expect(beyondLimits(new Array(LIMITS.entries).fill(0))).toBeNull();
    expect(beyondLimits(new Array(LIMITS.entries + 1).fill(0))).toContain(`${LIMITS.entries + 1} entries`);
  });

  it('a list that claims four thousand million entries is refused at once', () => {
    expect(beyondLimits({ lines: new Array(4_000_000_000) })).toContain('entries');
  });
});

it('how much in all: a list of lists beyond a million values is refused', () => {
  const row = new Array(1000).fill(0);
  expect(beyondLimits(new Array(990).fill(row))).toBeNull();
  expect(beyondLimits(new Array(1001).fill(row))).toContain(`more than ${LIMITS.values} values`);
});
