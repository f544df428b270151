import { describe, expect, it } from 'vitest';
import { printPlain } from '../../../src/number/decimal.js';
import { readNumber } from '../../../src/number/locale-parse.js';
import { evaluateSum } from '../../../src/number/sum.js';

const worked = (text: string): string => {
  const result = evaluateSum(text, (number) => readNumber(number, 'en-US'));
  return result.ok ? printPlain(result.value) : result.reason;
};

describe('a sum as one does it by hand', () => {
  it.each([
    ['2*14.95+3', '32.9'],
    ['3+2*14.95', '32.9'],
    ['(3+2)*14.95', '74.75'],
    ['10-2-3', '5'],
    ['100/4/5', '5'],
    ['2*(3+(4-1))', '12'],
    ['-5+3', '-2'],
    ['2*-3', '-6'],
    ['--5', '5'],
    ['+5', '5'],
    // Percent is a hundredth of the figure before it.
    ['10%', '0.1'],
    ['200*6%', '12'],
    ['100+10%', '100.1'],
    ['(50+50)%', '1'],
    // Exact, where binary floating point is not: 0.1 × 3 is 0.30000000000000004 there.
    ['0.1*3', '0.3'],
    ['1.005*1000', '1005'],
    // Signs as word processors and calculators write them.
    ['2×3', '6'],
    ['6÷4', '1.5'],
    ['6:4', '1.5'],
    ['5−3', '2'],
    [' 1 + 1 ', '2'],
    ['1,000*2', '2000'],
  ])('%s = %s', (text, result) => expect(worked(text)).toBe(result));
});

describe('what is no sum says why', () => {
  it.each([
    ['', /empty/],
    ['   ', /empty/],
    ['1+', /stops in the middle/],
    ['(1+2', /not closed/],
    ['1+2)', /"\)" on/],
    ['5 6', /"6" on/],
    ['2**3', /missing before "\*"/],
    ['*3', /missing before "\*"/],
    ['()', /missing before "\)"/],
    ['A1+2', /missing before "A"/],
    ['1/0', /divides by zero/],
    ['1/(2-2)', /divides by zero/],
    ['1,5*2', /two ways/],
    ['2^3', /"\^" on/],
    ['1;2', /";" on/],
    ['alert(1)', /missing before "a"/],
  ])('%j', (text, reason) => expect(worked(text)).toMatch(reason));

  it('one that is too long is not read at all', () => {
    expect(worked('1+'.repeat(150) + '1')).toMatch(/too long/);
    expect(worked(`${'1+'.repeat(149)}10`)).toBe('159');
    expect(worked('('.repeat(10_000_000))).toMatch(/too long/);
  });

  it('the deepest brackets that fit do not run out of stack', () => {
    expect(worked(`${'('.repeat(149)}1${')'.repeat(149)}`)).toBe('1');
    expect(worked(`${'-'.repeat(298)}1`)).toBe('1');
  });
});
