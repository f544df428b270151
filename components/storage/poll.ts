import type { KeptChange, KeptEntry, KeptKind } from './port.js';

/** What became of a list: entries that are new or at another revision, and ids that are gone. */
export function changesBetween(kind: KeptKind, before: readonly KeptEntry[], after: readonly KeptEntry[]): KeptChange[] {
  const old = new Map(before.map(({ id, revision }) => [id, revision]));
  const present = new Set(after.map(({ id }) => id));
  return [
    ...before.filter(({ id }) => !present.has(id)).map(({ id }) => ({ kind, id, entry: null })),
    ...after.filter(({ id, revision }) => old.get(id) !== revision).map((entry) => ({ kind, id: entry.id, entry })),
  ];
}

export interface Poll {
  /** Settles when the first list is there, from which on changes are told; also when it could not be had. */
  readonly started: Promise<void>;
  end(): void;
}

/**
 * Watches one kind by asking for its list again and again. `list` gives null where nothing has changed. A list that
 * cannot be had is asked for again at the next turn; what changed meanwhile is told then.
 */
export function poll(
  kind: KeptKind,
  list: () => Promise<readonly KeptEntry[] | null>,
  tell: (change: KeptChange) => void,
  milliseconds: number,
): Poll {
  let known: readonly KeptEntry[] | null = null;
  let ended = false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const turn = async (): Promise<void> => {
    try {
      const now = await list();
      if (ended) return;
      const before = known;
      known = now ?? known;
      if (before !== null && now !== null) changesBetween(kind, before, now).forEach(tell);
    } catch {
      // Whoever puts or gets hears why; here it only means: later.
    } finally {
      if (!ended) timer = setTimeout(() => void turn(), milliseconds);
    }
  };
  return {
    started: turn(),
    end: () => {
      ended = true;
      clearTimeout(timer);
    },
  };
}
