import { Decimal as Shared } from 'decimal.js';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { DECIMAL_PATTERN, decimal, max, min, percentOf, printPlain, sum, ZERO } from '../../../src/number/decimal.js';

describe('the arithmetic is exact', () => {
  it('adds tenths without the slip of binary floating point', () => {
    // As a JavaScript number 0.1 + 0.2 is 0.30000000000000004.
    expect(printPlain(sum([decimal('0.1'), decimal('0.2')]))).toBe('0.3');
  });

  it('keeps every digit of a product of two of the longest figures', () => {
    // 999999999999.9999999999² = (10^12 − 10^-10)² = 10^24 − 200 + 10^-20.
    const longest = decimal('999999999999.9999999999');
    expect(printPlain(longest.times(longest))).toBe('999999999999999999999800.00000000000000000001');
  });

  it('keeps a large and a small figure apart in one sum', () => {
    expect(printPlain(sum([decimal('999999999999'), decimal('0.0000000001')]))).toBe('999999999999.0000000001');
  });

  it('takes a percentage without rounding', () => {
    // 8.875 % of 0.01 = 0.0008875.
    expect(printPlain(percentOf(decimal('0.01'), decimal('8.875')))).toBe('0.0008875');
  });
});

describe('a host page that sets the shared constructor', () => {
  afterEach(() => Shared.set({ defaults: true }));

  it('does not change the sums of the engine', () => {
    Shared.set({ precision: 3 });
    expect(printPlain(decimal('1234.56').plus('0.01'))).toBe('1234.57');
  });

  it('does not change them either where it has done so before the engine is loaded', async () => {
    Shared.set({ precision: 3, maxE: 4, rounding: Shared.ROUND_DOWN });
    vi.resetModules();
    const fresh = await import('../../../src/number/decimal.js');
    expect(fresh.printPlain(fresh.decimal('123456789.125').times('2'))).toBe('246913578.25');
  });

  it('is not changed by the engine either', () => {
    expect(Shared.precision).toBe(20);
  });
});

describe('plain print', () => {
  it.each([
    ['1.20', '1.2'],
    ['-0', '0'],
    ['0.0000000001', '0.0000000001'],
    ['100000000000', '100000000000'],
    ['-3.50', '-3.5'],
  ])('%s → %s', (figure, printed) => expect(printPlain(decimal(figure))).toBe(printed));
});

describe('the form of a figure', () => {
  it.each(['0', '148.00', '-3', '999999999999.9999999999'])('takes %s', (text) => expect(DECIMAL_PATTERN.test(text)).toBe(true));
  it.each(['', '1e3', '1,5', '+1', '.5', '1.', ' 1', '1\n', '١', '1234567890123', '0.12345678901', 'NaN', 'Infinity'])(
    'refuses %j',
    (text) => expect(DECIMAL_PATTERN.test(text)).toBe(false),
  );
});

it('max and min of equal figures give that figure, an empty sum is zero', () => {
  expect([max(decimal('2'), decimal('3')), max(decimal('3'), decimal('2'))].map(printPlain)).toEqual(['3', '3']);
  expect([min(decimal('2'), decimal('3')), min(decimal('3'), decimal('2'))].map(printPlain)).toEqual(['2', '2']);
  expect(printPlain(max(decimal('1.0'), decimal('1')))).toBe('1');
  expect(sum([]).eq(ZERO)).toBe(true);
});
