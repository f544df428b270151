import type { Share } from './share-work.js';
import type { Work } from './work.js';

/** Whether two works ask for the same, so that nothing about sharing changes when one takes the other's place. */
export function sameWork(a: Work, b: Work): boolean {
  return (
    a.line === b.line &&
    a.operation === b.operation &&
    a.units === b.units &&
    a.positions.length === b.positions.length &&
    a.positions.every((position, i) => position === b.positions[i]) &&
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
