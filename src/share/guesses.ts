import { logOdds, probability } from './logistic.js';

/**
 * What `textModel` guesses with. All of it is part of the packed form: whoever unpacks must guess as the one who packed
 * did, to the last bit. They are functions and not classes because names of fields stay in a script for the phone.
 */

/** Something that is told each bit after it has been asked for a guess about it. */
export type Learner = (bit: number) => void;

/** Mixes two whole numbers into one of 32 bits. */
export function hash(a: number, b: number): number {
  const mixed = Math.imul(Math.imul(a ^ (a >>> 15), 0x85ebca6b) ^ b, 0x9e3779b1);
  return mixed ^ (mixed >>> 13);
}

/** Never quite certain. */
function bounded(chance: number): number {
  return Math.min(Math.max(chance, 1 / 4096), 4095 / 4096);
}

const SLOTS = 1 << 18;

/**
 * What came after each of several contexts, twice over: how often a 1, and the last seven bits in their order together
 * with what such orders have led to. Contexts that fall on one slot are told apart by a mark; the newer one takes it.
 *
 * @param inputs where the log odds of the guesses go, two for each context: 0 where nothing is known
 */
export function contextGuesses(inputs: Float64Array, count: number): { guess(contexts: Int32Array, begun: number): void; learn: Learner } {
  // A slot is two numbers side by side, since memory that lies together comes together: how probable a 1 is; and in one
  // word its mark, how often it was seen, and the last bits behind a leading 1.
  const chances = new Float32Array(count * SLOTS * 2);
  const words = new Int32Array(chances.buffer);
  const afterLast = Float64Array.from({ length: count * 256 }, (_, i) => mostOf(i & 255));
  const timesLast = new Uint8Array(count * 256);
  /** Where the slot of each context is at present. */
  const slots = new Int32Array(count);
  const marks = new Int32Array(count);
  const found = new Int32Array(count);

  return {
    guess(contexts, begun) {
      // In two loops, so that the waits for memory fall together.
      for (let c = 0; c < count; c += 1) {
        const hashed = hash(contexts[c]!, begun);
        const slot = (c * SLOTS + (hashed & (SLOTS - 1))) * 2;
        slots[c] = slot;
        marks[c] = hashed >>> 24;
        found[c] = words[slot + 1]!;
      }
      for (let c = 0; c < count; c += 1) {
        const slot = slots[c]!;
        let word = found[c]!;
        if (word >>> 16 !== marks[c]!) word = words[slot + 1] = marks[c]! << 16;
        const isKnown = (word & 0xff00) !== 0;
        inputs[2 * c] = isKnown ? logOdds(chances[slot]!) : 0;
        inputs[2 * c + 1] = isKnown ? logOdds(afterLast[c * 256 + (word & 255)]!) : 0;
      }
    },
    learn(bit) {
      for (let c = 0; c < count; c += 1) {
        const slot = slots[c]!;
        const word = words[slot + 1]!;
        const seen = (word >>> 8) & 255;
        const before = word & 255;
        const orders = c * 256 + before;
        if (seen > 0) {
          afterLast[orders] = bounded(afterLast[orders]! + (bit - afterLast[orders]!) / (timesLast[orders]! + 6));
          if (timesLast[orders]! < 60) timesLast[orders]! += 1;
        }
        const chance = seen > 0 ? chances[slot]! : 0.5;
        chances[slot] = bounded(chance + (bit - chance) / (seen + 1.3));
        const bits = (before || 1) * 2 + bit;
        words[slot + 1] = (word & 0xff0000) | (Math.min(seen + 1, 255) << 8) | (bits < 256 ? bits : (bits & 127) + 128);
      }
    },
  };
}

/** What is guessed after the bits of `bits` behind the leading one, before anything was learnt: what most of them were. */
function mostOf(bits: number): number {
  let [ones, all] = [0.4, 0.8];
  for (let rest = bits; rest > 1; rest >>= 1) {
    ones += rest & 1;
    all += 1;
  }
  return bounded(ones / all);
}

const LONGEST = 40;

/**
 * The last place where the same few characters stood: what came then may come again. `look` finds it once `known`
 * characters of the text are known.
 *
 * @param inputs where the log odds of its guess go, to place `k`: 0 where nothing is repeated
 */
export function repeatGuess(
  text: Uint8Array,
  inputs: Float64Array,
  k: number,
): { look(known: number): void; guess(begun: number): void; learn: Learner } {
  const places = new Map<number, number>();
  /** How probable it is that it goes on, after so many characters that were the same. */
  const holds = Float64Array.from({ length: LONGEST + 1 }, (_, length) => 1 - 1 / (length + 3));
  let at = 0;
  let length = 0;
  let expected = 0;
  let bit = 0;

  return {
    look(known) {
      if (length > 0) {
        at += 1;
        length = Math.min(length + 1, LONGEST);
      }
      for (const few of [7, 4]) {
        if (known < few) continue;
        let key = few;
        for (let i = 1; i <= few; i += 1) key = hash(key, text[known - i]!);
        const place = places.get(key);
        if (length === 0 && place !== undefined) {
          at = place;
          while (length < Math.min(LONGEST, place) && text[place - 1 - length] === text[known - 1 - length]) length += 1;
        }
        places.set(key, known);
      }
      expected = text[at]! + 256;
    },
    guess(begun) {
      const left = Math.clz32(begun) - 23;
      if (expected >>> left !== begun) length = 0;
      bit = (expected >>> (left - 1)) & 1;
      const odds = length === 0 ? 0 : logOdds(holds[length]!);
      inputs[k] = bit === 1 ? odds : -odds;
    },
    learn(actual) {
      if (length === 0) return;
      holds[length] = bounded(holds[length]! + ((actual === bit ? 1 : 0) - holds[length]!) / 24);
      if (actual !== bit) length = 0;
    },
  };
}

/**
 * Weighs guesses three times over, each with weights of its own for each of so many situations: those that were right
 * there count more. `mix` gives the mean of the three, in log odds.
 */
export function mixers(
  inputs: Float64Array,
  situations: readonly [number, number, number],
): { mix(a: number, b: number, c: number): number; learn: Learner } {
  const all = inputs.length;
  const [forA, forB, forC] = situations.map((count) => new Float64Array(count * all).fill(0.2)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  let [fromA, fromB, fromC] = [0, 0, 0];
  let [mixedA, mixedB, mixedC] = [0, 0, 0];

  return {
    mix(a, b, c) {
      fromA = a * all;
      fromB = b * all;
      fromC = c * all;
      let [sumA, sumB, sumC] = [0, 0, 0];
      // In one loop, so that no sum waits for itself.
      for (let i = 0; i < all; i += 1) {
        const input = inputs[i]!;
        sumA += input * forA[fromA + i]!;
        sumB += input * forB[fromB + i]!;
        sumC += input * forC[fromC + i]!;
      }
      mixedA = clamped(sumA);
      mixedB = clamped(sumB);
      mixedC = clamped(sumC);
      return (mixedA + mixedB + mixedC) / 3;
    },
    learn(bit) {
      const stepA = (bit - probability(mixedA)) * 0.012;
      const stepB = (bit - probability(mixedB)) * 0.012;
      const stepC = (bit - probability(mixedC)) * 0.012;
      for (let i = 0; i < all; i += 1) {
        const input = inputs[i]!;
        forA[fromA + i]! += stepA * input;
        forB[fromB + i]! += stepB * input;
        forC[fromC + i]! += stepC * input;
      }
    },
  };
}

function clamped(odds: number): number {
  return Math.min(Math.max(odds, -12), 12);
}

/** Log odds from -8 to 8 in steps of two thirds. */
const STEPS = 25;

/** How good a mixed guess has proved, in each of so many situations. `correct` gives the probability instead of that of `odds`. */
export function correction(situations: number): { correct(odds: number, situation: number): number; learn: Learner } {
  const proved = Float64Array.from({ length: situations * STEPS }, (_, i) => probability(((i % STEPS) - 12) / 1.5));
  let below = 0;
  let share = 0;

  return {
    correct(odds, situation) {
      const place = Math.min(Math.max(odds, -7.99), 7.99) * 1.5 + 12;
      below = situation * STEPS + Math.floor(place);
      share = place - Math.floor(place);
      return proved[below]! * (1 - share) + proved[below + 1]! * share;
    },
    learn(bit) {
      proved[below]! += (bit - proved[below]!) * 0.02 * (1 - share);
      proved[below + 1]! += (bit - proved[below + 1]!) * 0.02 * share;
    },
  };
}
