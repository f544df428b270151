import { type AllMessages, enAnswer } from './messages/en-answer.js';
import type { Reader } from './reader.js';

/** A reader, with the texts for the steps after reading too. */
export interface FullReader extends Reader {
  readonly m: AllMessages;
}

/** English is loaded in two parts; what another language says of its own goes before it. */
export function inFull(reader: Reader): FullReader {
  return { ...reader, m: { ...enAnswer, ...reader.m } };
}
