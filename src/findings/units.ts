import { type Decimal, decimal, type DecimalString } from '../number/decimal.js';

/** What a unit measures. */
export type Quantity =
  'pressure' | 'temperature' | 'voltage' | 'current' | 'resistance' | 'share' | 'length' | 'time' | 'speed of rotation' | 'torque' | 'flow';

/** A unit: its factor to the first unit of its quantity over a divisor, and where its zero lies. */
interface Unit {
  readonly name: string;
  readonly quantity: Quantity;
  readonly factor: DecimalString;
  /** For what has no finite decimals: a degree Fahrenheit is 5/9 of a degree Celsius. */
  readonly divisor: DecimalString;
  readonly zero: DecimalString;
}

const unit = (quantity: Quantity, name: string, factor: DecimalString, divisor = '1', zero = '0'): Unit => ({
  name,
  quantity,
  factor,
  divisor,
  zero,
});

/** The units that readings in a workshop come in. Factors between systems are those of NIST SP 811, appendix B.8. */
const UNITS: readonly Unit[] = [
  unit('pressure', 'kPa', '1'),
  unit('pressure', 'hPa', '0.1'),
  unit('pressure', 'mbar', '0.1'),
  unit('pressure', 'bar', '100'),
  unit('pressure', 'MPa', '1000'),
  unit('pressure', 'psi', '6.894757'),
  unit('pressure', 'inHg', '3.386389'),
  unit('temperature', '°C', '1'),
  unit('temperature', '°F', '5', '9', '32'),
  unit('voltage', 'V', '1'),
  unit('voltage', 'mV', '0.001'),
  unit('current', 'A', '1'),
  unit('current', 'mA', '0.001'),
  unit('resistance', 'Ω', '1'),
  unit('resistance', 'kΩ', '1000'),
  unit('resistance', 'MΩ', '1000000'),
  unit('share', '%', '1'),
  unit('length', 'mm', '1'),
  unit('length', 'cm', '10'),
  unit('time', 'min', '1'),
  unit('time', 's', '1', '60'),
  unit('time', 'h', '60'),
  unit('speed of rotation', 'rpm', '1'),
  unit('torque', 'Nm', '1'),
  unit('torque', 'lbf·ft', '1.355818'),
  unit('flow', 'L/min', '1'),
];

/** How else they are written, in small letters. */
const OTHERWISE: Readonly<Record<string, string>> = {
  ºc: '°C',
  ºf: '°F',
  ohm: 'Ω',
  ohms: 'Ω',
  kohm: 'kΩ',
  minute: 'min',
  minutes: 'min',
  '1/min': 'rpm',
  'u/min': 'rpm',
  'n·m': 'Nm',
  'lb-ft': 'lbf·ft',
  'ft-lb': 'lbf·ft',
};

const byName = new Map(UNITS.map((known) => [known.name, known]));
/** Without regard to case, where that leaves no doubt. */
const bySmallName = new Map(UNITS.map((known) => [known.name.toLowerCase(), known]));

function unitOf(written: string): Unit | null {
  const small = written.toLowerCase();
  return byName.get(written) ?? byName.get(OTHERWISE[small] ?? '') ?? bySmallName.get(small) ?? null;
}

/** What a unit measures; null for one that is not known. */
export function quantityOf(written: string): Quantity | null {
  return unitOf(written)?.quantity ?? null;
}

/** A figure in another unit of the same quantity; null where the two do not go together. A unit that is not known goes with itself. */
export function convert(value: Decimal, from: string, to: string): Decimal | null {
  const [a, b] = [unitOf(from), unitOf(to)];
  if (a === b) return a !== null || from.trim().toLowerCase() === to.trim().toLowerCase() ? value : null;
  if (a === null || b === null || a.quantity !== b.quantity) return null;
  const first = value.minus(decimal(a.zero)).times(decimal(a.factor)).div(decimal(a.divisor));
  return first.times(decimal(b.divisor)).div(decimal(b.factor)).plus(decimal(b.zero));
}
