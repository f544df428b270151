import { logOdds, probability } from './logistic.js';

/**
 * What `TextModel` guesses with. All of it is part of the packed form: whoever unpacks must guess as the one who
 * packed, to the last bit.
 */

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
 */
export class Guesses {
  private readonly marks = new Uint8Array(SLOTS);
  private readonly chance = new Float32Array(SLOTS).fill(0.5);
  private readonly seen = new Uint8Array(SLOTS);
  private readonly last = new Uint8Array(SLOTS);
  private readonly afterLast = Float64Array.from({ length: 256 }, (_, bits) => mostOf(bits));
  private readonly timesLast = new Uint8Array(256);
  private slot = 0;

  /** Writes the log odds of two guesses into `inputs` from place `k` on, 0 where nothing is known. */
  guess(context: number, begun: number, inputs: Float64Array, k: number): void {
    const hashed = hash(context, begun);
    const slot = hashed & (SLOTS - 1);
    const mark = hashed >>> 24;
    this.slot = slot;
    if (this.marks[slot] !== mark) {
      this.marks[slot] = mark;
      this.chance[slot] = 0.5;
      this.seen[slot] = 0;
      this.last[slot] = 0;
    }
    const isKnown = this.seen[slot]! > 0;
    inputs[k] = isKnown ? logOdds(this.chance[slot]!) : 0;
    inputs[k + 1] = isKnown ? logOdds(this.afterLast[this.last[slot]!]!) : 0;
  }

  learn(bit: number): void {
    const { slot } = this;
    const seen = this.seen[slot]!;
    const last = this.last[slot]!;
    if (seen > 0) {
      const times = this.timesLast[last]!;
      this.afterLast[last] = bounded(this.afterLast[last]! + (bit - this.afterLast[last]!) / (times + 6));
      if (times < 60) this.timesLast[last] = times + 1;
    }
    this.chance[slot] = bounded(this.chance[slot]! + (bit - this.chance[slot]!) / (seen + 1.3));
    if (seen < 255) this.seen[slot] = seen + 1;
    const bits = (last === 0 ? 2 : last * 2) + bit;
    this.last[slot] = bits < 256 ? bits : (bits & 127) + 128;
  }
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

/** The last place where the same few characters stood: what came then may come again. */
export class Repeat {
  private readonly places = new Map<number, number>();
  /** How probable it is that it does, after so many characters that were the same. */
  private readonly holds = Float64Array.from({ length: LONGEST + 1 }, (_, length) => 1 - 1 / (length + 3));
  private at = 0;
  private length = 0;
  private expected = 0;
  private bit = -1;

  /** Looks for such a place once `length` characters of the text are known. */
  look(text: Uint8Array, length: number): void {
    if (this.length > 0) {
      this.at += 1;
      this.length = Math.min(this.length + 1, LONGEST);
    }
    for (const few of [7, 4]) {
      if (length < few) continue;
      let key = few;
      for (let i = 1; i <= few; i += 1) key = hash(key, text[length - i]!);
      const place = this.places.get(key);
      if (this.length === 0 && place !== undefined) {
        this.at = place;
        while (this.length < Math.min(LONGEST, place) && text[place - 1 - this.length] === text[length - 1 - this.length]) this.length += 1;
      }
      this.places.set(key, length);
    }
    this.expected = text[this.at]! + 256;
  }

  /** Writes the log odds of a guess into `inputs` at place `k`, 0 where nothing is repeated. */
  guess(begun: number, inputs: Float64Array, k: number): void {
    const left = Math.clz32(begun) - 23;
    if (this.expected >>> left !== begun) this.length = 0;
    this.bit = this.length === 0 ? -1 : (this.expected >>> (left - 1)) & 1;
    const odds = this.length === 0 ? 0 : logOdds(this.holds[this.length]!);
    inputs[k] = this.bit === 1 ? odds : -odds;
  }

  learn(bit: number): void {
    if (this.bit < 0) return;
    const held = bit === this.bit;
    this.holds[this.length] = bounded(this.holds[this.length]! + ((held ? 1 : 0) - this.holds[this.length]!) / 24);
    if (!held) this.length = 0;
  }
}

/** Weighs guesses, with weights of its own for each of so many situations: those that were right there count more. */
export class Mixer {
  private readonly weights: Float64Array;
  private from = 0;
  private mixed = 0;

  constructor(
    situations: number,
    private readonly inputs: Float64Array,
  ) {
    this.weights = new Float64Array(situations * inputs.length).fill(0.2);
  }

  /** The log odds that come of it. */
  mix(situation: number): number {
    const { inputs, weights } = this;
    this.from = situation * inputs.length;
    let sum = 0;
    for (let i = 0; i < inputs.length; i += 1) sum += inputs[i]! * weights[this.from + i]!;
    this.mixed = Math.min(Math.max(sum, -12), 12);
    return this.mixed;
  }

  learn(bit: number): void {
    const { inputs, weights } = this;
    const step = (bit - probability(this.mixed)) * 0.012;
    for (let i = 0; i < inputs.length; i += 1) weights[this.from + i] = weights[this.from + i]! + step * inputs[i]!;
  }
}

/** Log odds from -8 to 8 in steps of two thirds. */
const STEPS = 25;

/** How good a mixed guess has proved, in each of so many situations. */
export class Correction {
  private readonly proved: Float64Array;
  private below = 0;
  private share = 0;

  constructor(situations: number) {
    this.proved = Float64Array.from({ length: situations * STEPS }, (_, i) => probability(((i % STEPS) - 12) / 1.5));
  }

  /** The probability instead of that of `odds`. */
  correct(odds: number, situation: number): number {
    const place = Math.min(Math.max(odds, -7.99), 7.99) * 1.5 + 12;
    this.below = situation * STEPS + Math.floor(place);
    this.share = place - Math.floor(place);
    return this.proved[this.below]! * (1 - this.share) + this.proved[this.below + 1]! * this.share;
  }

  learn(bit: number): void {
    const { proved, below, share } = this;
    proved[below] = proved[below]! + (bit - proved[below]!) * 0.02 * (1 - share);
    proved[below + 1] = proved[below + 1]! + (bit - proved[below + 1]!) * 0.02 * share;
  }
}
