import { contextGuesses, correction, hash, type Learner, mixers, repeatGuess } from './guesses.js';
import { probability } from './logistic.js';

const CONTEXTS = 8;
/** Two guesses of each context, one of a repetition, and a constant. */
const INPUTS = CONTEXTS * 2 + 2;
const CONSTANT = 0.3;
const COLUMNS = 8;
const LINE_BREAK = 10;

export interface TextModel {
  /** How probable it is that the next bit is a 1. */
  next(): number;
  /** What the next bit is; each `next` is to be followed by one. */
  learn: Learner;
}

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
 *
 * @param most how many bytes of UTF-8 the text has at most
 */
export function textModel(most: number): TextModel {
  const inputs = new Float64Array(INPUTS).fill(CONSTANT);
  const contexts = contextGuesses(inputs, CONTEXTS);
  /** What the contexts are at present. */
  const places = new Int32Array(CONTEXTS);
  const text = new Uint8Array(most);
  const repeat = repeatGuess(text, inputs, 2 * CONTEXTS);
  /** By the bits that are begun, by the column, and by the last character. */
  const mixed = mixers(inputs, [256, COLUMNS * 2, 256]);
  const corrected = correction(256);

  /** How much of the text is known. */
  let length = 0;
  /** The known bits of the next character behind a 1. */
  let begun = 1;
  let lineStart = 0;
  let lineAbove = 0;
  let word = 0;
  let wordBefore = 0;

  const back = (n: number): number => (n <= length ? text[length - n]! : LINE_BREAK);

  function take(character: number): void {
    text[length] = character;
    length += 1;
    const letter = small(character);
    if (isLetter(letter)) {
      word = hash(word, letter);
    } else if (word !== 0) {
      wordBefore = word;
      word = 0;
    }
    if (character !== LINE_BREAK) return;
    wordBefore = 0;
    lineAbove = lineStart;
    lineStart = length;
  }

  function look(): void {
    const two = hash(small(back(1)), small(back(2)));
    const three = hash(two, small(back(3)));
    const column = length - lineStart;
    const above = lineAbove + column < lineStart - 1 ? text[lineAbove + column]! : LINE_BREAK;
    places.set([
      0,
      back(1),
      two,
      three,
      hash(hash(three, hash(back(4), back(5))), back(6)),
      word,
      hash(wordBefore, word),
      hash(above, Math.min(column, 12)),
    ]);
    repeat.look(length);
  }

  look();
  return {
    next() {
      contexts.guess(places, begun);
      repeat.guess(begun);
      const column = Math.min(length - lineStart, COLUMNS - 1) * 2 + (word === 0 ? 0 : 1);
      const odds = mixed.mix(begun, column, back(1));
      return (probability(odds) + corrected.correct(odds, begun)) / 2;
    },
    learn(bit) {
      mixed.learn(bit);
      corrected.learn(bit);
      repeat.learn(bit);
      contexts.learn(bit);
      begun = begun * 2 + bit;
      if (begun < 256) return;
      take(begun - 256);
      begun = 1;
      look();
    },
  };
}

/** Capital letters of ASCII as small ones. */
function small(character: number): number {
  return character >= 65 && character <= 90 ? character + 32 : character;
}

/** Every byte of a character beyond ASCII counts as a letter. */
function isLetter(character: number): boolean {
  return (character >= 97 && character <= 122) || character >= 128;
}
