/** The two counts behind rules 4 and 6, done by trying everything: slow, and with nothing in common with the engine. */
import type { Documents } from './oracle-documents.js';
import { Fraction, ZERO, most, sum } from './oracle-fraction.js';

/** Union of steps by brute force: everything reachable, unit by unit, in a plain set. */
export function unionHours({ estimate, catalogue }: Documents): Fraction {
  const done = new Map<string, Fraction>();
  let own = ZERO;
  for (const line of estimate.lines) {
    if (line.kind !== 'operation') continue;
    const operation = catalogue.operations.find(({ id }) => id === line.operation)!;
    const places = operation.per === 'position' && line.positions.length > 0 ? line.positions : [''];
    for (const place of places) {
      const reached = new Set(operation.steps);
      for (let size = -1; size !== reached.size;) {
        size = reached.size;
        catalogue.steps.filter(({ id }) => reached.has(id)).forEach(({ needs }) => needs.forEach((id) => reached.add(id)));
      }
      own = own.plus(Fraction.of(operation.bookHours));
      for (const step of catalogue.steps.filter(({ id }) => reached.has(id))) {
        own = own.minus(Fraction.of(step.hours));
        done.set(step.per === 'position' ? `${step.id} ${place}` : step.id, Fraction.of(step.hours));
      }
    }
    if (operation.per === 'vehicle' && line.positions.length > 1) {
      own = own.plus(Fraction.of(operation.additionalHours ?? '0').times(Fraction.of(line.positions.length - 1)));
    }
  }
  return own.plus(sum(done.values()));
}

/** The heaviest spanning forest by trying every forest there is. */
export function heaviestForest(nodes: number, edges: readonly { a: number; b: number; weight: Fraction }[]): Fraction {
  const grow = (from: number, tree: readonly number[], weight: Fraction): Fraction => {
    const edge = edges[from];
    if (!edge) return weight;
    const without = grow(from + 1, tree, weight);
    const [a, b] = [tree[edge.a]!, tree[edge.b]!];
    if (a === b) return without;
    return most(
      without,
      grow(
        from + 1,
        tree.map((root) => (root === b ? a : root)),
        weight.plus(edge.weight),
      ),
    );
  };
  return grow(
    0,
    Array.from({ length: nodes }, (_, i) => i),
    ZERO,
  );
}
