import { type Decimal, decimal } from '../number/decimal.js';

/**
 * A quantile by linear interpolation between the values on both sides of it: definition 7 of Hyndman and Fan, "Sample
 * Quantiles in Statistical Packages", The American Statistician 50 (1996), which R and NumPy use unless told otherwise.
 *
 * @param sorted at least one value, in rising order
 * @param quarters 1, 2 or 3: lower quartile, median, upper quartile
 */
export function quartile(sorted: readonly Decimal[], quarters: 1 | 2 | 3): Decimal {
  const place = (sorted.length - 1) * quarters;
  const below = sorted[Math.floor(place / 4)]!;
  const above = sorted[Math.ceil(place / 4)]!;
  return below.plus(
    above
      .minus(below)
      .times(QUARTER)
      .times(place % 4),
  );
}

const QUARTER = decimal('0.25');
