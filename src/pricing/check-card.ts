import type { Catalogue } from '../documents/catalogue.js';
import type { ChargeKind } from '../documents/fields.js';
import { error, note, type Problem, warning } from '../documents/problem.js';
import type { Rates } from '../documents/rates.js';
import { type Decimal, decimal, max, printPlain } from '../number/decimal.js';
import { printMoney, roundMoney } from '../number/money.js';
import { markedUp } from './markup.js';
import { indexRates, type RateIndex, type Tier } from './rate-index.js';

const KINDS: readonly ChargeKind[] = ['labour', 'part', 'core', 'sublet', 'fee', 'supplies'];

/** What `checkRates` adds to the problems of reading, for a card and a catalogue that were read already. */
export function checkCard(rates: Rates, catalogue: Catalogue | null): Problem[] {
  return [
    ...cliffs(rates),
    ...untaxedKinds(rates),
    ...idleTaxes(rates),
    ...idleSupplies(rates),
    ...(catalogue === null ? [] : missing(rates, catalogue)),
  ];
}

/** Operations that cannot be priced by this card. */
function missing(rates: Rates, { operations }: Catalogue): Problem[] {
  const classes = operations.map((operation) => [operation.labourClass, operation.title] as const);
  const fees = operations.flatMap((operation) => operation.fees.map((fee) => [fee, operation.title] as const));
  return [...lacking(classes, rates.labourClasses, 'labour class', 'labourClasses'), ...lacking(fees, rates.fees, 'fee', 'fees')];
}

function lacking(
  named: readonly (readonly [id: string, by: string])[],
  there: readonly { readonly id: string }[],
  what: string,
  path: string,
): Problem[] {
  const known = new Set(there.map(({ id }) => id));
  const by = new Map<string, string[]>();
  for (const [id, title] of named) if (!known.has(id)) by.set(id, [...(by.get(id) ?? []), title]);
  return [...by].map(([id, titles]) => {
    const count = titles.length === 1 ? 'one operation names' : `${titles.length} operations name`;
    const message = `The card has no ${what} "${id}", which ${count} ("${titles[0]}"${titles.length > 1 ? ' the first' : ''}).`;
    return error(`missing-${what.replace(' ', '-')}`, path, message, `Add the ${what}, or change the operations in the catalogue.`);
  });
}

/** Where the next tier's percentage is lower, a part just above the limit sells for less than one just below it. */
export function cliffs(rates: Rates): Problem[] {
  const index = indexRates(rates);
  return rates.parts.tiers.flatMap((tier, i) => {
    const next = rates.parts.tiers[i + 1];
    if (rates.parts.mode !== 'whole' || tier.upTo === null || next === undefined) return [];
    if (decimal(next.percent).gte(decimal(tier.percent))) return [];
    return [cliff(i, tier.upTo, index)];
  });
}

function cliff(i: number, upTo: string, index: RateIndex): Problem {
  const { money, tiers } = index;
  const limit = decimal(upTo);
  const below = markedUp(limit, 'whole', tiers, money);
  const above = roundMoney(limit.times(tiers[i + 1]!.factor), money);
  const level = roundMoney(levelCost(limit.times(tiers[i]!.factor), i + 1, tiers), money);
  const message =
    `A part that costs ${printPlain(limit)} sells for ${printMoney(below, money)}, one that costs a little more for ` +
    `${printMoney(above, money)}; only from a cost of ${printMoney(level, money)} on does a dearer part sell for more again.`;
  return warning(
    'mark-up-cliff',
    `parts.tiers[${i + 1}].percent`,
    message,
    'Use progressive tiers, or percentages that lie closer together.',
  );
}

/** The lowest cost, from a tier on, that sells for at least `price`. */
function levelCost(price: Decimal, from: number, tiers: readonly Tier[]): Decimal {
  const reaching = tiers.slice(from).find(({ upTo, factor }) => upTo === null || upTo.times(factor).gte(price))!;
  const start = tiers[tiers.indexOf(reaching) - 1]!.upTo!;
  return max(start, price.div(reaching.factor));
}

function untaxedKinds(rates: Rates): Problem[] {
  if (rates.taxes.length === 0) return [];
  const named = new Set(rates.taxes.flatMap((tax) => tax.on));
  const others = KINDS.filter((kind) => !named.has(kind));
  if (others.length === 0) return [];
  const message = `No tax is charged on ${others.join(', ')}.`;
  return [note('untaxed-kind', 'taxes', message, 'Right in many places; where it is not, add the kind to a tax.')];
}

function idleTaxes(rates: Rates): Problem[] {
  const own = [...rates.fees.flatMap((fee) => fee.taxes ?? []), ...(rates.supplies?.taxes ?? [])];
  return rates.taxes.flatMap((tax, i) =>
    tax.on.length > 0 || tax.after.length > 0 || own.includes(tax.id)
      ? []
      : [warning('idle-tax', `taxes[${i}].on`, `"${tax.title}" is charged on nothing.`, 'Name the kinds of charge that it is on.')],
  );
}

function idleSupplies(rates: Rates): Problem[] {
  if (rates.supplies === null || rates.supplies.of.length > 0) return [];
  return [
    warning(
      'idle-supplies',
      'supplies.of',
      `"${rates.supplies.title}" is a percentage of nothing.`,
      'Name the kinds of charge that it is a percentage of.',
    ),
  ];
}
