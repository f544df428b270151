import { TextModel } from './text-model.js';

/**
 * Arithmetic coding (Rissanen 1976; Witten, Neal, Cleary 1987): the text is a number in a range, which each bit
 * narrows by how probable it was. What was guessed well takes next to nothing. A text has exactly one packed form.
 */

/** The range that is left; bytes which its ends have in common are settled. */
class Range {
  low = 0;
  high = 0xffffffff;
  private middle = 0;

  /** @param chance how probable a 1 is; whatever it is, either bit can come */
  split(chance: number): number {
    const share = Math.min(Math.max(Math.floor(chance * 65_536), 1), 65_535);
    this.middle = this.low + Math.floor(((this.high - this.low) * share) / 65_536);
    return this.middle;
  }

  narrow(bit: number): void {
    if (bit === 1) this.high = this.middle;
    else this.low = this.middle + 1;
  }

  isSettled(): boolean {
    return this.low >>> 24 === this.high >>> 24;
  }

  shift(): void {
    this.low = (this.low << 8) >>> 0;
    this.high = ((this.high << 8) | 255) >>> 0;
  }

  /** What it takes to end inside the range, when zeros are read behind the end. */
  ending(): number[] {
    return this.low === 0 ? [] : [(this.low >>> 24) + 1];
  }
}

/** A model that has read the dictionary. */
function primed(dictionary: Uint8Array, length: number): TextModel {
  const model = new TextModel(dictionary.length + length);
  for (const character of dictionary) {
    for (let i = 7; i >= 0; i -= 1) {
      model.next();
      model.learn((character >> i) & 1);
    }
  }
  return model;
}

/** Packs bytes of UTF-8. How many there were is not in it. */
export function packText(text: Uint8Array, dictionary: Uint8Array): Uint8Array {
  const model = primed(dictionary, text.length);
  const range = new Range();
  const packed: number[] = [];
  for (const character of text) {
    for (let i = 7; i >= 0; i -= 1) {
      const bit = (character >> i) & 1;
      range.split(model.next());
      range.narrow(bit);
      model.learn(bit);
      while (range.isSettled()) {
        packed.push(range.high >>> 24);
        range.shift();
      }
    }
  }
  return Uint8Array.from([...packed, ...range.ending()]);
}

/** The `length` bytes that were packed, or null where these are not exactly what packing some would have given. */
export function unpackText(packed: Uint8Array, length: number, dictionary: Uint8Array): Uint8Array | null {
  const model = primed(dictionary, length);
  const range = new Range();
  const text = new Uint8Array(length);
  let read = 0;
  const byte = (): number => packed[read++] ?? 0;
  let code = ((byte() << 24) | (byte() << 16) | (byte() << 8) | byte()) >>> 0;
  for (let at = 0; at < length; at += 1) {
    let character = 0;
    for (let i = 0; i < 8; i += 1) {
      const bit = code <= range.split(model.next()) ? 1 : 0;
      range.narrow(bit);
      model.learn(bit);
      character = character * 2 + bit;
      while (range.isSettled()) {
        // Nothing that was packed goes on so far behind its end.
        if (read > packed.length + 4) return null;
        range.shift();
        code = ((code << 8) | byte()) >>> 0;
      }
    }
    text[at] = character;
  }
  const settled = read - 4;
  const ending = range.ending();
  const isWhole = packed.length === settled + ending.length && ending.every((end, i) => end === packed[settled + i]);
  return isWhole ? text : null;
}
