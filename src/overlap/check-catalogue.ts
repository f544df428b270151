import { type Catalogue, parseCatalogue } from '../documents/catalogue.js';
import { type Problem, warning } from '../documents/problem.js';
import { type Decimal, decimal, max, printPlain, sum, ZERO } from '../number/decimal.js';
import { type CatalogueIndex, indexCatalogue } from './catalogue-index.js';

/**
 * What the keeper of a catalogue should know: whatever `parseCatalogue` finds, declared overlaps that cannot all be
 * true, and components that no remedy names.
 *
 * @param json a catalogue as JSON text, as a parsed value, or as `parseCatalogue` returned it
 */
export function checkCatalogue(json: unknown): Problem[] {
  const read = parseCatalogue(json);
  if (!read.ok) return [...read.problems];
  const catalogue = read.value;
  const index = indexCatalogue(catalogue);
  return [...read.problems, ...pairProblems(catalogue, index), ...tripleProblems(catalogue, index), ...silentComponents(catalogue)];
}

/** Two operations cannot share more than either takes, nor less than the steps that both need. */
function pairProblems(catalogue: Catalogue, index: CatalogueIndex): Problem[] {
  return catalogue.overlaps.flatMap(({ between: [a, b], hours }, i) => {
    const path = `overlaps[${i}].hours`;
    const declared = decimal(hours);
    const shorter = [a, b].find((id) => declared.gt(bookHours(id, index)));
    if (shorter !== undefined) {
      const message = `"${a}" and "${b}" are declared to share ${hours} h, but "${shorter}" takes only ${printPlain(bookHours(shorter, index))} h.`;
      return [warning('overlap-too-long', path, message, 'Lower the declared hours.')];
    }
    const steps = sharedSteps(a, b, index);
    if (declared.gte(steps)) return [];
    const message = `"${a}" and "${b}" are declared to share ${hours} h, but the steps that both need take ${printPlain(steps)} h.`;
    return [warning('overlap-below-steps', path, message, 'Raise the declared hours to those of the steps, or take the declaration out.')];
  });
}

/**
 * For three operations, what A shares with B and with C must fit into A, apart from what B and C share with each
 * other: |A∩B| + |A∩C| − |A| ≤ |B∩C|.
 */
function tripleProblems(catalogue: Catalogue, index: CatalogueIndex): Problem[] {
  const told = new Set<string>();
  return catalogue.overlaps.flatMap(({ between: [x, y] }, i) =>
    // What follows from steps alone is always true, so only triples with a declared pair are looked at.
    catalogue.operations.flatMap(({ id: z }) => {
      const triple = [x, y, z].sort().join(' ');
      if (z === x || z === y || told.has(triple)) return [];
      if (overlap(x, z, index).isZero() && overlap(y, z, index).isZero()) return [];
      told.add(triple);
      const turns = [[x, y, z], [y, x, z], [z, x, y]] as const;
      return turns.flatMap(([a, b, c]) => tripleProblem(a, b, c, `overlaps[${i}]`, index));
    }),
  );
}

function tripleProblem(a: string, b: string, c: string, path: string, index: CatalogueIndex): Problem[] {
  const least = overlap(a, b, index).plus(overlap(a, c, index)).minus(bookHours(a, index));
  const known = overlap(b, c, index);
  if (least.lte(known)) return [];
  const message =
    `"${a}" (${printPlain(bookHours(a, index))} h) shares ${printPlain(overlap(a, b, index))} h with "${b}" and ` +
    `${printPlain(overlap(a, c, index))} h with "${c}": then these two must share at least ${printPlain(least)} h, ` +
    `but they share ${printPlain(known)} h.`;
  return [warning('overlaps-contradict', path, message, `Declare what "${b}" and "${c}" share, or lower one of the other two.`)];
}

function silentComponents(catalogue: Catalogue): Problem[] {
  const named = new Set(catalogue.remedies.map((remedy) => remedy.component));
  return catalogue.components.flatMap((component, i) =>
    named.has(component.id)
      ? []
      : [warning('no-remedy', `components[${i}]`, `No remedy names "${component.title}", so a finding there proposes nothing.`, 'Add a remedy for each of its faults.')],
  );
}

/** All that two operations have in common: what is declared, at least the steps that both need. */
function overlap(a: string, b: string, index: CatalogueIndex): Decimal {
  return max(index.overlaps.get(a)?.get(b) ?? ZERO, sharedSteps(a, b, index));
}

function sharedSteps(a: string, b: string, index: CatalogueIndex): Decimal {
  const there = new Set(index.stepsOf.get(b)!.map(({ step }) => step.id));
  return sum(index.stepsOf.get(a)!.filter(({ step }) => there.has(step.id)).map(({ hours }) => hours));
}

function bookHours(id: string, index: CatalogueIndex): Decimal {
  return decimal(index.operations.get(id)!.bookHours);
}
