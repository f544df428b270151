import type { CataloguePart, PartNeed } from '../documents/catalogue.js';
import type { OperationLine, PartLine, PartOverride } from '../documents/lines.js';
import { type Decimal, decimal, ONE, ZERO } from '../number/decimal.js';
import { roundMoney } from '../number/money.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import type { Share } from '../overlap/share-work.js';
import type { Charge, ChargedPart } from './charge.js';
import { sellPrice } from './markup.js';
import type { RateIndex } from './rate-index.js';

/**
 * Rule 8: the parts of an operation line. Its operation's own parts once (or once for each position), the parts of
 * each step that it carries, and what the line adds or says differently. A part that comes from several of these is
 * one charge.
 */
export function operationParts(line: OperationLine, share: Share, index: CatalogueIndex, rates: RateIndex): Charge[] {
  const overrides = new Map(line.parts.map((override) => [override.part, override]));
  const needed = neededParts(line, share, overrides, index);
  return [...needed].flatMap(([id, qty]) => {
    const override = overrides.get(id);
    if (override?.omit) return [];
    return partCharges(line, index.parts.get(id)!, override, qty, rates);
  });
}

function neededParts(
  line: OperationLine,
  share: Share,
  overrides: ReadonlyMap<string, PartOverride>,
  index: CatalogueIndex,
): Map<string, Decimal> {
  const { operation } = share.work;
  const positions = Math.max(1, line.positions.length);
  const alreadyThere = new Set(share.includedIn?.operation.parts.map((need) => need.part) ?? []);
  const needed = new Map<string, Decimal>();
  const add = ({ part, qty }: PartNeed, times: number): void => {
    needed.set(part, (needed.get(part) ?? ZERO).plus(decimal(qty).times(times)));
  };

  for (const need of operation.parts) if (!alreadyThere.has(need.part)) add(need, need.each ? positions : 1);
  for (const step of share.carries) for (const need of step.indexed.step.parts) add(need, 1);

  const ofCatalogue = new Set(operation.parts.map((need) => need.part));
  for (const { step } of index.stepsOf.get(operation.id)!) for (const need of step.parts) ofCatalogue.add(need.part);
  for (const [id, override] of overrides) {
    const qty = override.qty === null ? null : decimal(override.qty);
    if (needed.has(id)) needed.set(id, qty ?? needed.get(id)!);
    else if (!ofCatalogue.has(id)) needed.set(id, qty ?? ONE);
  }
  return needed;
}

function partCharges(
  line: OperationLine,
  part: CataloguePart,
  override: PartOverride | undefined,
  qty: Decimal,
  rates: RateIndex,
): Charge[] {
  const typed = override?.unitPrice ?? null;
  const cost = decimal(override?.cost ?? part.cost);
  const list = part.list === null ? null : decimal(part.list);
  return pricedPart({
    line: line.id,
    key: part.id,
    title: part.title,
    qty,
    unit: typed === null ? sellPrice(cost, list, rates) : decimal(typed),
    cost,
    core: decimal(part.core),
    taxes: line.taxes,
    part: { id: part.id, number: part.number, condition: override?.condition ?? part.condition },
    rates,
  });
}

/** Rule 8 for a part that was typed as a line of its own. */
export function partLineCharges(line: PartLine, rates: RateIndex): Charge[] {
  return pricedPart({
    line: line.id,
    key: null,
    title: line.title,
    qty: decimal(line.qty),
    unit: line.unitPrice === null ? sellPrice(decimal(line.cost), null, rates) : decimal(line.unitPrice),
    cost: decimal(line.cost),
    core: decimal(line.core),
    taxes: line.taxes,
    part: { id: null, number: line.number, condition: line.condition },
    rates,
  });
}

interface PartToPrice {
  readonly line: string;
  /** Tells the parts of one line apart; null where the line is the part. */
  readonly key: string | null;
  readonly title: string;
  readonly qty: Decimal;
  readonly unit: Decimal;
  /** Of one. */
  readonly cost: Decimal;
  readonly core: Decimal;
  readonly taxes: readonly string[] | null;
  readonly part: ChargedPart;
  readonly rates: RateIndex;
}

function pricedPart({ line, key, title, qty, unit, cost, core, taxes, part, rates }: PartToPrice): Charge[] {
  if (qty.isZero()) return [];
  const end = key === null ? '' : `.${key}`;
  const charge = (kind: 'part' | 'core', price: Decimal): Charge => ({
    id: `${line}.${kind}${end}`,
    line,
    kind,
    title,
    qty,
    unit: price,
    amount: roundMoney(qty.times(price), rates.money),
    taxes: taxes ?? rates.taxesOf[kind],
    part,
  });
  const sold: Charge = { ...charge('part', unit), cost: qty.times(cost) };
  return core.isZero() ? [sold] : [sold, charge('core', core)];
}
