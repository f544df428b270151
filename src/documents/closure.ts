/**
 * Everything that can be reached from `start` along `next`, without `start` itself unless it is in a cycle; in order of discovery.
 *
 * @param most where more are reached than this it stops, with one more
 */
export function closure(start: Iterable<string>, next: (id: string) => Iterable<string>, most = Infinity): Set<string> {
  const reached = new Set<string>();
  const open = [...start].reverse();
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (reached.has(id)) continue;
    reached.add(id);
    if (reached.size > most) break;
    open.push(...[...next(id)].reverse());
  }
  return reached;
}

/** Cycles of a relation, as their ids in order: at most one through each id, so that a thicket of them is not told a thousand times. */
export function cycles(ids: Iterable<string>, next: (id: string) => Iterable<string>): string[][] {
  const found: string[][] = [];
  const done = new Set<string>();
  const told = new Set<string>();
  for (const start of ids) {
    if (done.has(start)) continue;
    const trail: { id: string; rest: Iterator<string> }[] = [{ id: start, rest: next(start)[Symbol.iterator]() }];
    const onTrail = new Set([start]);
    while (trail.length > 0) {
      const top = trail[trail.length - 1]!;
      const step = top.rest.next();
      if (step.done) {
        trail.pop();
        onTrail.delete(top.id);
        done.add(top.id);
      } else if (onTrail.has(step.value)) {
        const from = trail.findIndex((entry) => entry.id === step.value);
        const ring = trail.slice(from).map((entry) => entry.id);
        if (ring.every((id) => !told.has(id))) found.push(ring);
        for (const id of ring) told.add(id);
      } else if (!done.has(step.value)) {
        trail.push({ id: step.value, rest: next(step.value)[Symbol.iterator]() });
        onTrail.add(step.value);
      }
    }
  }
  return found;
}
