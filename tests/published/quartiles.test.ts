/**
 * Quartiles against another implementation of definition 7 of Hyndman and Fan, "Sample Quantiles in Statistical
 * Packages", The American Statistician 50 (1996), pp. 361-365 (cited from memory), which R's quantile() and
 * numpy.quantile() use by default. The values were computed for this test by CPython 3.11,
 * `statistics.quantiles(data, n=4, method='inclusive')`, whose documentation names the same interpolation.
 */
import { expect, it } from 'vitest';
import { decimal } from '../../src/number/decimal.js';
import { quartile } from '../../src/replay/quantile.js';

it.each([
  ['6 7 15 36 39 40 41 42 43 47 49', ['25.5', '40', '42.5']],
  ['7 15 36 39 40 41', ['20.25', '37.5', '39.75']],
  // CPython gives 1.4249999999999998 here, being binary.
  ['0.8 0.9 1.1 1.2 1.3 1.4 1.5 2.75', ['1.05', '1.25', '1.425']],
  ['3 4', ['3.25', '3.5', '3.75']],
  ['5', ['5', '5', '5']],
])('quartiles of %s', (values, expected) => {
  const sorted = values.split(' ').map(decimal);
  expect(([1, 2, 3] as const).map((quarters) => quartile(sorted, quarters).toFixed())).toEqual(expected);
});
