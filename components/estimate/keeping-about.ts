import { isFixed } from '../../src/consent/revision.js';
import { readConsents } from '../../src/consent/record.js';
import type { Estimate } from '../../src/documents/estimate.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import type { KeptEntry } from '../storage/port.js';

/** What the list of estimates shows of one. */
export interface AboutEstimate {
  readonly number: string;
  readonly name: string;
  readonly plate: string;
  readonly vehicle: string;
  /** ISO 8601; empty where it is not known. */
  readonly createdAt: string;
  /** In the digits of `currency`; empty where it could not be priced. */
  readonly total: string;
  readonly currency: string;
  /** Where it stands with its customer, in words. */
  readonly standing: string;
}

/** In the order in which they are written, and how long each may be, so that all fit among the 1000 characters of `about`. */
const FIELDS: readonly (readonly [keyof AboutEstimate, number])[] = [
  ['number', 80],
  ['name', 200],
  ['plate', 40],
  ['vehicle', 300],
  ['createdAt', 40],
  ['total', 60],
  ['currency', 10],
  ['standing', 40],
];
const BETWEEN = '\t';

export function aboutOf(estimate: Estimate, priced: PricedEstimate | null): AboutEstimate {
  const { number, customer, vehicle, createdAt } = estimate;
  return {
    number,
    name: customer.name,
    plate: vehicle.plate,
    vehicle: vehicle.label,
    createdAt,
    total: priced?.totals.total ?? '',
    currency: priced?.currency ?? '',
    standing: standingOf(estimate),
  };
}

function standingOf(estimate: Estimate): string {
  const last = readConsents(estimate).consents.at(-1);
  if (last?.revision === estimate.revision) return 'authorised';
  if (isFixed(estimate)) return 'sent out';
  return last === undefined ? 'being made' : 'changed since authorised';
}

/** The words to list by, for a store. */
export function printAbout(about: AboutEstimate): string {
  return FIELDS.map(([field, most]) => shorten(about[field], most)).join(BETWEEN);
}

/** Reads them back; what somebody else wrote there stands as the number. */
export function readAbout({ about, id }: Pick<KeptEntry, 'about' | 'id'>): AboutEstimate {
  const cells = about.split(BETWEEN);
  const known = cells.length === FIELDS.length ? cells : [about || id];
  return Object.fromEntries(FIELDS.map(([field], i) => [field, known[i] ?? ''])) as unknown as AboutEstimate;
}

/** Whole characters only: half of a surrogate pair cannot be kept. */
function shorten(text: string, most: number): string {
  const plain = text
    .replace(/\s+/g, ' ')
    .replace(/\p{Surrogate}/gu, '\ufffd')
    .trim();
  if (plain.length <= most) return plain;
  return plain.slice(0, most - 1).replace(/[\uD800-\uDBFF]$/, '') + '…';
}

/**
 * Whether an entry answers a search: every word of it occurs in number, name, plate or vehicle, whatever its case and
 * accents; in plates and numbers blanks and hyphens do not matter ("8ab 123" finds "8-AB123").
 */
export function answers({ number, name, plate, vehicle }: AboutEstimate, search: string): boolean {
  const words = plain(search)
    .split(' ')
    .filter((word) => word !== '');
  const text = plain([number, name, plate, vehicle].join(' '));
  const joined = [number, plate].map(bare).join(' ');
  return (
    words.every((word) => text.includes(word) || (bare(word) !== '' && joined.includes(bare(word)))) ||
    (bare(search) !== '' && joined.includes(bare(search)))
  );
}

function plain(text: string): string {
  return text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase().replace(/\s+/g, ' ').trim();
}

function bare(text: string): string {
  return plain(text).replace(/[^\p{L}\p{N}]/gu, '');
}
