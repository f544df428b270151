import type { Condition } from '../documents/fields.js';
import { type Decimal, decimal, type DecimalString, printPlain, ZERO } from '../number/decimal.js';
import type { PricedEstimate } from './priced-estimate.js';

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

/**
 * The parts of all priced lines, each once with its quantity and who needs it. Parts are the same when they have the
 * same catalogue id and condition, or, typed by hand, the same number (else title) and condition.
 */
export function partsRun(priced: PricedEstimate): PartsRunEntry[] {
  const entries = new Map<string, { first: PricedEstimate['charges'][number]; qty: Decimal; cores: Decimal; lines: Set<string> }>();
  for (const charge of priced.charges) {
    if (charge.part === undefined || charge.line === null) continue;
    const { id, number, condition } = charge.part;
    const key = JSON.stringify([id, id === null ? number || charge.title : '', condition]);
    const entry = entries.get(key) ?? { first: charge, qty: ZERO, cores: ZERO, lines: new Set() };
    const qty = decimal(charge.qty);
    if (charge.kind === 'part') entry.qty = entry.qty.plus(qty);
    else entry.cores = entry.cores.plus(qty);
    entry.lines.add(charge.line);
    entries.set(key, entry);
  }
  return [...entries.values()].map(({ first, qty, cores, lines }) => ({
    part: first.part!.id,
    title: first.title,
    number: first.part!.number,
    condition: first.part!.condition,
    qty: printPlain(qty),
    cores: printPlain(cores),
    lines: [...lines],
  }));
}
