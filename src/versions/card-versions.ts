import type { Rates } from '../documents/rates.js';

/** A card as it was kept: what was saved once is never overwritten. */
export interface CardVersion {
  readonly hash: string;
  readonly rates: Rates;
  /** ISO 8601, UTC. */
  readonly savedAt: string;
}

/**
 * Versions in the order in which they hold: by the day from which they are in force (none: from the beginning), those of
 * one day by when they were saved.
 */
export function inOrder(versions: readonly CardVersion[]): CardVersion[] {
  return versions.toSorted((a, b) => compare(from(a), from(b)) || compare(a.savedAt, b.savedAt));
}

/**
 * The version that is in force on a day: the last one that begins on it or before it.
 *
 * @param day ISO 8601, `2026-03-02`
 */
export function inForce(versions: readonly CardVersion[], day: string): CardVersion | null {
  return inOrder(versions).findLast((version) => from(version) <= day) ?? null;
}

/** A day in front of all others for a card without one. */
function from({ rates }: CardVersion): string {
  return rates.effectiveFrom ?? '';
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
