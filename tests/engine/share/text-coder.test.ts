/** The packed form of a text: exact, in one spelling, and no longer than the model's guesses make it. */
import { describe, expect, it } from 'vitest';
import { DICTIONARY_2 } from '../../../src/share/dictionary.js';
import { logOdds, probability } from '../../../src/share/logistic.js';
import { packText, unpackText } from '../../../src/share/text-coder.js';
import { textModel } from '../../../src/share/text-model.js';

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const dictionary = utf8(DICTIONARY_2);
const seed = Number(process.env['BAYSHEET_SEED'] ?? 1);

function random(): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) % below;
  };
}

/** Bytes of which some are frequent, some are rare and some go on for long. */
function bytesOf(below: (n: number) => number): Uint8Array {
  const bytes: number[] = [];
  const kinds = 1 + below(256);
  while (bytes.length < 1200 && below(60) > 0) {
    const byte = below(kinds) ^ (below(40) === 0 ? 255 : 0);
    bytes.push(...Array.from({ length: below(12) === 0 ? 40 : 1 }, () => byte));
  }
  return Uint8Array.from(bytes);
}

describe(`packText and unpackText (seed ${seed})`, () => {
  it('give back all bytes', () => {
    const below = random();
    const texts = [
      utf8(''),
      utf8('a'),
      Uint8Array.of(0),
      Uint8Array.of(255),
      new Uint8Array(3000),
      new Uint8Array(3000).fill(255),
      dictionary,
    ];
    for (let i = 0; i < 20; i += 1) texts.push(bytesOf(below));
    for (const [i, text] of texts.entries()) {
      const words = i % 5 === 0 ? dictionary : new Uint8Array();
      expect(unpackText(packText(text, words), text.length, words)).toEqual(text);
    }
  });

  it('know one packed form of each text: bytes that were changed, cut off or made longer are another text, or none', () => {
    const below = random();
    const none = new Uint8Array();
    let refused = 0;
    for (let i = 0; i < 25; i += 1) {
      const text = bytesOf(below);
      const packed = packText(text, none);
      const place = below(packed.length + 1);
      const changed = [
        packed.slice(0, -1),
        Uint8Array.from([...packed, below(256)]),
        Uint8Array.from([...packed, 0]),
        packed.map((byte, at) => (at === place ? byte ^ 1 : byte)),
      ];
      for (const bytes of changed) {
        const other = unpackText(bytes, text.length, none);
        if (other === null) refused += 1;
        else expect(packText(other, none)).toEqual(bytes);
      }
    }
    expect(refused).toBeGreaterThan(25);
  });

  it('read no further than a few bytes behind the end, whatever length is claimed', () => {
    expect(unpackText(utf8('nothing that was ever packed'), 65_535, dictionary)).toBeNull();
    expect(unpackText(new Uint8Array(), 65_535, new Uint8Array())).toBeNull();
  });

  it('take what the guesses are worth and a byte or two: -log2 of the probability of each bit (Shannon 1948)', () => {
    const text = utf8('The pads at the left front wheel are worn below their limit.\nThe pads at the right front wheel are worn, too.\n');
    const model = textModel(dictionary.length + text.length);
    let worth = 0;
    for (const [bytes, counts] of [
      [dictionary, false],
      [text, true],
    ] as const) {
      for (const byte of bytes) {
        for (let i = 7; i >= 0; i -= 1) {
          const bit = (byte >> i) & 1;
          const chance = model.next();
          expect(chance > 0 && chance < 1).toBe(true);
          if (counts) worth -= Math.log2(bit === 1 ? chance : 1 - chance);
          model.learn(bit);
        }
      }
    }
    const { length } = packText(text, dictionary);
    expect(length).toBeGreaterThanOrEqual(Math.floor(worth / 8));
    expect(length).toBeLessThanOrEqual(Math.ceil(worth / 8) + 2);
    expect(length).toBeLessThan(text.length / 3);
  });
});

describe('the logistic function', () => {
  it('is that of Math.exp, as nearly as its tables are fine', () => {
    for (let x = -13; x <= 13; x += 0.0371) {
      const within = Math.min(Math.max(x, -12), 12);
      expect(Math.abs(probability(x) - 1 / (1 + Math.exp(-within)))).toBeLessThan(1e-5);
    }
  });

  it('has log odds as its inverse', () => {
    for (let grain = 0; grain < 4096; grain += 1) {
      const p = (grain + 0.5) / 4096;
      expect(Math.abs(logOdds(p) - Math.log(p / (1 - p)))).toBeLessThan(1e-4);
      expect(probability(logOdds(p))).toBeCloseTo(p, 6);
    }
    expect(logOdds(0)).toBe(logOdds(0.0001));
  });
});
