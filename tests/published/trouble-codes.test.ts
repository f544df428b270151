/**
 * SAE J2012 / ISO 15031-6, form of a trouble code. READ in abstracts of the standard and in public tables of codes: five
 * characters, the first P, C, B or U, the second 0 to 3; 0 is a code of the standard, 1 one of the maker. MEMORY: the last
 * three are hexadecimal; a failure type byte (J2012, ISO 14229 "DTC low byte") may follow as two hexadecimal digits.
 */
import { describe, expect, it } from 'vitest';
import { readTroubleCode } from '../../src/documents/trouble-code.js';
import { codeSystem } from '../../src/findings/codes.js';

describe('codes of public tables', () => {
  it.each(['P0171', 'P0174', 'P0172', 'P0442', 'P0455', 'U0100', 'C0035', 'B0028', 'P3400', 'P0A7F'])('%s is one', (code) => {
    expect(readTroubleCode(code)).toEqual({ ok: true, code });
  });

  it.each([
    ['p0171', 'P0171'],
    [' u0100-87 ', 'U0100-87'],
    ['U0100:87', 'U0100-87'],
    ['U010087', 'U0100-87'],
    ['u0100 87', 'U0100-87'],
  ])('"%s" is %s', (typed, code) => expect(readTroubleCode(typed)).toEqual({ ok: true, code }));

  it.each([
    ['', 'P, C, B or U'],
    ['A0171', 'P, C, B or U'],
    ['P4171', 'from 0 to 3'],
    ['PO171', 'from 0 to 3'],
    ['P0O71', 'letter O'],
    ['P017', 'three digits'],
    ['P01711', 'three digits'],
    ['P017G', 'three digits'],
    ['U0100-8', 'three digits'],
    ['U0100-8G', 'three digits'],
  ])('"%s" is none', (typed, reason) => {
    const read = readTroubleCode(typed);
    expect(read.ok).toBe(false);
    expect(!read.ok && read.reason).toContain(reason);
  });

  it('the first two characters say of what and by whom', () => {
    expect(['P0171', 'P1171', 'C0035', 'B1028', 'U0100-87', 'P2135'].map(codeSystem)).toEqual([
      'powertrain, set by the standard',
      'powertrain, set by the maker',
      'chassis, set by the standard',
      'body, set by the maker',
      'network, set by the standard',
      'powertrain',
    ]);
  });
});
