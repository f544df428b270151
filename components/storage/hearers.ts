import type { KeptChange, KeptKind } from './port.js';

/** Who wants to hear of changes, by kind. */
export class Hearers {
  private readonly byKind = new Map<KeptKind, Set<{ hear: (change: KeptChange) => void }>>();

  add(kind: KeptKind, hear: (change: KeptChange) => void): () => void {
    const hearers = this.byKind.get(kind) ?? new Set();
    this.byKind.set(kind, hearers);
    // One function may listen twice.
    const hearer = { hear };
    hearers.add(hearer);
    return () => void hearers.delete(hearer);
  }

  has(kind: KeptKind): boolean {
    return (this.byKind.get(kind)?.size ?? 0) > 0;
  }

  tell(change: KeptChange): void {
    tellAll(this.byKind.get(change.kind) ?? [], change);
  }

  clear(): void {
    this.byKind.clear();
  }
}

/** A hearer that throws keeps nobody else from hearing; its fault is reported as an uncaught one. */
export function tellAll<T>(hearers: Iterable<{ readonly hear: (told: T) => void }>, told: T): void {
  for (const { hear } of [...hearers]) {
    try {
      hear(told);
    } catch (fault) {
      queueMicrotask(() => {
        throw fault;
      });
    }
  }
}
