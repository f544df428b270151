import { StorageFault } from '../storage/port.js';

const WORDS: Readonly<Record<StorageFault['code'], string>> = {
  full: 'There is no room left in the store.',
  denied: 'The browser or the server does not allow anything to be kept here.',
  newer: 'What is kept here was written by a newer version of this page. Load the page again.',
  corrupt: 'What is kept here cannot be read.',
  away: 'The store cannot be reached now.',
  fault: 'The store failed.',
};

/** Why something could not be kept or read, in words. */
export function faultWords(fault: unknown): string {
  if (fault instanceof StorageFault) return `${WORDS[fault.code]}${fault.message === '' ? '' : ` (${fault.message})`}`;
  return `${WORDS.fault} (${fault instanceof Error ? fault.message : String(fault)})`;
}
