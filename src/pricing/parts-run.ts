import type { Condition } from '../documents/fields.js';
import { type Decimal, decimal, type DecimalString, printPlain, ZERO } from '../number/decimal.js';
import type { ChargedPart } from './charge.js';
import type { PricedCharge, PricedEstimate } from './priced-estimate.js';

/** One entry of the list for one trip. */
export interface PartsRunEntry {
  /** The catalogue's part id, or null for a part that was typed. */
  readonly part: string | null;
  readonly title: string;
  readonly number: string;
  readonly condition: Condition;
  readonly qty: DecimalString;
  /** How many old parts go back for their core charge. */
  readonly cores: DecimalString;
  /** Line ids, in the order of the sheet. */
  readonly lines: readonly string[];
}

/** A charge for a part, or for its core. */
export type PartCharge = PricedCharge & { readonly line: string; readonly part: ChargedPart };

/** All charges for one part. */
export interface GatheredPart {
  readonly first: PartCharge;
  readonly qty: Decimal;
  readonly cores: Decimal;
  /** By line, in the order of the sheet: how many it needs. */
  readonly lines: ReadonlyMap<string, Decimal>;
}

/**
 * The parts of all priced lines, each once with its quantity and who needs it. Parts are the same when they have the
 * same catalogue id and condition, or, typed by hand, the same number (else title) and condition.
 */
export function partsRun(priced: PricedEstimate): PartsRunEntry[] {
  const keyOf = ({ part: { id, number, condition }, title }: PartCharge): string =>
    JSON.stringify([id, id === null ? number || title : '', condition]);
  return gatherParts(priced, keyOf).map(({ first, qty, cores, lines }) => ({
    part: first.part.id,
    title: first.title,
    number: first.part.number,
    condition: first.part.condition,
    qty: printPlain(qty),
    cores: printPlain(cores),
    lines: [...lines.keys()],
  }));
}

/** The charges for parts put together where `keyOf` gives the same, in the order of the sheet. */
export function gatherParts(priced: PricedEstimate, keyOf: (charge: PartCharge) => string): GatheredPart[] {
  const gathered = new Map<string, { first: PartCharge; qty: Decimal; cores: Decimal; lines: Map<string, Decimal> }>();
  for (const charge of priced.charges.filter(isPartCharge)) {
    const key = keyOf(charge);
    const entry = gathered.get(key) ?? { first: charge, qty: ZERO, cores: ZERO, lines: new Map<string, Decimal>() };
    const qty = decimal(charge.qty);
    const ofLine = entry.lines.get(charge.line) ?? ZERO;
    if (charge.kind === 'part') entry.qty = entry.qty.plus(qty);
    else entry.cores = entry.cores.plus(qty);
    entry.lines.set(charge.line, charge.kind === 'part' ? ofLine.plus(qty) : ofLine);
    gathered.set(key, entry);
  }
  return [...gathered.values()];
}

function isPartCharge(charge: PricedCharge): charge is PartCharge {
  return charge.part !== undefined && charge.line !== null;
}
