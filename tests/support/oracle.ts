/**
 * A second, independent computation of a priced estimate: exact fractions over BigInt, written from the rules of
 * the sum alone. Slow and plain on purpose. The tests hold the engine against it figure by figure.
 */
import type { Documents, Kind, LineDoc, OperationLine, RatesDoc } from './oracle-documents.js';
import { Fraction, ZERO, sum } from './oracle-fraction.js';
import { type OracleCharge, oracleCharges, roundMoney } from './oracle-charges.js';
import { type OracleHours, type OracleStep, oracleHours } from './oracle-hours.js';
import { type OracleTax, discountCharges, oracleTaxes } from './oracle-totals.js';

export interface OracleLine {
  id: string;
  priced: boolean;
  book: Fraction;
  shared: Fraction;
  charged: Fraction;
  rate: Fraction | null;
  labour: Fraction;
  amount: Fraction;
  includedIn: string | null;
  carries: string[];
  uses: { step: string; position: string | null; carriedBy: string }[];
}

export interface OraclePrice {
  complete: boolean;
  lines: OracleLine[];
  charges: OracleCharge[];
  overlap: { hours: Fraction; money: Fraction; steps: OracleStep[]; pairs: OracleHours['pairs'] };
  totals: Record<Kind, Fraction> & {
    subtotal: Fraction;
    discount: Fraction;
    taxes: OracleTax[];
    tax: Fraction;
    total: Fraction;
    cash: Fraction;
  };
}

const KINDS: Kind[] = ['labour', 'part', 'core', 'sublet', 'fee', 'supplies'];

/** True when the line names something that the other documents lack. */
function isFaulty(line: LineDoc, { catalogue, rates }: Documents): boolean {
  const lacks = (list: { id: string }[], id: string): boolean => !list.some((entry) => entry.id === id);
  if (line.taxes?.some((id) => lacks(rates.taxes, id))) return true;
  if (line.kind === 'labour') return lacks(rates.labourClasses, line.labourClass);
  if (line.kind !== 'operation') return false;
  const operation = catalogue.operations.find(({ id }) => id === line.operation);
  return (
    !operation ||
    lacks(rates.labourClasses, line.labourClass ?? operation.labourClass) ||
    operation.fees.some((id) => lacks(rates.fees, id)) ||
    (line.parts ?? []).some(({ part }) => lacks(catalogue.parts, part))
  );
}

function isWanted(line: LineDoc, only: ReadonlySet<string> | undefined): boolean {
  if (only) return only.has(line.id);
  return line.decision !== 'declined' && line.decision !== 'deferred';
}

function labourRate(line: LineDoc, rates: RatesDoc): Fraction | null {
  if (line.kind !== 'labour') return null;
  return Fraction.of(rates.labourClasses.find(({ id }) => id === line.labourClass)!.rate);
}

function reportLine(line: LineDoc, priced: boolean, hours: OracleHours, charges: OracleCharge[], rates: RatesDoc): OracleLine {
  const own = charges.filter((charge) => charge.line === line.id);
  const labour = sum(own.filter(({ kind }) => kind === 'labour').map(({ amount }) => amount));
  const amount = sum(own.map((charge) => charge.amount));
  const operation = hours.operations.find((candidate) => candidate.line === line);
  const plain = { id: line.id, priced, labour, amount, includedIn: null, carries: [], uses: [] };
  if (!operation) {
    const book = priced && line.kind === 'labour' ? Fraction.of(line.hours) : ZERO;
    return { ...plain, book, shared: ZERO, charged: book, rate: priced ? labourRate(line, rates) : null };
  }
  const used = hours.steps.filter(({ lines }) => lines.includes(line.id));
  return {
    ...plain,
    book: operation.book,
    charged: operation.charged,
    shared: operation.book.minus(operation.charged),
    rate: operation.rate,
    includedIn: operation.includedIn?.line.id ?? null,
    carries: used.filter(({ carriedBy }) => carriedBy === operation).map(({ use }) => use.step),
    uses: used.map(({ use, carriedBy }) => ({ ...use, carriedBy: carriedBy.line.id })),
  };
}

/** Prices the documents; `only` names the lines to price whatever their decision. */
export function oraclePrice(documents: Documents, only?: ReadonlySet<string>): OraclePrice {
  const { estimate, catalogue, rates } = documents;
  const wanted = estimate.lines.filter((line) => isWanted(line, only));
  const lines = wanted.filter((line) => !isFaulty(line, documents));
  const operations = lines
    .filter((line): line is OperationLine => line.kind === 'operation')
    .map((line) => ({ line, index: estimate.lines.indexOf(line) }));
  const hours = oracleHours(operations, catalogue, rates);
  const charges = oracleCharges(lines, hours, catalogue, rates);
  discountCharges(charges, estimate.discounts, rates);
  const taxes = oracleTaxes(charges, rates, estimate.customer.taxExempt);

  const reported = estimate.lines.map((line) => reportLine(line, lines.includes(line), hours, charges, rates));
  const subtotal = sum(charges.map(({ amount }) => amount));
  const discount = sum(charges.map((charge) => charge.discount));
  const tax = sum(taxes.map(({ amount }) => amount));
  const total = rates.pricesIncludeTax ? subtotal.minus(discount) : subtotal.minus(discount).plus(tax);
  const byKind = Object.fromEntries(
    KINDS.map((kind) => [kind, sum(charges.filter((charge) => charge.kind === kind).map(({ amount }) => amount))]),
  ) as Record<Kind, Fraction>;
  return {
    complete: !estimate.lines.some((line) => isFaulty(line, documents)),
    lines: reported,
    charges,
    overlap: {
      hours: sum(reported.map(({ shared }) => shared)),
      money: sum(reported.filter(({ rate }) => rate).map(({ book, rate, labour }) => roundMoney(book.times(rate!), rates).minus(labour))),
      steps: hours.steps,
      pairs: hours.pairs,
    },
    totals: {
      ...byKind,
      subtotal,
      discount,
      taxes,
      tax,
      total,
      cash: rates.cashStep === null ? total : total.rounded(Fraction.of(rates.cashStep), rates.rounding),
    },
  };
}
