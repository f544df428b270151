/** Rules 7, 8 and 9 a second time: what each line is charged, the fees, the supplies. */
import type { CatalogueDoc, Kind, LineDoc, PartDoc, PartEntry, PartOverride, RatesDoc } from './oracle-documents.js';
import { Fraction, ONE, ZERO, least, most, percentOf, sum } from './oracle-fraction.js';
import type { OracleHours, OracleOperation } from './oracle-hours.js';

export interface OracleCharge {
  line: string | null;
  kind: Kind;
  title: string;
  qty: Fraction;
  unit: Fraction;
  amount: Fraction;
  discount: Fraction;
  taxes: string[];
}

/** ISO 4217 minor units of the currencies that the generators use (source: list of tests/published/currency.test.ts). */
const MINOR_DIGITS: Record<string, number> = {
  USD: 2,
  EUR: 2,
  CAD: 2,
  AUD: 2,
  GBP: 2,
  SEK: 2,
  JPY: 0,
  KWD: 3,
  TND: 3,
  CLF: 4,
};

export function moneyStepOf(rates: RatesDoc): Fraction {
  if (rates.moneyStep !== null) return Fraction.of(rates.moneyStep);
  const digits = MINOR_DIGITS[rates.currency];
  if (digits === undefined) throw new RangeError(`the oracle does not know ${rates.currency}`);
  return new Fraction(1n, 10n ** BigInt(digits));
}

export function roundMoney(value: Fraction, rates: RatesDoc): Fraction {
  return value.rounded(moneyStepOf(rates), rates.rounding);
}

function taxesOfKind(kind: Kind, rates: RatesDoc): string[] {
  return rates.taxes.filter((tax) => tax.on.includes(kind)).map((tax) => tax.id);
}

/** Cost with the card's mark-up, rounded once. */
export function markedUp(cost: Fraction, rates: RatesDoc): Fraction {
  const { mode, tiers } = rates.parts;
  if (mode === 'whole') {
    const tier = tiers.find(({ upTo }) => upTo === undefined || cost.compare(Fraction.of(upTo)) <= 0)!;
    return roundMoney(cost.plus(percentOf(tier.percent, cost)), rates);
  }
  let price = ZERO;
  let below = ZERO;
  for (const tier of tiers) {
    const top = tier.upTo === undefined ? cost : least(cost, Fraction.of(tier.upTo));
    const slice = most(top.minus(below), ZERO);
    price = price.plus(slice).plus(percentOf(tier.percent, slice));
    below = most(below, top);
  }
  return roundMoney(price, rates);
}

function partCharges(line: LineDoc, title: string, qty: Fraction, unit: Fraction, core: Fraction, rates: RatesDoc): OracleCharge[] {
  if (qty.isZero) return [];
  const charge = (kind: Kind, price: Fraction): OracleCharge => ({
    line: line.id,
    kind,
    title,
    qty,
    unit: price,
    amount: roundMoney(qty.times(price), rates),
    discount: ZERO,
    taxes: line.taxes ?? taxesOfKind(kind, rates),
  });
  return core.isZero ? [charge('part', unit)] : [charge('part', unit), charge('core', core)];
}

/** The parts that go with an operation line, in order, with the quantities of one part added up. */
function partsOf(operation: OracleOperation, catalogue: CatalogueDoc): Map<string, Fraction> {
  const { line, operation: doc, includedIn } = operation;
  const places = Fraction.of(Math.max(1, line.positions.length));
  const wanted = new Map<string, Fraction>();
  const add = (entry: PartEntry, times: Fraction): void => {
    wanted.set(entry.part, (wanted.get(entry.part) ?? ZERO).plus(Fraction.of(entry.qty).times(times)));
  };
  const repeated = new Set(includedIn?.operation.parts.map((entry) => entry.part));
  for (const entry of doc.parts) if (!repeated.has(entry.part)) add(entry, entry.each ? places : ONE);
  for (const { step } of operation.carries) {
    for (const entry of catalogue.steps.find((candidate) => candidate.id === step)!.parts) add(entry, ONE);
  }
  const needed = operation.units[0]!.uses.map(({ step }) => catalogue.steps.find(({ id }) => id === step)!);
  const listed = new Set([...doc.parts, ...needed.flatMap((step) => step.parts)].map((entry) => entry.part));
  for (const override of line.parts ?? []) {
    if (wanted.has(override.part)) {
      if (override.qty !== undefined) wanted.set(override.part, Fraction.of(override.qty));
    } else if (!listed.has(override.part)) {
      wanted.set(override.part, Fraction.of(override.qty ?? '1'));
    }
    if (override.omit) wanted.delete(override.part);
  }
  return wanted;
}

function unitPrice(part: PartDoc, override: PartOverride | undefined, rates: RatesDoc): Fraction {
  if (override?.unitPrice !== undefined) return Fraction.of(override.unitPrice);
  if (rates.parts.basis === 'list' && part.list !== undefined) return Fraction.of(part.list);
  return markedUp(Fraction.of(override?.cost ?? part.cost), rates);
}

function labourCharge(line: LineDoc, title: string, hours: Fraction, rate: Fraction, rates: RatesDoc): OracleCharge[] {
  if (hours.isZero) return [];
  return [
    {
      line: line.id,
      kind: 'labour',
      title,
      qty: hours,
      unit: rate,
      amount: roundMoney(hours.times(rate), rates),
      discount: ZERO,
      taxes: line.taxes ?? taxesOfKind('labour', rates),
    },
  ];
}

function operationCharges(operation: OracleOperation, catalogue: CatalogueDoc, rates: RatesDoc): OracleCharge[] {
  const { line, operation: doc } = operation;
  const charges = labourCharge(line, doc.title, operation.charged, operation.rate, rates);
  for (const [id, qty] of partsOf(operation, catalogue)) {
    const part = catalogue.parts.find((candidate) => candidate.id === id)!;
    const price = unitPrice(
      part,
      line.parts?.find((override) => override.part === id),
      rates,
    );
    charges.push(...partCharges(line, part.title, qty, price, Fraction.of(part.core), rates));
  }
  const units = Fraction.of(operation.units.length);
  for (const id of new Set(doc.fees)) {
    const fee = rates.fees.find((candidate) => candidate.id === id)!;
    if (fee.per === 'estimate') continue;
    const amount = Fraction.of(fee.amount);
    charges.push({
      line: line.id,
      kind: 'fee',
      title: fee.title,
      qty: units,
      unit: amount,
      amount: roundMoney(amount.times(units), rates),
      discount: ZERO,
      taxes: fee.taxes ?? line.taxes ?? taxesOfKind('fee', rates),
    });
  }
  return charges;
}

function otherCharges(line: LineDoc, rates: RatesDoc): OracleCharge[] {
  const single = (kind: Kind, title: string, value: Fraction): OracleCharge[] => [
    {
      line: line.id,
      kind,
      title,
      qty: ONE,
      unit: value,
      amount: roundMoney(value, rates),
      discount: ZERO,
      taxes: line.taxes ?? taxesOfKind(kind, rates),
    },
  ];
  if (line.kind === 'labour') {
    const { rate } = rates.labourClasses.find((candidate) => candidate.id === line.labourClass)!;
    return labourCharge(line, line.title, Fraction.of(line.hours), Fraction.of(rate), rates);
  }
  if (line.kind === 'part') {
    const price = line.unitPrice === null ? markedUp(Fraction.of(line.cost), rates) : Fraction.of(line.unitPrice);
    return partCharges(line, line.title, Fraction.of(line.qty), price, Fraction.of(line.core), rates);
  }
  if (line.kind === 'sublet') {
    const cost = Fraction.of(line.cost);
    const price = line.price === null ? cost.plus(percentOf(rates.sublet?.percent ?? '0', cost)) : Fraction.of(line.price);
    return single('sublet', line.title, price);
  }
  return line.kind === 'fee' ? single('fee', line.title, Fraction.of(line.amount)) : [];
}

function estimateFees(operations: OracleOperation[], rates: RatesDoc): OracleCharge[] {
  const named = new Set(operations.flatMap(({ operation }) => operation.fees));
  return rates.fees
    .filter((fee) => fee.per === 'estimate' && named.has(fee.id))
    .map((fee) => ({
      line: null,
      kind: 'fee',
      title: fee.title,
      qty: ONE,
      unit: Fraction.of(fee.amount),
      amount: roundMoney(Fraction.of(fee.amount), rates),
      discount: ZERO,
      taxes: fee.taxes ?? taxesOfKind('fee', rates),
    }));
}

function suppliesCharge(charges: OracleCharge[], rates: RatesDoc): OracleCharge[] {
  const { supplies } = rates;
  if (!supplies) return [];
  const base = sum(charges.filter(({ kind }) => supplies.of.includes(kind)).map(({ amount }) => amount));
  if (base.sign <= 0) return [];
  let amount = roundMoney(percentOf(supplies.percent, base), rates);
  if (supplies.minimum !== null) amount = most(amount, Fraction.of(supplies.minimum));
  if (supplies.maximum !== null) amount = least(amount, Fraction.of(supplies.maximum));
  amount = roundMoney(amount, rates);
  if (amount.isZero) return [];
  return [
    {
      line: null,
      kind: 'supplies',
      title: supplies.title,
      qty: ONE,
      unit: amount,
      amount,
      discount: ZERO,
      taxes: supplies.taxes ?? taxesOfKind('supplies', rates),
    },
  ];
}

/** Every charge of the estimate in the order of the sheet, before discount. */
export function oracleCharges(lines: LineDoc[], hours: OracleHours, catalogue: CatalogueDoc, rates: RatesDoc): OracleCharge[] {
  const charges = lines.flatMap((line) => {
    const operation = hours.operations.find((candidate) => candidate.line === line);
    return operation ? operationCharges(operation, catalogue, rates) : otherCharges(line, rates);
  });
  charges.push(...estimateFees(hours.operations, rates));
  charges.push(...suppliesCharge(charges, rates));
  return charges;
}
