import { pause } from './platform.js';

/** So long a page may be kept from answering its reader, in milliseconds; what else it does in the same turn comes on top. */
const TURN = 10;

/** Does work that yields now and then, and lets others have their turn in between. */
export async function inTurns<T>(work: Iterator<void, T>): Promise<T> {
  let began = Date.now();
  for (;;) {
    const { done, value } = work.next();
    if (done === true) return value;
    if (Date.now() - began < TURN) continue;
    await pause();
    began = Date.now();
  }
}

/** Does it at once. */
export function atOnce<T>(work: Iterator<void, T>): T {
  for (;;) {
    const { done, value } = work.next();
    if (done === true) return value;
  }
}
