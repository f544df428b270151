import { tellAll } from './hearers.js';
import type { KeptKind, StorageFault } from './port.js';

/** `waiting`: kept here, not yet there; `conflict`: others have changed it there meanwhile, and a person must choose. */
export type KeptState = 'waiting' | 'kept everywhere' | 'conflict';

export interface Whereabouts {
  readonly kind: KeptKind;
  readonly id: string;
}

/** How things stand between here and there. */
export interface OfflineStanding {
  readonly waiting: readonly Whereabouts[];
  readonly conflicts: readonly Whereabouts[];
  /** Why the other place cannot be had just now; null: it can, as far as is known. */
  readonly fault: StorageFault | null;
}

/** Gathers how each text stands, and tells whoever wants to show it. */
export class Standing {
  private readonly hearers = new Set<{ hear: (standing: OfflineStanding) => void }>();
  /** What is not kept everywhere. */
  private readonly states = new Map<string, Exclude<KeptState, 'kept everywhere'>>();
  private fault: StorageFault | null = null;

  watch(hear: (standing: OfflineStanding) => void): () => void {
    // One function may listen twice.
    const hearer = { hear };
    this.hearers.add(hearer);
    hear(this.now());
    return () => void this.hearers.delete(hearer);
  }

  /** Several at once are told at once. */
  set(kind: KeptKind, states: readonly (readonly [id: string, state: KeptState])[]): void {
    let isChanged = false;
    for (const [id, state] of states) {
      const key = keyOf(kind, id);
      isChanged ||= (this.states.get(key) ?? 'kept everywhere') !== state;
      if (state === 'kept everywhere') this.states.delete(key);
      else this.states.set(key, state);
    }
    if (isChanged) this.tell();
  }

  setFault(fault: StorageFault | null): void {
    if (this.fault === fault) return;
    this.fault = fault;
    this.tell();
  }

  clear(): void {
    this.hearers.clear();
  }

  private tell(): void {
    tellAll(this.hearers, this.now());
  }

  private now(): OfflineStanding {
    const inState = (wanted: KeptState): Whereabouts[] =>
      [...this.states].filter(([, state]) => state === wanted).map(([key]) => placeOf(key));
    return { waiting: inState('waiting'), conflicts: inState('conflict'), fault: this.fault };
  }
}

export function keyOf(kind: KeptKind, id: string): string {
  return `${kind} ${id}`;
}

export function placeOf(key: string): Whereabouts {
  const [kind, id] = key.split(' ') as [KeptKind, string];
  return { kind, id };
}
