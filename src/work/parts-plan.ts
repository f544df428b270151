import type { Estimate } from '../documents/estimate.js';
import type { PartNote, PartState } from '../documents/parts-run.js';
import type { Problem } from '../documents/problem.js';
import type { Condition } from '../documents/fields.js';
import { decimal, type DecimalString, max, printPlain, ZERO } from '../number/decimal.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import type { Documents } from '../pricing/documents.js';
import { type GatheredPart, gatherParts, type PartCharge } from '../pricing/parts-run.js';
import { type ApprovedWork, readApproved } from './approved.js';
import { samePart } from './part-notes.js';
import { PartUses } from './part-uses.js';
import { tripWarnings } from './warnings.js';

/** What a part is needed for: a line, or a step that lines share. */
export interface PartUse {
  /** "Replace a heater hose (feed, return)", "Drain, refill and bleed the coolant". */
  readonly title: string;
  readonly qty: DecimalString;
  /** Titles of the lines that need the step; empty where the use is a line itself. */
  readonly lines: readonly string[];
}

/** One part to get on the trip, however many lines and steps need it. */
export interface PartToGet {
  readonly part: string | null;
  readonly number: string;
  readonly title: string;
  readonly condition: Condition;
  /** How many to buy; `"0"` for what only goes back. */
  readonly qty: DecimalString;
  /** How many go back that are not needed. */
  readonly giveBack: DecimalString;
  /** How many old parts go back for their core charge. */
  readonly cores: DecimalString;
  /** What it is needed for and how many, in the order of the sheet. */
  readonly needs: readonly PartUse[];
  readonly supplier: string;
  readonly state: PartState;
  /** How many are needed beyond those that the state was said of. */
  readonly more: DecimalString;
  /** How many of those are not needed after all. */
  readonly over: DecimalString;
  readonly note: string;
}

/** The list for one trip: the parts of all approved lines, by supplier. */
export interface PartsPlan {
  /** In the order of the sheet; parts without a supplier come last, under `""`. */
  readonly suppliers: readonly { readonly supplier: string; readonly parts: readonly PartToGet[] }[];
  /** What is ordered or here though no approved line needs it any more. */
  readonly notNeeded: readonly PartNote[];
  /** Why one trip may not be enough yet. */
  readonly warnings: readonly Problem[];
}

/**
 * The parts run of an estimate: what its approved lines need, each part once, with how far it has come. Never throws:
 * of documents that cannot be used it gives an empty list, with the reasons among the warnings.
 */
export function planPartsRun(documents: Documents): PartsPlan {
  const read = readApproved(documents);
  return read.ok ? partsPlan(read.work) : { suppliers: [], notNeeded: [], warnings: read.problems };
}

/** `planPartsRun` for documents that have been checked. */
export function partsPlan(work: ApprovedWork): PartsPlan {
  const { estimate, index, priced } = work;
  const notes = estimate.partsRun ?? [];
  const uses = new PartUses(work);
  const parts = gatherParts(priced, (charge) => JSON.stringify([sameNumber(charge), charge.part.condition]))
    .filter(({ qty, cores }) => !qty.isZero() || cores.gt(0))
    .map((gathered) => ({ ...partToGet(gathered, notes, work), needs: uses.of(gathered) }));
  const suppliers = [...new Set(parts.map(({ supplier }) => supplier))].sort((a, b) => Number(a === '') - Number(b === ''));
  return {
    suppliers: suppliers.map((supplier) => ({ supplier, parts: parts.filter((part) => part.supplier === supplier) })),
    notNeeded: notes.filter((note) => isUnderWay(note.state) && !parts.some((part) => samePart(part, note))),
    warnings: tripWarnings(estimate, index, priced),
  };
}

/** At the counter a number is a part, wherever it was typed; without one the catalogue's id counts, then the title. */
function sameNumber({ part, title }: PartCharge): string {
  return part.number || (part.id ?? title);
}

function partToGet(gathered: GatheredPart, notes: readonly PartNote[], { estimate, index }: ApprovedWork): Omit<PartToGet, 'needs'> {
  const { first, qty, cores } = gathered;
  const { id: part, number, condition } = first.part;
  const { title } = first;
  const buy = max(qty, ZERO);
  const note = notes.find((each) => samePart(each, { part, number, title, condition }));
  const state = note?.state ?? 'to-find';
  const noted = state === 'to-find' ? buy : decimal(note!.qty);
  return {
    part,
    number,
    title,
    condition,
    qty: printPlain(buy),
    giveBack: printPlain(max(ZERO.minus(qty), ZERO)),
    cores: printPlain(max(cores, ZERO)),
    supplier: note?.supplier ?? usualSupplier(gathered, estimate, index),
    state,
    more: printPlain(max(buy.minus(noted), ZERO)),
    over: printPlain(max(noted.minus(buy), ZERO)),
    note: note?.note ?? '',
  };
}

/** The supplier of the first line that names one, else the catalogue's. */
function usualSupplier({ first, lines }: GatheredPart, estimate: Estimate, index: CatalogueIndex): string {
  const typed = estimate.lines.flatMap((line) => (line.kind === 'part' && lines.has(line.id) && line.supplier ? [line.supplier] : []));
  return typed[0] ?? (first.part.id === null ? '' : (index.parts.get(first.part.id)?.supplier ?? ''));
}

/** Whether money or a shelf is bound by it. */
function isUnderWay(state: PartState): boolean {
  return state === 'ordered' || state === 'here';
}
