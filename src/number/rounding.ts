import { Decimal } from './decimal.js';

/**
 * How a figure that falls between two money steps is rounded. All three treat a negative amount as the mirror
 * image of the positive one.
 *
 * - `half-up`: to the nearest step, a half away from zero (Streamlined Sales and Use Tax Agreement s. 324,
 *   Revenu Québec, the Australian GST Act s. 9-90);
 * - `half-even`: to the nearest step, a half to the even one (IEEE 754 roundTiesToEven);
 * - `half-down`: to the nearest step, a half towards zero (New Zealand GST Act 1985 s. 19O).
 */
export type Rounding = 'half-up' | 'half-even' | 'half-down';

const MODES = {
  'half-up': Decimal.ROUND_HALF_UP,
  'half-even': Decimal.ROUND_HALF_EVEN,
  'half-down': Decimal.ROUND_HALF_DOWN,
} as const satisfies Record<Rounding, number>;

/** `value` at the nearest multiple of `step` (greater than zero). */
export function round(value: Decimal, step: Decimal, rounding: Rounding): Decimal {
  return value.div(step).toDecimalPlaces(0, MODES[rounding]).times(step);
}

/** `value` at `digits` decimal places: `round` for a step of a tenth, a hundredth and so on, but much faster. */
export function roundToDigits(value: Decimal, digits: number, rounding: Rounding): Decimal {
  return value.toDecimalPlaces(digits, MODES[rounding]);
}

/** `value` cut off at the multiple of `step` that lies towards zero. */
export function truncate(value: Decimal, step: Decimal): Decimal {
  return value.div(step).trunc().times(step);
}
