import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseRates } from '../../../src/index.js';
import { canonicalJson } from '../../../src/versions/canonical-json.js';
import { contentHash } from '../../../src/versions/content-hash.js';

describe('canonical JSON', () => {
  it('sorts keys by UTF-16 code units: the example of RFC 8785, section 3.2.3 (from memory)', () => {
    const json = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    };
    expect(Object.values(JSON.parse(canonicalJson(json).replace('"1":"One",', '')) as object)).toEqual([
      'Carriage Return',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  it('is JSON that says the same, whatever the order of the keys', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 4 }), (value) => {
        // JSON itself has no -0.
        const plain = JSON.parse(JSON.stringify(value)) as unknown;
        expect(JSON.parse(canonicalJson(plain))).toEqual(plain);
        expect(canonicalJson(reversed(plain))).toBe(canonicalJson(plain));
      }),
      { numRuns: 300 },
    );
  });

  it('leaves out keys without a value, as JSON does', () => {
    expect(canonicalJson({ b: undefined, a: [undefined, null] })).toBe('{"a":[null,null]}');
  });
});

describe('the content hash', () => {
  it('is the SHA-256 that Node has of that text', () => {
    const card = JSON.parse(readFileSync('rates/card.demo.json', 'utf8')) as object;
    expect(contentHash(card)).toBe(createHash('sha256').update(canonicalJson(card)).digest('hex'));
    expect(contentHash({})).toBe('44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a');
  });

  it('of a card that was read stays the same when it is written and read again', () => {
    const read = parseRates(readFileSync('rates/card.demo.json', 'utf8'));
    if (!read.ok) throw new Error('the demo card does not read');
    const again = parseRates(JSON.stringify(read.value, null, 2));
    expect(again.ok && contentHash(again.value)).toBe(contentHash(read.value));
  });

  it('changes with one digit', () => {
    expect(contentHash({ rate: '150.00' })).not.toBe(contentHash({ rate: '150.0' }));
  });
});

function reversed(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(reversed);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, inner]) => [key, reversed(inner)]),
  );
}
