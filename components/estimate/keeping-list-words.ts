import type { KeptEntry } from '../storage/port.js';
import type { AboutEstimate } from './keeping-about.js';

/** A row of the list: what is kept, and what it says of itself. */
export interface KeptRow {
  readonly entry: KeptEntry;
  readonly about: AboutEstimate;
}

/** What a person calls it by: number, name, plate. */
export function nameOf(row: KeptRow | undefined): string {
  if (row === undefined) return 'The estimate';
  const { number, name, plate } = row.about;
  return [number || 'an estimate without a number', name, plate].filter(Boolean).join(', ');
}

/** How many there are, and how many of them the search has found. */
export function countWords(found: number, all: number, search: string): string {
  const count = (n: number): string => (n === 1 ? '1 estimate' : `${n} estimates`);
  if (search.trim() === '') return all === 0 ? 'No estimate is kept yet.' : count(all);
  return found === 0 ? `None of ${count(all)} answers to that.` : `${found} of ${count(all)}`;
}
