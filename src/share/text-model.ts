import { Correction, Guesses, hash, Mixer, Repeat } from './guesses.js';
import { probability } from './logistic.js';

const CONTEXTS = 8;
/** Two guesses of each context, one of a repetition, and a constant. */
const INPUTS = CONTEXTS * 2 + 2;
const CONSTANT = 0.3;
const COLUMNS = 8;
const LINE_BREAK = 10;

/**
 * Guesses a text bit by bit, from what came in the same contexts before: after the same one, two, three or six
 * characters, in the same word, in the same word after the same one, under the same character of the line above, and
 * where the text repeats itself. The guesses are mixed, and those count most that were right in like places (the
 * method: M. V. Mahoney, "Adaptive Weighing of Context Models for Lossless Data Compression", Florida Institute of
 * Technology CS-2005-16, from memory).
 *
 * Whoever packs and whoever unpacks must guess alike on any machine, so there is nothing in here but sums, products,
 * quotients and whole numbers, which IEEE 754 and ECMAScript settle to the last bit. Everything is part of the packed
 * form: what is changed here takes a new version number in `pack.ts`.
 */
export class TextModel {
  private readonly contexts = Array.from({ length: CONTEXTS }, () => new Guesses());
  /** What the contexts are at present. */
  private readonly places = new Int32Array(CONTEXTS);
  private readonly repeat = new Repeat();
  private readonly inputs = new Float64Array(INPUTS);
  private readonly byBegun = new Mixer(256, this.inputs);
  private readonly byColumn = new Mixer(COLUMNS * 2, this.inputs);
  private readonly byLast = new Mixer(256, this.inputs);
  private readonly correction = new Correction(256);
  private readonly learners: readonly { learn(bit: number): void }[] = [
    this.byBegun, this.byColumn, this.byLast, this.correction, this.repeat, ...this.contexts,
  ];

  private readonly text: Uint8Array;
  /** How much of the text is known. */
  private length = 0;
  /** The known bits of the next character behind a 1. */
  private begun = 1;
  private lineStart = 0;
  private lineAbove = 0;
  private word = 0;
  private wordBefore = 0;

  /** @param most how many bytes of UTF-8 the text has at most */
  constructor(most: number) {
    this.text = new Uint8Array(most);
    this.inputs[INPUTS - 1] = CONSTANT;
    this.look();
  }

  /** How probable it is that the next bit is a 1. */
  next(): number {
    const { inputs, begun, length } = this;
    for (let i = 0; i < CONTEXTS; i += 1) this.contexts[i]!.guess(this.places[i]!, begun, inputs, 2 * i);
    this.repeat.guess(begun, inputs, 2 * CONTEXTS);
    const column = Math.min(length - this.lineStart, COLUMNS - 1) * 2 + (this.word === 0 ? 0 : 1);
    const mixed = (this.byBegun.mix(begun) + this.byColumn.mix(column) + this.byLast.mix(this.back(1))) / 3;
    return (probability(mixed) + this.correction.correct(mixed, begun)) / 2;
  }

  /** What the next bit is. Each `next` is to be followed by one. */
  learn(bit: number): void {
    for (const learner of this.learners) learner.learn(bit);
    this.begun = this.begun * 2 + bit;
    if (this.begun < 256) return;
    this.take(this.begun - 256);
    this.begun = 1;
    this.look();
  }

  private take(character: number): void {
    this.text[this.length] = character;
    this.length += 1;
    const letter = small(character);
    if (isLetter(letter)) {
      this.word = hash(this.word, letter);
    } else if (this.word !== 0) {
      this.wordBefore = this.word;
      this.word = 0;
    }
    if (character !== LINE_BREAK) return;
    this.wordBefore = 0;
    this.lineAbove = this.lineStart;
    this.lineStart = this.length;
  }

  private look(): void {
    const { places } = this;
    const two = hash(small(this.back(1)), small(this.back(2)));
    const three = hash(two, small(this.back(3)));
    const column = this.length - this.lineStart;
    const above = this.lineAbove + column < this.lineStart - 1 ? this.text[this.lineAbove + column]! : LINE_BREAK;
    places[0] = 0;
    places[1] = this.back(1);
    places[2] = two;
    places[3] = three;
    places[4] = hash(hash(three, hash(this.back(4), this.back(5))), this.back(6));
    places[5] = this.word;
    places[6] = hash(this.wordBefore, this.word);
    places[7] = hash(above, Math.min(column, 12));
    this.repeat.look(this.text, this.length);
  }

  private back(n: number): number {
    return n <= this.length ? this.text[this.length - n]! : LINE_BREAK;
  }
}

/** Capital letters of ASCII as small ones. */
function small(character: number): number {
  return character >= 65 && character <= 90 ? character + 32 : character;
}

/** Every byte of a character beyond ASCII counts as a letter. */
function isLetter(character: number): boolean {
  return (character >= 97 && character <= 122) || character >= 128;
}
