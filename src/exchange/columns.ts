import { OPERATION_FIELDS, OPERATION_WORDS, type OperationField } from './operation-fields.js';

/** Which column of a table says what: the place of the column by field; a field that is missing is in no column. */
export type ColumnMap = Readonly<Partial<Record<OperationField, number>>>;

/**
 * Guesses from the headings which column says what, for a person to correct: a heading that is one of a field's words
 * first, then one that holds such a word; each column serves once.
 */
export function guessColumns(headings: readonly string[]): ColumnMap {
  const map: Partial<Record<OperationField, number>> = {};
  const free = new Set(headings.keys());
  const plain = headings.map(plainWords);
  const take = (fits: (heading: string, words: readonly string[]) => boolean): void => {
    for (const field of OPERATION_FIELDS) {
      if (map[field] !== undefined) continue;
      const at = [...free].find((column) => plain[column] !== '' && fits(plain[column]!, OPERATION_WORDS[field]));
      if (at === undefined) continue;
      map[field] = at;
      free.delete(at);
    }
  };
  // Several headings may fit; the words of a field are in the order of their strength.
  const ranks = Math.max(...OPERATION_FIELDS.map((field) => OPERATION_WORDS[field].length));
  for (const rank of Array(ranks).keys()) take((heading, words) => words[rank] === heading);
  take((heading, words) => words.some((word) => word.length > 3 && ` ${heading} `.includes(` ${word} `)));
  return map;
}

/** Whether the first row of a table is headings: a table of ours, or one in which no cell there is a figure. */
export function hasHeadings(first: readonly string[]): boolean {
  return !first.some((cell) => /^\s*[-+]?\d+([.,]\d+)*\s*$/.test(cell));
}

/** In lower case, without accents, marks and what stands in brackets; "labor" and "labour" are one word. */
function plainWords(heading: string): string {
  return heading
    .normalize('NFD')
    .replace(/\p{M}|\([^)]*\)/gu, '')
    .replace(/([\p{Ll}])(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .replace(/\blabor\b/g, 'labour')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '')
    .join(' ');
}
