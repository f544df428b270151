/**
 * Random valid documents, heavy on sharing. Everything is drawn through fast-check, so a failure shrinks and its seed
 * brings it back: `forAll(300, (d) => { const documents = randomDocuments(d); … })`.
 */
import fc, { type GeneratorValue } from 'fast-check';
import type {
  AuthorisationDoc,
  CatalogueDoc,
  Decision,
  DiscountDoc,
  Documents,
  EstimateDoc,
  FeeDoc,
  Kind,
  LineDoc,
  OperationDoc,
  OperationLine,
  PartDoc,
  PartEntry,
  PartOverride,
  RatesDoc,
  StepDoc,
  SuppliesDoc,
  TaxDoc,
} from './oracle-documents.js';
import { Fraction, sum } from './oracle-fraction.js';
import { neededSteps } from './oracle-hours.js';
import { aCatalogue, aRateCard, anEstimate, feeLine, labourLine, operationLine, partLine } from './builders.js';

export interface Drawing {
  int(min: number, max: number): number;
  /** True in about `percent` of 100 draws. */
  chance(percent: number): boolean;
  pick<T>(from: readonly T[]): T;
  /** Some of the list, in its order; each entry with about `percent` chances of 100. */
  some<T>(from: readonly T[], percent: number): T[];
  /** A decimal string between 0 and `max` units of the last digit. */
  figure(max: number, digits: number): string;
}

/** Draws through one generator of fast-check. */
export function drawing(g: GeneratorValue): Drawing {
  const int = (min: number, max: number): number => g(fc.integer, { min, max });
  const chance = (percent: number): boolean => int(0, 99) >= 100 - percent;
  return {
    int,
    chance,
    pick: (from) => from[int(0, from.length - 1)]!,
    some: (from, percent) => from.filter(() => chance(percent)),
    // Fives at the end are frequent: they are what rounding turns on.
    figure: (max, digits) => decimalString(chance(30) ? 5 * int(0, Math.floor(max / 5)) : int(0, max), digits),
  };
}

/** How long a failing case is made smaller. */
export const SHRINK_FOR = 20_000;

/**
 * Checks `numRuns` random cases and, when one fails, makes it smaller for a while: all smaller cases pass once the time is
 * up, so that the smallest one found until then is told.
 */
export function forAll(numRuns: number, check: (d: Drawing) => void, options: { seed?: number; long?: boolean } = {}): void {
  const draw = options.long ? drawingLongFigures : drawing;
  let failedAt = Infinity;
  const property = fc.property(fc.gen(), (g) => {
    if (Date.now() - failedAt > SHRINK_FOR) return;
    try {
      check(draw(g));
    } catch (fault) {
      failedAt = Math.min(failedAt, Date.now());
      throw fault;
    }
  });
  fc.assert(property, { numRuns, ...(options.seed === undefined ? {} : { seed: options.seed }) });
}

/** The same draws with figures about as long as the formats allow: ten digits before the point (sums keep within twelve), ten after. */
export function drawingLongFigures(g: GeneratorValue): Drawing {
  const d = drawing(g);
  const digits = (most: number): string => String(d.int(0, 10 ** most - 1)).padStart(most, '0');
  const long = (): string => `${d.int(0, 10 ** d.int(1, 9))}.${digits(5)}${digits(5)}`;
  return { ...d, figure: (max, places) => (d.chance(50) ? long() : d.figure(max, places)) };
}

/** 1234 with two digits is "12.34": whole numbers to decimal strings without any floating point. */
export function decimalString(units: number, digits: number): string {
  const text = String(Math.abs(units)).padStart(digits + 1, '0');
  const sign = units < 0 ? '-' : '';
  return digits === 0 ? `${sign}${text}` : `${sign}${text.slice(0, -digits)}.${text.slice(-digits)}`;
}

const KINDS: readonly Kind[] = ['labour', 'part', 'core', 'sublet', 'fee', 'supplies'];
const POSITIONS = ['left-front', 'right-front', 'left-rear', 'right-rear'];
const ids = (prefix: string, count: number): string[] => Array.from({ length: count }, (_, i) => `${prefix}${i}`);

function randomParts(d: Drawing): PartDoc[] {
  return ids('p', d.int(1, 6)).map((id) => ({
    id,
    title: `Part ${id}`,
    number: id,
    cost: d.figure(15000, d.pick([2, 2, 3])),
    ...(d.chance(50) ? { list: d.figure(20000, 2) } : {}),
    core: d.chance(25) ? d.figure(3000, 2) : '0',
    condition: 'new' as const,
  }));
}

function partEntries(d: Drawing, parts: PartDoc[], each: boolean): PartEntry[] {
  return d.some(parts, 20).map((part) => ({
    part: part.id,
    qty: decimalString(d.int(1, 80), d.pick([0, 1])),
    ...(each && d.chance(40) ? { each: true } : {}),
  }));
}

/** Steps that may need only earlier ones: no cycle can come about, and vehicle steps need vehicle steps alone. */
function randomSteps(d: Drawing, parts: PartDoc[]): StepDoc[] {
  const steps: StepDoc[] = [];
  for (const id of ids('s', d.int(1, 7))) {
    const per = d.chance(35) ? ('position' as const) : ('vehicle' as const);
    const open = steps.filter((step) => per === 'position' || step.per === 'vehicle');
    steps.push({
      id,
      title: `Step ${id}`,
      hours: d.figure(15, 1),
      per,
      needs: d.some(open, 30).map((step) => step.id),
      parts: partEntries(d, parts, false),
      cautions: [],
    });
  }
  return d.chance(50) ? steps : steps.reverse();
}

function randomOperations(d: Drawing, steps: StepDoc[], parts: PartDoc[], fees: string[]): OperationDoc[] {
  const drawn = ids('o', d.int(1, 7)).map((id): OperationDoc => {
    const per = d.chance(40) ? ('position' as const) : ('vehicle' as const);
    const open = steps.filter((step) => per === 'position' || step.per === 'vehicle');
    return {
      id,
      title: `Operation ${id}`,
      system: 'test',
      labourClass: d.pick(['general', 'general', 'electrical', 'body']),
      per,
      bookHours: '0',
      ...(d.chance(70) ? { additionalHours: d.figure(9, 1) } : {}),
      steps: d.some(open, 45).map((step) => step.id),
      includes: [],
      parts: partEntries(d, parts, true),
      fees: d.some(fees, 25),
      cautions: [],
      basis: 'invented',
    };
  });
  const catalogue = aCatalogue({ steps });
  const timed = drawn.map((operation) => {
    const needed = neededSteps(catalogue, operation).map((id) => steps.find((step) => step.id === id)!.hours);
    const book = sum(needed.map((hours) => Fraction.of(hours))).plus(Fraction.of(d.figure(30, 1)));
    return { ...operation, bookHours: book.toString() };
  });
  const notLonger = (a: OperationDoc, b: OperationDoc): boolean => Fraction.of(a.bookHours).compare(Fraction.of(b.bookHours)) <= 0;
  return timed.map((operation, i) => ({
    ...operation,
    includes: d
      .some(
        timed.slice(0, i).filter((other) => notLonger(other, operation)),
        15,
      )
      .map(({ id }) => id),
  }));
}

function randomOverlaps(d: Drawing, operations: OperationDoc[]): CatalogueDoc['overlaps'] {
  const overlaps: CatalogueDoc['overlaps'] = [];
  operations.forEach((a, i) =>
    operations.slice(i + 1).forEach((b) => {
      if (d.chance(50)) overlaps.push({ between: d.chance(50) ? [a.id, b.id] : [b.id, a.id], hours: d.figure(25, 1) });
    }),
  );
  return overlaps;
}

export function randomCatalogue(d: Drawing, fees: string[] = []): CatalogueDoc {
  const parts = randomParts(d);
  const steps = randomSteps(d, parts);
  const operations = randomOperations(d, steps, parts, fees);
  return aCatalogue({ parts, steps, operations, overlaps: randomOverlaps(d, operations) });
}

function randomTaxes(d: Drawing): TaxDoc[] {
  const taxes: TaxDoc[] = [];
  for (const id of ids('t', d.int(0, 3))) {
    taxes.push({
      id,
      title: `Tax ${id}`,
      percent: d.figure(25000, d.pick([3, 4])),
      on: d.some(KINDS, 55),
      after: d.some(taxes, 30).map((tax) => tax.id),
    });
  }
  return d.chance(50) ? taxes : taxes.reverse();
}

function randomTiers(d: Drawing): RatesDoc['parts']['tiers'] {
  const tops = [...new Set(ids('', d.int(0, 3)).map(() => d.int(1, 15000)))].sort((a, b) => a - b);
  return [...tops.map((top) => ({ upTo: decimalString(top, 2), percent: d.figure(2000, 1) })), { percent: d.figure(900, 1) }];
}

function randomSupplies(d: Drawing, taxes: TaxDoc[]): SuppliesDoc | null {
  if (d.chance(40)) return null;
  const limits = [d.int(0, 3000), d.int(0, 6000)].sort((a, b) => a - b);
  return {
    title: 'Shop supplies',
    percent: d.figure(150, 1),
    of: d.some(
      KINDS.filter((kind) => kind !== 'supplies'),
      40,
    ),
    minimum: d.chance(40) ? decimalString(limits[0]!, 2) : null,
    maximum: d.chance(40) ? decimalString(limits[1]!, 3) : null,
    ...(d.chance(40) ? { taxes: d.some(taxes, 50).map(({ id }) => id) } : {}),
  };
}

function randomFees(d: Drawing, taxes: TaxDoc[]): FeeDoc[] {
  return ids('f', d.int(0, 3)).map((id) => ({
    id,
    title: `Fee ${id}`,
    amount: d.figure(30000, d.pick([2, 3])),
    per: d.pick(['estimate', 'unit']),
    ...(d.chance(40) ? { taxes: d.some(taxes, 50).map((tax) => tax.id) } : {}),
  }));
}

/** Cash steps that go with a money step: a multiple of it, or what it is a multiple of. */
const CASH_STEPS: Readonly<Record<string, readonly string[]>> = { '0.25': ['0.05', '0.5', '1'], '0.002': ['0.05', '0.1', '1'] };

function randomAuthorisation(d: Drawing): AuthorisationDoc | null {
  if (d.chance(25)) return null;
  const orNull = (figure: string): string | null => (d.chance(25) ? null : figure);
  return {
    percent: orNull(d.figure(300, 1)),
    amount: orNull(d.figure(20000, d.pick([2, 4]))),
    pick: d.pick(['lesser', 'greater', 'percent', 'amount']),
    cap: d.chance(50) ? d.figure(15000, d.pick([2, 3])) : null,
    base: d.pick(['total', 'before-tax']),
    source: '',
  };
}

export function randomRates(d: Drawing): RatesDoc {
  const taxes = randomTaxes(d);
  const moneyStep = d.pick([null, null, null, '0.01', '1', '0.05', '0.5', '0.25', '0.002']);
  return aRateCard({
    currency: d.pick(['USD', 'USD', 'EUR', 'JPY', 'KWD', 'CLF']),
    rounding: d.pick(['half-up', 'half-even', 'half-down']),
    moneyStep,
    labourClasses: [
      { id: 'general', title: 'General repair', rate: d.figure(20000, 2) },
      { id: 'electrical', title: 'Electrical', rate: d.pick(['120.00', '148.00', '133.33']) },
      { id: 'body', title: 'Body', rate: d.pick(['148.00', '148.00', '95.5']) },
    ],
    parts: {
      basis: d.pick(['markup', 'list']),
      mode: d.pick(['whole', 'progressive']),
      tiers: randomTiers(d),
    },
    sublet: d.chance(15) ? null : { percent: d.figure(500, 1) },
    supplies: randomSupplies(d, taxes),
    fees: randomFees(d, taxes),
    taxes,
    taxRounding: d.pick(['total', 'line']),
    pricesIncludeTax: d.chance(30),
    cashStep: d.chance(30) ? null : d.pick(CASH_STEPS[moneyStep ?? ''] ?? ['0.05', '0.10', '1']),
    authorisation: randomAuthorisation(d),
  });
}

function randomDecision(d: Drawing): { decision?: Decision } {
  const decision = d.pick<Decision | null>([null, null, 'proposed', 'proposed', 'approved', 'declined', 'deferred']);
  return decision ? { decision } : {};
}

function partOverrides(d: Drawing, catalogue: CatalogueDoc): PartOverride[] {
  return d.some(catalogue.parts, 12).map((part) => ({
    part: part.id,
    ...(d.chance(50) ? { qty: decimalString(d.int(0, 60), d.pick([0, 1])) } : {}),
    ...(d.chance(30) ? { unitPrice: d.figure(90000, d.pick([2, 4])) } : {}),
    ...(d.chance(30) ? { cost: d.figure(20000, 2) } : {}),
    ...(d.chance(20) ? { condition: 'used' as const } : {}),
    ...(d.chance(15) ? { omit: true } : {}),
  }));
}

export function randomOperationLine(d: Drawing, id: string, catalogue: CatalogueDoc): OperationLine {
  const overrides = partOverrides(d, catalogue);
  return operationLine(id, d.pick(catalogue.operations).id, {
    positions: d.some(POSITIONS, 35),
    ...(d.chance(10) ? { labourClass: d.pick(['general', 'electrical', 'body']) } : {}),
    ...(d.chance(12) ? { bookHours: d.figure(60, 1) } : {}),
    ...(d.chance(12) ? { extraHours: { hours: d.figure(20, 2), reason: 'seized fasteners' } } : {}),
    ...(overrides.length > 0 ? { parts: overrides } : {}),
  });
}

function otherLine(d: Drawing, id: string): LineDoc {
  const price = (): string | null => (d.chance(50) ? d.figure(30000, d.pick([2, 4])) : null);
  switch (d.pick(['labour', 'part', 'part', 'sublet', 'fee', 'note'])) {
    case 'labour':
      return labourLine(id, d.figure(400, 2), { labourClass: d.pick(['general', 'electrical', 'body']) });
    case 'part':
      return partLine(id, decimalString(d.int(-40, 90), d.pick([0, 1, 3])), price(), {
        cost: d.figure(15000, 2),
        core: d.chance(30) ? d.figure(2500, 2) : '0',
      });
    case 'sublet':
      return { id, kind: 'sublet', title: `Sublet ${id}`, cost: d.figure(20000, 2), price: price() };
    case 'fee':
      return feeLine(id, decimalString(d.int(-6000, 9000), d.pick([2, 3])));
    default:
      return { id, kind: 'note', text: 'a note' };
  }
}

function randomDiscounts(d: Drawing, lines: LineDoc[]): DiscountDoc[] {
  return ids('d', d.int(0, 3)).map((id) => {
    const byPercent = d.chance(60);
    return {
      id,
      title: `Discount ${id}`,
      percent: byPercent ? d.figure(1200, 1) : null,
      amount: byPercent ? null : d.figure(40000, d.pick([2, 3])),
      on: [d.pick(KINDS), ...KINDS].filter((kind, i, all) => all.indexOf(kind) === i && (i === 0 || d.chance(40))),
      lines: d.chance(35) ? d.some(lines, 50).map((line) => line.id) : [],
    };
  });
}

/** Lines that name what the other documents lack, now and then. */
function spoil(d: Drawing, line: LineDoc): LineDoc {
  if (!d.chance(2)) return line;
  if (line.kind === 'operation') return { ...line, ...d.pick([{ operation: 'unheard' }, { labourClass: 'unheard' }]) };
  return { ...line, taxes: ['unheard'] };
}

export function randomEstimate(d: Drawing, catalogue: CatalogueDoc, rates: RatesDoc): EstimateDoc {
  const lines = ids('l', d.int(1, 11)).map((id) => {
    const drawn = d.chance(72) ? randomOperationLine(d, id, catalogue) : otherLine(d, id);
    const taxes = d.chance(12) ? { taxes: d.some(rates.taxes, 50).map((tax) => tax.id) } : {};
    return spoil(d, { ...drawn, ...taxes, ...randomDecision(d) });
  });
  const customer = {
    name: 'Invented Name',
    phone: '',
    email: '',
    taxExempt: d.chance(20) ? d.some(rates.taxes, 50).map(({ id }) => id) : [],
  };
  return anEstimate(lines, { customer, discounts: randomDiscounts(d, lines) });
}

export function randomDocuments(d: Drawing): Documents {
  const rates = randomRates(d);
  const catalogue = randomCatalogue(
    d,
    rates.fees.map(({ id }) => id),
  );
  return { estimate: randomEstimate(d, catalogue, rates), catalogue, rates };
}
