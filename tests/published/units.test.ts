/**
 * NIST Special Publication 811 (2008), appendix B.8, factors for units: psi 6.894 757 E+00 kPa, inch of mercury (conventional)
 * 3.386 389 E+00 kPa, bar 1.0 E+02 kPa, pound-force foot 1.355 818 E+00 N·m, degree Fahrenheit (t − 32)/1.8. All MEMORY.
 */
import { expect, it } from 'vitest';
import { convert } from '../../src/findings/units.js';
import { decimal } from '../../src/number/decimal.js';

it.each([
  ['1', 'psi', 'kPa', '6.894757'],
  ['1', 'inHg', 'kPa', '3.386389'],
  ['1', 'bar', 'kPa', '100'],
  ['1', 'mbar', 'hPa', '1'],
  ['1', 'lbf·ft', 'Nm', '1.355818'],
  ['212', '°F', '°C', '100'],
  ['-40', '°F', '°C', '-40'],
  ['100', '°C', '°F', '212'],
  ['90', 's', 'min', '1.5'],
])('%s %s is %s %s', (value, from, to, expected) => {
  const converted = convert(decimal(value), from, to)!;
  // A third has no end, so what is divided by nine comes back within the arithmetic's 120 digits.
  expect(converted.minus(decimal(expected)).abs().lt('1e-100')).toBe(true);
});
