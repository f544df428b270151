import { decimal, printPlain, sum } from '../number/decimal.js';
import type { Catalogue, Operation, PartNeed, Step } from './catalogue.js';
import { checkMethods } from './catalogue-methods.js';
import { closure, cycles } from './closure.js';
import { LIMITS } from './limits.js';
import { error, hasErrors, type Problem, warning } from './problem.js';
import { byId, duplicates, unknown, unknownAt } from './references.js';

/** What a schema cannot say of a catalogue (rules 2, 5 and 6): references, cycles, positions, hours. */
export function checkCatalogueReferences(catalogue: Catalogue): Problem[] {
  const steps = byId(catalogue.steps);
  const operations = byId(catalogue.operations);
  const found = [
    ...checkIds(catalogue),
    ...checkLinks(catalogue, steps, operations),
    ...checkCycles(catalogue, steps, operations),
    ...checkMethods(catalogue, operations),
  ];
  // Hours and positions are only asked once every reference leads somewhere: a second complaint about the same slip helps nobody.
  if (hasErrors(found)) return found;
  const far = checkReach(catalogue, steps, operations);
  if (far.length > 0) return [...found, ...far];
  return [
    ...found,
    ...checkPositions(catalogue, steps),
    ...checkHours(catalogue, steps),
    ...checkIncludes(catalogue, operations),
    ...checkOverlaps(catalogue),
  ];
}

/** Nothing needs or includes more than makes sense: it is worked out for every line. */
function checkReach(catalogue: Catalogue, steps: Map<string, Step>, operations: Map<string, Operation>): Problem[] {
  const needs = (id: string): readonly string[] => steps.get(id)!.needs;
  const includes = (id: string): readonly string[] => operations.get(id)!.includes;
  const asked = [
    ...catalogue.steps.map(({ needs: start }, i) => ({ start, next: needs, what: 'steps', path: `steps[${i}].needs` })),
    ...catalogue.operations.map(({ steps: start }, i) => ({ start, next: needs, what: 'steps', path: `operations[${i}].steps` })),
    ...catalogue.operations.map(({ includes: start }, i) => ({
      start,
      next: includes,
      what: 'operations',
      path: `operations[${i}].includes`,
    })),
  ];
  return asked.flatMap(({ start, next, what, path }) => {
    if (closure(start, next, LIMITS.reach).size <= LIMITS.reach) return [];
    const message = `More than ${LIMITS.reach} ${what} are reached from here, through others.`;
    return [error('too-many', path, message, 'Look for one that leads to all the others, and take it out here.')];
  });
}

function checkIds(catalogue: Catalogue): Problem[] {
  const lists = ['cautions', 'components', 'parts', 'steps', 'operations'] as const;
  return lists.flatMap((list) =>
    duplicates(
      catalogue[list].map((entry) => entry.id),
      list,
    ),
  );
}

function checkLinks(catalogue: Catalogue, steps: Map<string, Step>, operations: Map<string, Operation>): Problem[] {
  const cautions = byId(catalogue.cautions);
  const components = byId(catalogue.components);
  const parts = byId(catalogue.parts);
  const needsParts = (needs: readonly PartNeed[], path: string): Problem[] => [
    ...needs.flatMap((need, i) => (parts.has(need.part) ? [] : [unknownAt(need.part, 'part', `${path}[${i}].part`)])),
    ...duplicates(
      needs.map((need) => need.part),
      path,
      'part',
    ),
  ];
  return [
    ...catalogue.components.flatMap((component, i) => duplicates(component.positions, `components[${i}].positions`, '')),
    ...catalogue.remedies.flatMap((remedy, i) => [
      ...(components.has(remedy.component) ? [] : [unknownAt(remedy.component, 'component', `remedies[${i}].component`)]),
      ...unknown(remedy.operations, operations, 'operation', `remedies[${i}].operations`),
      ...remedy.instead.flatMap((list, j) => unknown(list, operations, 'operation', `remedies[${i}].instead[${j}]`)),
    ]),
    ...catalogue.steps.flatMap((step, i) => [
      ...unknown(step.needs, steps, 'step', `steps[${i}].needs`),
      ...needsParts(step.parts, `steps[${i}].parts`),
      ...step.parts.flatMap((need, j) => (need.each ? [idleEach(step.id, `steps[${i}].parts[${j}].each`)] : [])),
      ...unknown(step.cautions, cautions, 'caution', `steps[${i}].cautions`),
    ]),
    ...catalogue.operations.flatMap((operation, i) => [
      ...unknown(operation.steps, steps, 'step', `operations[${i}].steps`),
      ...unknown(operation.includes, operations, 'operation', `operations[${i}].includes`),
      ...needsParts(operation.parts, `operations[${i}].parts`),
      ...unknown(operation.cautions, cautions, 'caution', `operations[${i}].cautions`),
    ]),
    ...catalogue.overlaps.flatMap((overlap, i) => unknown(overlap.between, operations, 'operation', `overlaps[${i}].between`)),
  ];
}

function idleEach(step: string, path: string): Problem {
  const message = `"each" says nothing for a part of the step "${step}": a step's parts are needed once for each time that it is done.`;
  return warning('idle-each', path, message, 'Take "each" out here.');
}

function checkCycles(catalogue: Catalogue, steps: Map<string, Step>, operations: Map<string, Operation>): Problem[] {
  const told = (list: string, entries: readonly { id: string }[], key: string, found: string[][]): Problem[] =>
    found.map((ring) => {
      const at = entries.findIndex((entry) => entry.id === ring[0]);
      const round = [...ring, ring[0]].join(' → ');
      return error('cycle', `${list}[${at}].${key}`, `These need each other in a ring: ${round}.`, 'Take one of them out of the ring.');
    });
  return [
    ...told(
      'steps',
      catalogue.steps,
      'needs',
      cycles(steps.keys(), (id) => steps.get(id)?.needs ?? []),
    ),
    ...told(
      'operations',
      catalogue.operations,
      'includes',
      cycles(operations.keys(), (id) => operations.get(id)?.includes ?? []),
    ),
  ];
}

function checkPositions(catalogue: Catalogue, steps: Map<string, Step>): Problem[] {
  const complain = (path: string, what: string, id: string): Problem =>
    error(
      'position-step',
      path,
      `A ${what} for the whole vehicle cannot need "${id}", a step for each position.`,
      'Make both for each position, or both for the vehicle.',
    );
  const isPositionStep = (id: string): boolean => steps.get(id)?.per === 'position';
  return [
    ...catalogue.steps.flatMap((step, i) =>
      step.per === 'position'
        ? []
        : step.needs.flatMap((id, j) => (isPositionStep(id) ? [complain(`steps[${i}].needs[${j}]`, 'step', id)] : [])),
    ),
    ...catalogue.operations.flatMap((operation, i) =>
      operation.per === 'position'
        ? []
        : operation.steps.flatMap((id, j) => (isPositionStep(id) ? [complain(`operations[${i}].steps[${j}]`, 'operation', id)] : [])),
    ),
  ];
}

function checkHours(catalogue: Catalogue, steps: Map<string, Step>): Problem[] {
  return catalogue.operations.flatMap((operation, i) => {
    const needed = closure(operation.steps, (id) => steps.get(id)!.needs);
    const hours = sum([...needed].map((id) => decimal(steps.get(id)!.hours)));
    if (decimal(operation.bookHours).gte(hours)) return [];
    const message = `The book hours of "${operation.id}" (${operation.bookHours}) are below the hours of its steps (${printPlain(hours)}).`;
    return [error('book-below-steps', `operations[${i}].bookHours`, message, 'Raise the book hours, or take a step away.')];
  });
}

function checkIncludes(catalogue: Catalogue, operations: Map<string, Operation>): Problem[] {
  return catalogue.operations.flatMap((operation, i) =>
    operation.includes.flatMap((id, j) => {
      const inner = operations.get(id)!;
      if (decimal(inner.bookHours).lte(decimal(operation.bookHours))) return [];
      const message = `"${operation.id}" (${operation.bookHours} h) includes "${id}", which has longer book hours (${inner.bookHours} h).`;
      return [
        error('includes-longer', `operations[${i}].includes[${j}]`, message, 'Only a shorter operation can be part of a longer one.'),
      ];
    }),
  );
}

function checkOverlaps(catalogue: Catalogue): Problem[] {
  const seen = new Map<string, number>();
  return catalogue.overlaps.flatMap(({ between: [a, b] }, i) => {
    const path = `overlaps[${i}].between`;
    if (a === b) return [error('overlap-with-itself', path, `"${a}" cannot overlap with itself.`, 'Name two operations.')];
    const pair = [a, b].sort().join(' ');
    const before = seen.get(pair);
    seen.set(pair, i);
    if (before === undefined) return [];
    return [
      error('duplicate', path, `The overlap of "${a}" and "${b}" is declared twice; first at overlaps[${before}].`, 'Keep one of them.'),
    ];
  });
}
