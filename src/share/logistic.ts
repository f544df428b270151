/**
 * The logistic function and its inverse, by tables that are made with multiplication and division alone. `Math.exp` and
 * `Math.log` may differ in their last digit from one browser to the next, and a link packed by one must open in all.
 */

/** e to the power of 1/128, IEEE 754 double. */
const STEP = 1.0078430972064478;
const PER_UNIT = 128;
const MOST = 12;

/** 1 / (1 + e^-x) for x = 0, 1/128, … 12. */
const upperHalf = ((): Float64Array => {
  const table = new Float64Array(MOST * PER_UNIT + 2);
  let odds = 1;
  for (let i = 0; i < table.length; i += 1) {
    table[i] = odds / (1 + odds);
    odds *= STEP;
  }
  return table;
})();

/** The probability whose log odds are `x`; beyond 12 either way it is that of 12. */
export function probability(x: number): number {
  const place = Math.min(x < 0 ? -x : x, MOST) * PER_UNIT;
  const i = Math.floor(place);
  const upper = upperHalf[i]! + (upperHalf[i + 1]! - upperHalf[i]!) * (place - i);
  return x < 0 ? 1 - upper : upper;
}

const GRAINS = 4096;

const oddsOf = ((): Float64Array => {
  const table = new Float64Array(GRAINS);
  let i = 0;
  for (let grain = GRAINS / 2; grain < GRAINS; grain += 1) {
    const p = (grain + 0.5) / GRAINS;
    while (upperHalf[i + 1]! < p) i += 1;
    const x = (i + (p - upperHalf[i]!) / (upperHalf[i + 1]! - upperHalf[i]!)) / PER_UNIT;
    table[grain] = x;
    table[GRAINS - 1 - grain] = -x;
  }
  return table;
})();

/** The log odds of a probability from 0 to less than 1, to 1/4096 of it. */
export function logOdds(p: number): number {
  return oddsOf[Math.floor(p * GRAINS)]!;
}
