/**
 * Exact decimals for a phone: the operations of `decimal.js` that the engine calls, on the platform's own big integers,
 * in a tenth of its bytes. A value is `units / 10^places`. Results are the same to the last digit, which the tests try
 * on random figures and on whole estimates.
 *
 * `alias.ts` puts it in the place of `decimal.js` when the element is built.
 */
export class Decimal {
  static readonly ROUND_HALF_UP = 4;
  static readonly ROUND_HALF_DOWN = 5;
  static readonly ROUND_HALF_EVEN = 6;

  /** The settings that the engine asks for (120 digits, half up) are the only ones there are. */
  static clone(): typeof Decimal {
    return Decimal;
  }

  private readonly units: bigint;
  private readonly places: number;

  constructor(value: string | number | Decimal) {
    if (value instanceof Decimal) {
      this.units = value.units;
      this.places = value.places;
      return;
    }
    const match = /^(-?\d+)(?:\.(\d+))?$/.exec(String(value));
    if (match === null) throw new Error(`Not a decimal: ${value}`);
    this.places = match[2]?.length ?? 0;
    this.units = BigInt(match[1]! + (match[2] ?? ''));
  }

  plus(value: string | number | Decimal): Decimal {
    const other = new Decimal(value);
    const places = Math.max(this.places, other.places);
    return make(this.at(places) + other.at(places), places);
  }

  minus(value: string | number | Decimal): Decimal {
    return this.plus(new Decimal(value).neg());
  }

  times(value: string | number | Decimal): Decimal {
    const other = new Decimal(value);
    return make(this.units * other.units, this.places + other.places);
  }

  /** To 120 significant digits, half away from zero. */
  div(value: string | number | Decimal): Decimal {
    const other = new Decimal(value);
    if (other.units === 0n) throw new Error('Division by zero');
    const least = Math.max(0, other.places - this.places);
    // Money divided by money mostly ends soon; then no long figure need be made.
    for (const more of [least, least + 20]) {
      const over = this.units * ten(more);
      if (over % other.units === 0n) return make(over / other.units, this.places - other.places + more);
    }
    let more = Math.max(least, PRECISION + digits(other.units) - digits(this.units));
    if (digits((this.units * ten(more)) / other.units) > PRECISION && more > least) more -= 1;
    return make(nearest(this.units * ten(more), other.units, Decimal.ROUND_HALF_UP), this.places - other.places + more);
  }

  /** What a division in whole numbers leaves, with the sign of this. */
  mod(value: string | number | Decimal): Decimal {
    const other = new Decimal(value);
    const places = Math.max(this.places, other.places);
    return make(this.at(places) % other.at(places), places);
  }

  /** To a whole power. */
  pow(exponent: number): Decimal {
    const power = make(this.units ** BigInt(Math.abs(exponent)), this.places * Math.abs(exponent));
    return exponent < 0 ? new Decimal(1).div(power) : power;
  }

  neg(): Decimal {
    return make(-this.units, this.places);
  }

  trunc(): Decimal {
    return make(this.units / ten(this.places), 0);
  }

  floor(): Decimal {
    const whole = this.trunc();
    return whole.gt(this) ? whole.minus(1) : whole;
  }

  toDecimalPlaces(places: number, rounding: number = Decimal.ROUND_HALF_UP): Decimal {
    if (places >= this.places) return this;
    return make(nearest(this.units, ten(this.places - places), rounding), places);
  }

  cmp(value: string | number | Decimal): number {
    const other = new Decimal(value);
    const places = Math.max(this.places, other.places);
    const [a, b] = [this.at(places), other.at(places)];
    return a < b ? -1 : a > b ? 1 : 0;
  }

  eq(value: string | number | Decimal): boolean {
    return this.cmp(value) === 0;
  }

  gt(value: string | number | Decimal): boolean {
    return this.cmp(value) > 0;
  }

  gte(value: string | number | Decimal): boolean {
    return this.cmp(value) >= 0;
  }

  lt(value: string | number | Decimal): boolean {
    return this.cmp(value) < 0;
  }

  lte(value: string | number | Decimal): boolean {
    return this.cmp(value) <= 0;
  }

  isZero(): boolean {
    return this.units === 0n;
  }

  /** How many digits stand after the point, without zeros at the end. */
  decimalPlaces(): number {
    return this.bare().places;
  }

  /** With so many places, or with as many as there are. */
  toFixed(places?: number): string {
    const value = places === undefined ? this.bare() : this.toDecimalPlaces(places);
    const shown = places ?? value.places;
    const text = String(value.at(shown))
      .replace('-', '')
      .padStart(shown + 1, '0');
    const point = text.length - shown;
    return `${value.units < 0n ? '-' : ''}${text.slice(0, point)}${shown > 0 ? `.${text.slice(point)}` : ''}`;
  }

  toString(): string {
    return this.toFixed();
  }

  private at(places: number): bigint {
    return this.units * ten(places - this.places);
  }

  private bare(): Decimal {
    let { units, places } = this;
    while (places > 0 && units % 10n === 0n) {
      units /= 10n;
      places -= 1;
    }
    return make(units, places);
  }
}

export default Decimal;

const PRECISION = 120;

function make(units: bigint, places: number): Decimal {
  return Object.assign(Object.create(Decimal.prototype) as Decimal, { units, places });
}

const POWERS: bigint[] = [];

function ten(power: number): bigint {
  return (POWERS[power] ??= 10n ** BigInt(power));
}

function digits(units: bigint): number {
  return String(units).replace('-', '').length;
}

/** The whole number that `over / under` is nearest to. */
function nearest(over: bigint, under: bigint, rounding: number): bigint {
  const whole = over / under;
  const positive = (value: bigint): bigint => (value < 0n ? -value : value);
  const left = 2n * positive(over % under) - positive(under);
  const isTie = left === 0n;
  const up = left > 0n || (isTie && (rounding === Decimal.ROUND_HALF_UP || (rounding === Decimal.ROUND_HALF_EVEN && whole % 2n !== 0n)));
  return up ? whole + (over < 0n === under < 0n ? 1n : -1n) : whole;
}
