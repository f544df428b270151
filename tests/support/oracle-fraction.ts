/**
 * Exact fractions over BigInt, for the second computation that the tests hold against the engine.
 * Nothing here comes from `src`: a fault in the engine's decimals cannot hide in its own proof.
 */

export type Rounding = 'half-up' | 'half-even' | 'half-down';

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  let [x, y] = [a < 0n ? -a : a, b < 0n ? -b : b];
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}

/** A number kept as `above / below`, in lowest terms, with `below` positive. */
export class Fraction {
  readonly above: bigint;
  readonly below: bigint;

  constructor(above: bigint, below = 1n) {
    if (below === 0n) throw new RangeError('a fraction over nothing');
    const sign = below < 0n ? -1n : 1n;
    const divisor = greatestCommonDivisor(above, below) || 1n;
    this.above = (sign * above) / divisor;
    this.below = (sign * below) / divisor;
  }

  /** Reads a decimal string such as "-12.50". */
  static of(text: string | number | bigint): Fraction {
    const match = /^(-?)(\d+)(?:\.(\d+))?$/.exec(String(text));
    if (!match) throw new RangeError(`not a decimal string: ${JSON.stringify(text)}`);
    const [, minus, whole, part = ''] = match;
    const digits = BigInt(`${whole}${part}`);
    return new Fraction(minus ? -digits : digits, 10n ** BigInt(part.length));
  }

  plus(other: Fraction): Fraction {
    return new Fraction(this.above * other.below + other.above * this.below, this.below * other.below);
  }

  minus(other: Fraction): Fraction {
    return this.plus(other.negated());
  }

  times(other: Fraction): Fraction {
    return new Fraction(this.above * other.above, this.below * other.below);
  }

  over(other: Fraction): Fraction {
    return new Fraction(this.above * other.below, this.below * other.above);
  }

  negated(): Fraction {
    return new Fraction(-this.above, this.below);
  }

  /** Negative, zero or positive as this is below, equal to or above the other. */
  compare(other: Fraction): number {
    const difference = this.above * other.below - other.above * this.below;
    return difference < 0n ? -1 : difference > 0n ? 1 : 0;
  }

  equals(other: Fraction): boolean {
    return this.above === other.above && this.below === other.below;
  }

  get isZero(): boolean {
    return this.above === 0n;
  }

  get sign(): number {
    return this.above < 0n ? -1 : this.above > 0n ? 1 : 0;
  }

  /** The largest whole number that is not above this one. */
  floor(): bigint {
    const quotient = this.above / this.below;
    return this.above % this.below < 0n ? quotient - 1n : quotient;
  }

  /** The nearest multiple of `step`; a tie goes as `rounding` says, negatives as the mirror of positives. */
  rounded(step: Fraction, rounding: Rounding): Fraction {
    const steps = this.over(step);
    const size = steps.sign < 0 ? steps.negated() : steps;
    const whole = size.floor();
    const againstHalf = size.minus(new Fraction(whole)).compare(new Fraction(1n, 2n));
    const up = againstHalf > 0 || (againstHalf === 0 && (rounding === 'half-up' || (rounding === 'half-even' && whole % 2n === 1n)));
    const nearest = new Fraction(up ? whole + 1n : whole).times(step);
    return steps.sign < 0 ? nearest.negated() : nearest;
  }

  /** Plain decimals where they end, else `above/below`: for messages only. */
  toString(): string {
    let digits = 0;
    let scaled = new Fraction(this.above, this.below);
    while (scaled.below !== 1n && digits < 24) {
      scaled = scaled.times(new Fraction(10n));
      digits += 1;
    }
    if (scaled.below !== 1n) return `${this.above}/${this.below}`;
    const size = (scaled.above < 0n ? -scaled.above : scaled.above).toString().padStart(digits + 1, '0');
    const whole = size.slice(0, size.length - digits);
    return `${scaled.above < 0n ? '-' : ''}${whole}${digits ? `.${size.slice(-digits)}` : ''}`;
  }
}

export const ZERO = new Fraction(0n);
export const ONE = new Fraction(1n);
const HUNDRED = new Fraction(100n);

export function sum(values: Iterable<Fraction>): Fraction {
  let total = ZERO;
  for (const value of values) total = total.plus(value);
  return total;
}

export function least(a: Fraction, b: Fraction): Fraction {
  return a.compare(b) <= 0 ? a : b;
}

export function most(a: Fraction, b: Fraction): Fraction {
  return a.compare(b) >= 0 ? a : b;
}

export function percentOf(percent: string, base: Fraction): Fraction {
  return base.times(Fraction.of(percent)).over(HUNDRED);
}
