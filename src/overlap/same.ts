import type { SharedStep } from './carry.js';
import type { Share } from './share-work.js';
import type { Work } from './work.js';

/** Whether two works ask for the same, so that nothing about sharing changes when one takes the other's place. */
export function sameWork(a: Work, b: Work): boolean {
  return (
    a.line === b.line &&
    a.operation === b.operation &&
    a.units === b.units &&
    sameItems(a.positions, b.positions) &&
    a.rate.eq(b.rate) &&
    a.bookHours.eq(b.bookHours) &&
    a.ownHours.eq(b.ownHours) &&
    a.belowSteps === b.belowSteps
  );
}

/** Whether two shares of the same work come to the same. */
export function sameShare(a: Share, b: Share): boolean {
  return (
    a.work === b.work &&
    a.includedIn === b.includedIn &&
    a.chargedHours.eq(b.chargedHours) &&
    a.uses.length === b.uses.length &&
    a.uses.every((use, i) => use.carriedBy === b.uses[i]!.carriedBy)
  );
}

/** Whether a piece of teardown is carried and needed by the same lines, or by none either time. */
export function sameSteps(a: SharedStep | undefined, b: SharedStep | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  return a.carriedBy === b.carriedBy && a.units === b.units && sameItems(a.neededBy, b.neededBy);
}

/** Whether two lists hold the same objects in the same order. */
export function sameItems<T>(a: readonly T[], b: readonly T[]): boolean {
  return a.length === b.length && a.every((item, i) => item === b[i]);
}
