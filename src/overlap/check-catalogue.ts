import { type Catalogue, parseCatalogue } from '../documents/catalogue.js';
import { type Problem, warning } from '../documents/problem.js';
import { type Decimal, decimal, printPlain, sum } from '../number/decimal.js';
import { type CatalogueIndex, indexCatalogue } from './catalogue-index.js';
import { tripleProblems } from './check-triples.js';

/**
 * What the keeper of a catalogue should know: whatever `parseCatalogue` finds, declared overlaps that cannot all be
 * true, and components that no remedy names.
 *
 * @param json a catalogue as JSON text, as a parsed value, or as `parseCatalogue` returned it
 */
export function checkCatalogue(json: unknown): Problem[] {
  const read = parseCatalogue(json);
  if (!read.ok) return [...read.problems];
  return [...read.problems, ...[...checksOf(read.value)].flat()];
}

/**
 * The same for a catalogue that `parseCatalogue` has let through, piece by piece, so that a page can do something else in
 * between: the problems of each piece as it is done.
 */
export function* checksOf(catalogue: Catalogue): Generator<Problem[], void> {
  const index = indexCatalogue(catalogue);
  yield [];
  yield pairProblems(catalogue, index);
  yield* tripleProblems(index);
  yield silentComponents(catalogue);
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

function silentComponents(catalogue: Catalogue): Problem[] {
  const named = new Set(catalogue.remedies.map((remedy) => remedy.component));
  return catalogue.components.flatMap((component, i) =>
    named.has(component.id)
      ? []
      : [
          warning(
            'no-remedy',
            `components[${i}]`,
            `No remedy names "${component.title}", so a finding there proposes nothing.`,
            'Add a remedy for each of its faults.',
          ),
        ],
  );
}

function sharedSteps(a: string, b: string, index: CatalogueIndex): Decimal {
  const there = new Set(index.stepsOf.get(b)!.map(({ step }) => step.id));
  return sum(
    index.stepsOf
      .get(a)!
      .filter(({ step }) => there.has(step.id))
      .map(({ hours }) => hours),
  );
}

function bookHours(id: string, index: CatalogueIndex): Decimal {
  return decimal(index.operations.get(id)!.bookHours);
}
