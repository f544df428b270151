import { describe, expect, it } from 'vitest';
import { parseEstimate } from '../../../src/index.js';

const smallest = { format: 'baysheet-estimate', version: 1, id: 'e' };
const hash = 'a'.repeat(64);

describe('the card and the catalogue that an estimate was quoted under', () => {
  it('may be missing, and is then not written', () => {
    const read = parseEstimate(smallest);
    expect(read.ok && 'quoted' in read.value).toBe(false);
  });

  it('are two content hashes', () => {
    const read = parseEstimate({ ...smallest, quoted: { rates: hash, catalogue: hash } });
    expect(read.ok && read.value.quoted).toEqual({ rates: hash, catalogue: hash });
  });

  it.each([
    [{ rates: hash }],
    [{ rates: hash, catalogue: 'A'.repeat(64) }],
    [{ rates: hash, catalogue: hash.slice(1) }],
    [{ rates: hash, catalogue: hash, x: 1 }],
    [null],
    [[]],
  ])('are refused as %j', (quoted) => {
    const read = parseEstimate({ ...smallest, quoted });
    expect(read.ok).toBe(false);
    expect(read.problems[0]!.path).toMatch(/^quoted/);
  });
});
