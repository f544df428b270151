import type { Fee } from '../documents/rates.js';
import type { FeeLine } from '../documents/lines.js';
import { Decimal, decimal, ONE } from '../number/decimal.js';
import { roundMoney } from '../number/money.js';
import type { Work } from '../overlap/work.js';
import type { Charge } from './charge.js';
import type { RateIndex } from './rate-index.js';

/** Rule 9: the fees that an operation asks for once for each unit. */
export function unitFees(work: Work, taxes: readonly string[] | null, rates: RateIndex): Charge[] {
  return work.operation.fees.flatMap((id) => {
    const fee = rates.fees.get(id)!;
    return fee.per === 'unit' ? [feeCharge(`${work.line}.fee.${id}`, work.line, fee, new Decimal(work.units), taxes, rates)] : [];
  });
}

/** Rule 9: the fees that are charged once for the estimate, however many operations ask for them. */
export function estimateFees(asked: { has(id: string): boolean }, rates: RateIndex): Charge[] {
  return rates.rates.fees
    .filter((fee) => fee.per === 'estimate' && asked.has(fee.id))
    .map((fee) => feeCharge(`fee.${fee.id}`, null, fee, ONE, null, rates));
}

function feeCharge(id: string, line: string | null, fee: Fee, qty: Decimal, lineTaxes: readonly string[] | null, rates: RateIndex): Charge {
  const unit = decimal(fee.amount);
  return {
    id,
    line,
    kind: 'fee',
    title: fee.title,
    qty,
    unit,
    amount: roundMoney(qty.times(unit), rates.money),
    taxes: fee.taxes ?? lineTaxes ?? rates.taxesOf.fee,
  };
}

/** A fee that was typed as a line of its own; below zero it is a credit. */
export function feeLineCharge(line: FeeLine, rates: RateIndex): Charge {
  const amount = roundMoney(decimal(line.amount), rates.money);
  return {
    id: `${line.id}.fee`,
    line: line.id,
    kind: 'fee',
    title: line.title,
    qty: ONE,
    unit: amount,
    amount,
    taxes: line.taxes ?? rates.taxesOf.fee,
  };
}
