import { textModel } from './text-model.js';
import { atOnce, inTurns } from './turns.js';

/**
 * Arithmetic coding (Rissanen 1976; Witten, Neal, Cleary 1987): the text is a number in a range, which each bit
 * narrows by how probable it was. What was guessed well takes next to nothing. A text has exactly one packed form.
 */

/** A phone takes a few milliseconds for so many characters. */
const CHARACTERS_IN_A_STEP = 32;

/** What is left of the range, with a model that has read the dictionary. */
function* coder(dictionary: Uint8Array, length: number) {
  const model = textModel(dictionary.length + length);
  for (const [i, character] of dictionary.entries()) {
    bitsOf(character, (bit) => void (model.next(), model.learn(bit)));
    if (i % CHARACTERS_IN_A_STEP === 0) yield;
  }
  let [low, high] = [0, 0xffffffff];

  return {
    /** The last number of the range that means a 1. Whatever the model says, either bit can come. */
    split: (): number => {
      const share = Math.min(Math.max(Math.floor(model.next() * 65_536), 1), 65_535);
      return low + Math.floor(((high - low) * share) / 65_536);
    },
    /** Takes a bit in; `settled` gets each byte which the ends of the range have in common then. */
    take: (bit: number, middle: number, settled: (byte: number) => void): void => {
      model.learn(bit);
      if (bit === 1) high = middle;
      else low = middle + 1;
      while (low >>> 24 === high >>> 24) {
        settled(high >>> 24);
        low = (low << 8) >>> 0;
        high = ((high << 8) | 255) >>> 0;
      }
    },
    /** What it takes to end inside the range, when zeros are read behind the end. */
    ending: (): number[] => (low === 0 ? [] : [(low >>> 24) + 1]),
  };
}

function bitsOf(character: number, each: (bit: number) => void): void {
  for (let i = 7; i >= 0; i -= 1) each((character >> i) & 1);
}

/** Packs bytes of UTF-8. How many there were is not in it. */
export function packText(text: Uint8Array, dictionary: Uint8Array): Uint8Array {
  const { split, take, ending } = atOnce(coder(dictionary, text.length));
  const packed: number[] = [];
  for (const character of text) bitsOf(character, (bit) => take(bit, split(), (byte) => packed.push(byte)));
  return Uint8Array.from([...packed, ...ending()]);
}

/** The `length` bytes that were packed, or null where these are not exactly what packing some would have given. */
export function unpackText(packed: Uint8Array, length: number, dictionary: Uint8Array): Uint8Array | null {
  return atOnce(unpacking(packed, length, dictionary));
}

/** The same, while the page goes on answering its reader. */
export function unpackTextInTurns(packed: Uint8Array, length: number, dictionary: Uint8Array): Promise<Uint8Array | null> {
  return inTurns(unpacking(packed, length, dictionary));
}

function* unpacking(packed: Uint8Array, length: number, dictionary: Uint8Array): Generator<void, Uint8Array | null> {
  const { split, take, ending } = yield* coder(dictionary, length);
  const text = new Uint8Array(length);
  let code = 0;
  let read = 0;
  const readOn = (): void => {
    code = ((code << 8) | (packed[read] ?? 0)) >>> 0;
    read += 1;
  };
  for (let i = 0; i < 4; i += 1) readOn();
  for (let at = 0; at < length; at += 1) {
    // Nothing that was packed goes on so far behind its end.
    if (read > packed.length + 4) return null;
    if (at % CHARACTERS_IN_A_STEP === 0) yield;
    let character = 1;
    while (character < 256) {
      const middle = split();
      const bit = code <= middle ? 1 : 0;
      take(bit, middle, readOn);
      character = character * 2 + bit;
    }
    text[at] = character;
  }
  const end = ending();
  const isWhole = packed.length === read - 4 + end.length && (end.length === 0 || end[0] === packed.at(-1));
  return isWhole ? text : null;
}
