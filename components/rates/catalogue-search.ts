import type { CatalogueRow } from '../../src/store/catalogue-draft.js';

/**
 * Whether a row is found: every word that was typed begins one of the words of its texts and ids, in any order; "hose
 * seal" finds `heater-hose-seal`.
 */
export function rowFinder(typed: string): ((row: CatalogueRow) => boolean) | null {
  const asked = words(typed);
  if (asked.length === 0) return null;
  return (row) => {
    let there = known.get(row);
    if (there === undefined) known.set(row, (there = words(textsOf(row).join(' '))));
    return asked.every((word) => there.some((candidate) => candidate.startsWith(word)));
  };
}

const known = new WeakMap<CatalogueRow, string[]>();

/** All words of a row, its key aside. */
function textsOf({ key: _key, ...row }: CatalogueRow): string[] {
  const texts = (value: unknown): string[] => {
    if (typeof value === 'string') return [value];
    if (typeof value !== 'object' || value === null) return [];
    return Object.values(value).flatMap(texts);
  };
  return texts(row);
}

function words(text: string): string[] {
  return text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');
}
