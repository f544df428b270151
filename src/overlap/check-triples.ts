import type { Operation } from '../documents/catalogue.js';
import { type Problem, warning } from '../documents/problem.js';
import { type Decimal, decimal, max, printPlain, sum, ZERO } from '../number/decimal.js';
import type { CatalogueIndex } from './catalogue-index.js';

/** Operations that need the same steps: what they share with another operation by steps is the same for all of them. */
interface Kin {
  readonly steps: ReadonlyMap<string, Decimal>;
  readonly operations: Operation[];
}

/**
 * For three operations, what A shares with B and with C must fit into A, apart from what B and C share with each other:
 * |A∩B| + |A∩C| − |A| ≤ |B∩C|. What follows from steps alone is always true, so only threes with a declared pair are
 * looked at; the third is looked at once for all that need the same steps. Gives the problems of one declared pair at a
 * time, for whoever has something else to do in between.
 */
export function* tripleProblems(index: CatalogueIndex): Generator<Problem[], void> {
  const hours = new SharedHours(index);
  const told = new Set<string>();
  for (const [
    i,
    {
      between: [x, y],
    },
  ] of index.catalogue.overlaps.entries()) {
    const path = `overlaps[${i}]`;
    // Each of the two among them: a declared pair is known from either side.
    const named = new Set([...index.overlaps.get(x)!.keys(), ...index.overlaps.get(y)!.keys()]);
    const found: Problem[] = [];
    for (const z of named) {
      const triple = [x, y, z].sort().join(' ');
      if (z === x || z === y || told.has(triple)) continue;
      told.add(triple);
      for (const [a, b, c] of [
        [x, y, z],
        [y, x, z],
        [z, x, y],
      ] as const)
        found.push(...tripleProblem(a, b, c, 0, path, hours));
    }
    for (const { operations } of hours.kin) {
      const others = operations.filter(({ id }) => !named.has(id));
      const z = others[0]?.id;
      if (z === undefined || (hours.of(x, z).isZero() && hours.of(y, z).isZero())) continue;
      // With the third in the middle there is nothing to tell: its own steps hold all that it shares with the two.
      for (const [a, b] of [
        [x, y],
        [y, x],
      ] as const)
        found.push(...tripleProblem(a, b, z, others.length - 1, path, hours));
    }
    yield found;
  }
}

function tripleProblem(a: string, b: string, c: string, more: number, path: string, hours: SharedHours): Problem[] {
  const least = hours.of(a, b).plus(hours.of(a, c)).minus(hours.book(a));
  const known = hours.of(b, c);
  if (least.lte(known)) return [];
  const message =
    `"${a}" (${printPlain(hours.book(a))} h) shares ${printPlain(hours.of(a, b))} h with "${b}" and ` +
    `${printPlain(hours.of(a, c))} h with "${c}": then these two must share at least ${printPlain(least)} h, ` +
    `but they share ${printPlain(known)} h.${more === 0 ? '' : ` So it is with ${more} more that need the same steps as "${c}".`}`;
  return [warning('overlaps-contradict', path, message, `Declare what "${b}" and "${c}" share, or lower one of the other two.`)];
}

/** All that two operations have in common: what is declared, at least the steps that both need. */
class SharedHours {
  readonly kin: readonly Kin[];
  private readonly kinOf = new Map<string, Kin>();
  private readonly byKin = new Map<Kin, Map<Kin, Decimal>>();

  constructor(private readonly index: CatalogueIndex) {
    const bySteps = new Map<string, Kin>();
    for (const operation of index.catalogue.operations) {
      const steps = index.stepsOf.get(operation.id)!;
      const name = steps
        .map(({ step }) => step.id)
        .sort()
        .join(' ');
      let kin = bySteps.get(name);
      if (kin === undefined) {
        kin = { steps: new Map(steps.map(({ step, hours }) => [step.id, hours])), operations: [] };
        bySteps.set(name, kin);
      }
      kin.operations.push(operation);
      this.kinOf.set(operation.id, kin);
    }
    this.kin = [...bySteps.values()];
  }

  of(a: string, b: string): Decimal {
    return max(this.index.overlaps.get(a)?.get(b) ?? ZERO, this.bySteps(a, b));
  }

  book(id: string): Decimal {
    return decimal(this.index.operations.get(id)!.bookHours);
  }

  private bySteps(a: string, b: string): Decimal {
    const [here, there] = [this.kinOf.get(a)!, this.kinOf.get(b)!];
    let known = this.byKin.get(here);
    if (known === undefined) this.byKin.set(here, (known = new Map<Kin, Decimal>()));
    let shared = known.get(there);
    if (shared === undefined) {
      shared = sum([...here.steps].filter(([step]) => there.steps.has(step)).map(([, hours]) => hours));
      known.set(there, shared);
    }
    return shared;
  }
}
