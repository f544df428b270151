import type { PartNeed } from '../documents/catalogue.js';
import type { Condition } from '../documents/fields.js';
import { type Decimal, decimal, type DecimalString, printPlain, sum, ZERO } from '../number/decimal.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import type { PricedEstimate } from '../pricing/priced-estimate.js';
import { stepKey, type Unit } from './units.js';

/** A part where it is fitted. */
export interface SheetPart {
  /** The catalogue's id, or null for a part that was typed. */
  readonly part: string | null;
  readonly title: string;
  readonly number: string;
  readonly condition: Condition;
  readonly qty: DecimalString;
}

/** Which parts go where: to units of work, and to steps by their key. */
export interface SheetParts {
  of(unit: Unit): readonly SheetPart[];
  renewedWith(step: string): readonly SheetPart[];
  /** All parts of a line that another one includes. */
  ofIncluded(line: string): readonly SheetPart[];
}

/** A place where a part is fitted, and how many the catalogue says. */
interface Place {
  readonly at: Unit | string;
  readonly qty: Decimal;
}

/**
 * The parts of the priced lines, each at the work or the step that it is fitted with. Together they are exactly what the
 * lines are charged for: where a line says another quantity than the catalogue, all of it goes to the first place.
 */
export function sheetParts(units: readonly Unit[], priced: PricedEstimate, index: CatalogueIndex): SheetParts {
  const placed = new Map<Unit | string, SheetPart[]>();
  const ofLine = new Map(priced.lines.map((line) => [line.id, units.filter((unit) => unit.line.id === line.id)]));
  for (const line of priced.lines) {
    const own = ofLine.get(line.id)!;
    const carried = line.uses.filter((use) => use.carriedBy === line.id).map((use) => stepKey(use.step, use.position, index));
    for (const part of chargedParts(line.id, priced)) {
      const places = own.length === 0 ? [] : [...placesOfWork(own, part.part), ...placesOfSteps(carried, part.part, index)];
      const told = divide(decimal(part.qty), places, own[0] ?? line.id);
      for (const { at, qty } of told) placed.set(at, [...(placed.get(at) ?? []), { ...part, qty: printPlain(qty) }]);
    }
  }
  return {
    of: (unit) => placed.get(unit) ?? [],
    renewedWith: (step) => placed.get(step) ?? [],
    ofIncluded: (line) => placed.get(line) ?? [],
  };
}

function chargedParts(line: string, priced: PricedEstimate): SheetPart[] {
  return priced.charges.flatMap(({ kind, line: of, part, title, qty }) =>
    kind === 'part' && of === line && part !== undefined
      ? [{ part: part.id, title, number: part.number, condition: part.condition, qty }]
      : [],
  );
}

function placesOfWork(units: readonly Unit[], part: string | null): Place[] {
  return units.flatMap((unit) =>
    unit.operation.parts
      .filter((need) => need.part === part && (need.each || unit.first))
      .map((need) => ({ at: unit, qty: decimal(need.qty).times(need.each ? Math.max(1, unit.positions.length) : 1) })),
  );
}

function placesOfSteps(keys: readonly string[], part: string | null, index: CatalogueIndex): Place[] {
  return keys.flatMap((key) => {
    const needs: readonly PartNeed[] = index.steps.get(key.split('@')[0]!)!.step.parts;
    return needs.filter((need) => need.part === part).map((need) => ({ at: key, qty: decimal(need.qty) }));
  });
}

function divide(qty: Decimal, places: readonly Place[], otherwise: Unit | string): readonly Place[] {
  const usual = places.reduce((total, place) => total.plus(place.qty), ZERO);
  return places.length > 0 && usual.eq(qty) ? places : [{ at: places[0]?.at ?? otherwise, qty }];
}

/** Parts of several places together, each once. */
export function together(parts: readonly SheetPart[]): SheetPart[] {
  const keyOf = (part: SheetPart): string => JSON.stringify([part.part, part.number, part.title, part.condition]);
  const gathered = new Map<string, SheetPart[]>();
  for (const part of parts) gathered.set(keyOf(part), [...(gathered.get(keyOf(part)) ?? []), part]);
  return [...gathered.values()].map((same) => ({ ...same[0]!, qty: printPlain(sum(same.map(({ qty }) => decimal(qty)))) }));
}
