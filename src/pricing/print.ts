import { type Decimal, printPlain, sum, ZERO } from '../number/decimal.js';
import { type MoneyRule, printMoney, printUnitPrice } from '../number/money.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import type { SharedStep } from '../overlap/carry.js';
import type { Deduction } from '../overlap/declared.js';
import type { Share } from '../overlap/share-work.js';
import type { Work } from '../overlap/work.js';
import type { Charge } from './charge.js';
import type { Draft } from './draft.js';
import type { PricedCharge, PricedEstimate, PricedLine, PricedOverlap, PricedStep, PricedTax } from './priced-estimate.js';
import { remembered } from './remembered.js';
import type { TaxAmount } from './taxes.js';

/** From decimals to the texts of a `PricedEstimate`. Nothing is worked out here. */

export function printLine(draft: Draft, share: Share | null, charges: readonly Charge[], priced: boolean, money: MoneyRule): PricedLine {
  const labour = charges.filter((charge) => charge.kind === 'labour').map((charge) => charge.amount);
  return {
    id: draft.line.id,
    kind: draft.line.kind,
    title: draft.title,
    decision: draft.line.decision,
    priced,
    bookHours: printPlain(draft.bookHours),
    sharedHours: share === null ? '0' : printPlain(share.sharedHours),
    chargedHours: printPlain(!priced ? ZERO : (share?.chargedHours ?? draft.bookHours)),
    rate: printUnitPrice(draft.rate, money),
    labour: printMoney(sum(labour), money),
    amount: printMoney(sum(charges.map((charge) => charge.amount)), money),
    includedIn: share?.includedIn?.line ?? null,
    carries: share?.carries.map((step) => step.indexed.step.id) ?? [],
    uses: share?.uses.map(({ step, carriedBy }) => ({ step: step.indexed.step.id, position: step.position, carriedBy })) ?? [],
  };
}

export function printCharge(charge: Charge, discount: Decimal, money: MoneyRule): PricedCharge {
  return {
    id: charge.id,
    line: charge.line,
    kind: charge.kind,
    title: charge.title,
    qty: printPlain(charge.qty),
    unit: printUnitPrice(charge.unit, money),
    amount: printMoney(charge.amount, money),
    discount: printMoney(discount, money),
    taxes: charge.taxes,
    ...(charge.part === undefined ? {} : { part: charge.part }),
  };
}

export function printTax({ tax, exempt, base, amount }: TaxAmount, money: MoneyRule, round: (value: Decimal) => Decimal): PricedTax {
  return {
    id: tax.id,
    title: tax.title,
    percent: tax.percent,
    base: printMoney(round(base), money),
    amount: printMoney(amount, money),
    exempt,
  };
}

/** The steps in use, what comes off first before what rests on it. */
export function printSteps(steps: readonly SharedStep[], index: CatalogueIndex): PricedOverlap['steps'] {
  const byDepth: PricedStep[][] = [];
  for (const shared of steps) (byDepth[index.depthOf.get(shared.step.indexed.step.id)!] ??= []).push(printStep(shared));
  return byDepth.flat();
}

/** The declared overlaps that were deducted. */
export function printPairs(deductions: readonly Deduction[]): PricedOverlap['pairs'] {
  return deductions.map(printPair);
}

const printStep = remembered(({ step, carriedBy, neededBy, units }: SharedStep): PricedStep => ({
  step: step.indexed.step.id,
  position: step.position,
  title: step.indexed.step.title,
  hours: printPlain(step.indexed.hours),
  lines: neededBy,
  carriedBy,
  savedHours: printPlain(step.indexed.hours.times(units - 1)),
}));

const printPair = remembered(({ parent, child, hours }: Deduction): PricedOverlap['pairs'][number] => ({
  between: [parent.line, child.line],
  hours: printPlain(hours),
}));

/** The cautions of the priced work, each once, with the lines that it concerns; in the order of the catalogue. */
export function printCautions(works: readonly Work[], index: CatalogueIndex): PricedEstimate['cautions'] {
  const lines = new Map<string, string[]>();
  for (const work of works) {
    for (const id of cautionsOf(work)) {
      const known = lines.get(id);
      if (known === undefined) lines.set(id, [work.line]);
      else known.push(work.line);
    }
  }
  return [...index.cautions].flatMap(([id, text]) => (lines.has(id) ? [{ id, text, lines: lines.get(id)! }] : []));
}

const cautionsOf = remembered(
  (work: Work): ReadonlySet<string> => new Set([...work.operation.cautions, ...work.steps.flatMap((step) => step.indexed.step.cautions)]),
);
