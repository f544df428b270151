import type { Problem } from '../documents/problem.js';
import type { DecimalString } from '../number/decimal.js';
import type { Documents } from '../pricing/documents.js';
import { type ApprovedWork, readApproved } from './approved.js';
import type { CautionAt } from './caution-book.js';
import { CautionBook } from './caution-book.js';
import { includedWork, type IncludedWork, workTold } from './told-work.js';
import { looseWork, type LooseWork, notesOf } from './loose-work.js';
import { type SheetPart, sheetParts, type SheetParts } from './sheet-parts.js';
import { type Area, type Opening, teardownOrder } from './teardown-order.js';
import { neededBefore, readStepKey, type Unit, unitsOf } from './units.js';
import { workWarnings } from './warnings.js';

/** A step on the way in: opened. */
export interface OpenEntry {
  readonly kind: 'open';
  /** Its place in the order of doing, from 1. */
  readonly n: number;
  /** How many steps are open around it. */
  readonly depth: number;
  readonly step: string;
  readonly position: string | null;
  readonly words: string;
  readonly cautions: readonly CautionAt[];
}

/** Work that is done while its steps are open. */
export interface WorkEntry {
  readonly kind: 'work';
  readonly n: number;
  readonly depth: number;
  readonly line: string;
  readonly title: string;
  readonly positions: readonly string[];
  readonly cautions: readonly CautionAt[];
  /** What it puts right: "Heater hose, feed: seeps at the joint". */
  readonly findings: readonly string[];
  readonly extraHours: { readonly hours: DecimalString; readonly reason: string } | null;
  readonly parts: readonly SheetPart[];
  /** Approved operations that are part of it. */
  readonly includes: readonly IncludedWork[];
  /** Titles of other work on the sheet that is declared to have hours in common with it. */
  readonly overlaps: readonly string[];
  /** The limits of a closing test in words; empty for other work and where there are none. */
  readonly limits: string;
  readonly closingTest: boolean;
  readonly note: string;
}

/** A step on the way back: closed, with what is renewed. */
export interface CloseEntry {
  readonly kind: 'close';
  readonly n: number;
  readonly depth: number;
  readonly step: string;
  readonly position: string | null;
  readonly words: string;
  readonly cautions: readonly CautionAt[];
  /** What must be new: the old ones have been disturbed. */
  readonly renew: readonly SheetPart[];
  /** The number of the entry that opened it. */
  readonly opened: number;
}

export type SheetEntry = OpenEntry | WorkEntry | CloseEntry;

/** The approved work in the order of doing. It names no price. */
export interface WorkSheet {
  readonly entries: readonly SheetEntry[];
  /** Approved lines that name no access: when they are done is for the technician to say. */
  readonly loose: readonly LooseWork[];
  readonly notes: readonly string[];
  readonly warnings: readonly Problem[];
}

/**
 * The technician's work sheet: the approved operations of an estimate in the order of the teardown. Each step is opened
 * once, outside in, and closed once, in reverse; what is done while it is open stands between. Never throws: of
 * documents that cannot be used it gives an empty sheet, with the reasons among the warnings.
 */
export function workSheet(documents: Documents): WorkSheet {
  const read = readApproved(documents);
  return read.ok ? sheetOf(read.work) : { entries: [], loose: [], notes: [], warnings: read.problems };
}

/** `workSheet` for documents that have been checked. */
export function sheetOf(work: ApprovedWork): WorkSheet {
  const { estimate, index, priced } = work;
  const units = unitsOf(work);
  const closing = new Set((index.catalogue.methods ?? []).map((method) => method.closing));
  const tasks = units.map((unit) => ({ of: unit, needs: unit.needs, last: closing.has(unit.line.operation) }));
  const area = teardownOrder(tasks, (key) => neededBefore(key, index));
  const writer = new SheetWriter(work, sheetParts(units, priced, index));
  writer.area(area, 0);
  return {
    entries: writer.entries,
    loose: looseWork(work),
    notes: notesOf(estimate),
    warnings: workWarnings(estimate, index, priced),
  };
}

/** Writes areas down in the order of doing. */
class SheetWriter {
  readonly entries: SheetEntry[] = [];
  private readonly cautions: CautionBook;
  private readonly included: ReadonlyMap<string, readonly IncludedWork[]>;

  constructor(
    private readonly about: ApprovedWork,
    private readonly parts: SheetParts,
  ) {
    this.cautions = new CautionBook(about.index);
    this.included = includedWork(about, parts);
  }

  area({ work, inside, last }: Area<Unit>, depth: number): void {
    this.work(work, depth);
    for (const opening of inside) this.opening(opening, depth);
    this.work(last, depth);
  }

  private opening(opening: Opening<Unit>, depth: number): void {
    const { step: id, position } = readStepKey(opening.step);
    const { step } = this.about.index.steps.get(id)!;
    const at = { step: id, position, depth };
    const opened = this.next();
    this.entries.push({ kind: 'open', n: opened, ...at, words: step.open ?? step.title, cautions: this.cautions.at(step.cautions) });
    this.area(opening, depth + 1);
    this.entries.push({
      kind: 'close',
      n: this.next(),
      ...at,
      words: step.close ?? step.title,
      cautions: this.cautions.at(step.cautions),
      renew: this.parts.renewedWith(opening.step),
      opened,
    });
  }

  /** Units of one line that are done in one place are one entry. */
  private work(units: readonly Unit[], depth: number): void {
    for (const line of new Set(units.map((unit) => unit.line))) {
      const told = workTold(
        units.filter((unit) => unit.line === line),
        this.about,
        this.parts,
        this.included,
      );
      this.entries.push({ kind: 'work', n: this.next(), depth, ...told.entry, cautions: this.cautions.at(told.cautions) });
    }
  }

  private next(): number {
    return this.entries.length + 1;
  }
}
