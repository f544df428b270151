import { checkCatalogueReferences } from '../../src/documents/catalogue-references.js';
import type { Catalogue } from '../../src/documents/catalogue.js';
import { LIMITS } from '../../src/documents/limits.js';
import { error, hasErrors, type Problem, warning } from '../../src/documents/problem.js';
import type { Rates } from '../../src/documents/rates.js';
import { checksOf } from '../../src/overlap/check-catalogue.js';
import { CATALOGUE_LISTS, type CatalogueDraft, type CatalogueList, draftCatalogue } from '../../src/store/catalogue-draft.js';

/** A problem and the cell that it is about; null for the whole. */
export interface PlacedProblem extends Problem {
  readonly place: { readonly list: CatalogueList; readonly key: string; readonly column: string } | null;
}

/**
 * Everything that is to be said of a draft, in pieces: unfinished rows, then what `checkCatalogue` says of the rest, then
 * labour classes and fees that the rate card lacks. Ends early where more is found than anybody reads.
 */
export function* checkDraft(draft: CatalogueDraft, rates: Rates | null): Generator<PlacedProblem[], void> {
  const unfinished = unfinishedRows(draft);
  yield unfinished;
  const gone = new Set(unfinished.map(({ place }) => place!.key));
  const sound: CatalogueDraft =
    gone.size === 0
      ? draft
      : {
          ...draft,
          remedies: draft.remedies.filter(({ key }) => !gone.has(key)),
          overlaps: draft.overlaps.filter(({ key }) => !gone.has(key)),
        };
  const catalogue = draftCatalogue(sound);
  const placed = (problems: readonly Problem[]): PlacedProblem[] =>
    problems.map((problem) => ({ ...problem, place: placeOf(problem.path, sound) }));

  const found = checkCatalogueReferences(catalogue);
  yield placed(found);
  let told = unfinished.length + found.length;
  if (!hasErrors(found)) {
    for (const problems of checksOf(catalogue)) {
      told += problems.length;
      yield placed(problems);
      if (told > LIMITS.problems) return;
    }
  }
  if (rates !== null) yield placed(againstCard(catalogue, rates));
}

function unfinishedRows(draft: CatalogueDraft): PlacedProblem[] {
  const say = (list: CatalogueList, key: string, column: string, message: string): PlacedProblem => ({
    ...error('unfinished', list, message, 'Fill it in, or remove the row.'),
    place: { list, key, column },
  });
  return [
    ...draft.remedies.flatMap(({ key, component, fault, operations }) => {
      if (component === '') return [say('remedies', key, 'component', 'This remedy does not say for which component it is.')];
      if (fault.trim() === '') return [say('remedies', key, 'fault', `A remedy for "${component}" does not say for which fault it is.`)];
      return operations.length === 0
        ? [say('remedies', key, 'operations', `The remedy for "${component}: ${fault}" names no operation.`)]
        : [];
    }),
    ...draft.overlaps.flatMap(({ key, between }) => {
      const at = between.indexOf('');
      return at < 0 ? [] : [say('overlaps', key, at === 0 ? 'between' : 'and', 'This overlap needs two operations.')];
    }),
  ];
}

/** Columns whose name is not that of the field. */
function columnOf(list: CatalogueList, field: string | undefined, place: string | undefined): string {
  if (list === 'overlaps') return field === 'between' && place === '1' ? 'and' : (field ?? 'between');
  if (field !== undefined) return field;
  return list === 'cautions' ? 'text' : list === 'remedies' ? 'component' : 'title';
}

function placeOf(path: string, draft: CatalogueDraft): PlacedProblem['place'] {
  const found = /^(\w+)\[(\d+)\](?:\.(\w+)(?:\[(\d+)\])?)?/.exec(path);
  const list = CATALOGUE_LISTS.find((name) => name === found?.[1]);
  const row = list === undefined ? undefined : draft[list][Number(found![2])];
  return list === undefined || row === undefined ? null : { list, key: row.key, column: columnOf(list, found![3], found![4]) };
}

function againstCard(catalogue: Catalogue, rates: Rates): Problem[] {
  const classes = new Set(rates.labourClasses.map(({ id }) => id));
  const fees = new Set(rates.fees.map(({ id }) => id));
  return catalogue.operations.flatMap((operation, i) => [
    ...(classes.has(operation.labourClass)
      ? []
      : [
          warning(
            'unknown-class',
            `operations[${i}].labourClass`,
            `The rate card has no labour class "${operation.labourClass}", so "${operation.title}" cannot be priced.`,
            'Name another, or add it to the card.',
          ),
        ]),
    ...operation.fees.flatMap((fee, j) =>
      fees.has(fee)
        ? []
        : [
            warning(
              'unknown-fee',
              `operations[${i}].fees[${j}]`,
              `The rate card has no fee "${fee}", which "${operation.title}" names.`,
              'Name another, or add it to the card.',
            ),
          ],
    ),
  ]);
}
