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
 * What came after a context, twice over: how often a 1, and the last seven bits in their order together with what such
 * orders have led to. Contexts that fall on one slot are told apart by a mark; the newer one takes it.
 *
 * @param inputs where the log odds of its two guesses go, from place `k` on: 0 where nothing is known
 */
export function contextGuesses(inputs: Float64Array, k: number): { guess(context: number, begun: number): void; learn: Learner } {
  const marks = new Uint8Array(SLOTS);
  const chances = new Float32Array(SLOTS).fill(0.5);
  const seen = new Uint8Array(SLOTS);
  const last = new Uint8Array(SLOTS);
  const afterLast = Float64Array.from({ length: 256 }, (_, bits) => mostOf(bits));
  const timesLast = new Uint8Array(256);
  let slot = 0;

  return {
    guess(context, begun) {
      const hashed = hash(context, begun);
      const mark = hashed >>> 24;
      slot = hashed & (SLOTS - 1);
      if (marks[slot] !== mark) {
        marks[slot] = mark;
        chances[slot] = 0.5;
        seen[slot] = last[slot] = 0;
      }
      const isKnown = seen[slot]! > 0;
      inputs[k] = isKnown ? logOdds(chances[slot]!) : 0;
      inputs[k + 1] = isKnown ? logOdds(afterLast[last[slot]!]!) : 0;
    },
    learn(bit) {
      const before = last[slot]!;
      if (seen[slot]! > 0) {
        afterLast[before] = bounded(afterLast[before]! + (bit - afterLast[before]!) / (timesLast[before]! + 6));
        if (timesLast[before]! < 60) timesLast[before]! += 1;
      }
      chances[slot] = bounded(chances[slot]! + (bit - chances[slot]!) / (seen[slot]! + 1.3));
      if (seen[slot]! < 255) seen[slot]! += 1;
      const bits = (before || 1) * 2 + bit;
      last[slot] = bits < 256 ? bits : (bits & 127) + 128;
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
export function repeatGuess(text: Uint8Array, inputs: Float64Array, k: number): { look(known: number): void; guess(begun: number): void; learn: Learner } {
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
 * Weighs guesses, with weights of its own for each of so many situations: those that were right there count more. `mix`
 * gives log odds.
 */
export function mixer(situations: number, inputs: Float64Array): { mix(situation: number): number; learn: Learner } {
  const weights = new Float64Array(situations * inputs.length).fill(0.2);
  let from = 0;
  let mixed = 0;

  return {
    mix(situation) {
      from = situation * inputs.length;
      let sum = 0;
      for (let i = 0; i < inputs.length; i += 1) sum += inputs[i]! * weights[from + i]!;
      return (mixed = Math.min(Math.max(sum, -12), 12));
    },
    learn(bit) {
      const step = (bit - probability(mixed)) * 0.012;
      for (let i = 0; i < inputs.length; i += 1) weights[from + i]! += step * inputs[i]!;
    },
  };
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
