/** A piece of work and the steps that must be open for it, those included that these need themselves. */
export interface Task<T> {
  readonly of: T;
  readonly needs: ReadonlySet<string>;
  /** Done when all that is further inside is closed again: a closing test. */
  readonly last: boolean;
}

/** What is done in one place, from outside in and back. */
export interface Area<T> {
  /** Done as soon as one is there. */
  readonly work: readonly T[];
  /** Opened one after the other; each is closed before the next is opened. */
  readonly inside: readonly Opening<T>[];
  /** Done before it is closed again. */
  readonly last: readonly T[];
}

/** A step that is opened, what is done inside, and closed. */
export interface Opening<T> extends Area<T> {
  readonly step: string;
}

/**
 * The order of the teardown. Each step is opened once and closed once, never before the steps that it needs and never
 * while something inside is open. Work is done as soon as all its steps are open. Work that has no closed step in common
 * is independent: one piece is finished and closed before the next is begun. Otherwise the step is opened first that
 * most of it waits for.
 *
 * @param tasks in the order of the sheet, which decides where nothing else does
 * @param needsOf the steps that a step needs directly; of those that no task names nothing is said
 */
export function teardownOrder<T>(tasks: readonly Task<T>[], needsOf: (step: string) => Iterable<string>): Area<T> {
  return arrange(tasks, new Set(), needsOf);
}

function arrange<T>(tasks: readonly Task<T>[], open: ReadonlySet<string>, needsOf: (step: string) => Iterable<string>): Area<T> {
  const closed = (task: Task<T>): string[] => [...task.needs].filter((step) => !open.has(step));
  const ready = tasks.filter((task) => closed(task).length === 0);
  const groups = independent(
    tasks.filter((task) => closed(task).length > 0),
    closed,
  );
  return {
    work: ready.filter((task) => !task.last).map((task) => task.of),
    inside: groups.map((group) => {
      const step = mostAwaited(group, closed, (next) => [...needsOf(next)].every((needed) => open.has(needed)));
      return { step, ...arrange(group, new Set([...open, step]), needsOf) };
    }),
    last: ready.filter((task) => task.last).map((task) => task.of),
  };
}

/** Tasks put together where they wait for a step in common, also by way of others. */
function independent<T>(tasks: readonly Task<T>[], closed: (task: Task<T>) => readonly string[]): Task<T>[][] {
  const waiting = new Map<string, Task<T>[]>();
  for (const task of tasks) for (const step of closed(task)) waiting.set(step, [...(waiting.get(step) ?? []), task]);

  const grouped = new Set<Task<T>>();
  return tasks.flatMap((first) => {
    if (grouped.has(first)) return [];
    const group = new Set<Task<T>>();
    const open = [first];
    for (let task = open.pop(); task !== undefined; task = open.pop()) {
      if (group.has(task)) continue;
      group.add(task);
      for (const step of closed(task)) open.push(...waiting.get(step)!);
    }
    for (const task of group) grouped.add(task);
    return [tasks.filter((task) => group.has(task))];
  });
}

/** Of the steps that can be opened now, the one that most tasks wait for; of several, the first that is named. */
function mostAwaited<T>(
  group: readonly Task<T>[],
  closed: (task: Task<T>) => readonly string[],
  canOpen: (step: string) => boolean,
): string {
  const waiting = new Map<string, number>();
  for (const task of group) {
    for (const step of closed(task)) if (canOpen(step)) waiting.set(step, (waiting.get(step) ?? 0) + 1);
  }
  const [first, ...others] = [...waiting];
  if (first === undefined) throw new Error('The steps of the work need each other in a ring.');
  return others.reduce((best, next) => (next[1] > best[1] ? next : best), first)[0];
}
