/** Of the two spellings of a signature the one with the lower s: up to and with half the order of the curve (FIPS 186-4, D.1.2.3; from memory). */
import { expect, it } from 'vitest';
import { hasLowS, withLowS } from '../../../src/share/low-s.js';

const ORDER = 0xffffffff00000000ffffffffffffffffbce6faada7179e84f3b9cac2fc632551n;
const HALF = (ORDER - 1n) / 2n;

/** r is 1, 2, 3 …, so that it shows when it is touched. */
function signature(s: bigint): Uint8Array {
  const r = Array.from({ length: 32 }, (_, i) => i + 1);
  return Uint8Array.from([...r, ...Buffer.from(s.toString(16).padStart(64, '0'), 'hex')]);
}

it.each([
  ['1', 1n, true],
  ['half the order', HALF, true],
  ['one more than half', HALF + 1n, false],
  ['the order less one', ORDER - 1n, false],
])('s of %s', (_, s, isLow) => {
  expect(hasLowS(signature(s))).toBe(isLow);
  // n − s is as valid as s; the lower of the two is the same for both.
  expect(withLowS(signature(s))).toEqual(signature(s < ORDER - s ? s : ORDER - s));
});

it('changes a copy, and only the s of it', () => {
  const high = signature(ORDER - 258n);
  expect([...withLowS(high)]).toEqual([...signature(258n)]);
  expect(high).toEqual(signature(ORDER - 258n));
});

it('is never said of anything but 64 bytes', () => {
  const low = signature(1n);
  expect([low.slice(1), Uint8Array.from([...low, 0]), new Uint8Array()].map(hasLowS)).toEqual([false, false, false]);
});
