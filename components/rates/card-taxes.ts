import { lastOfSeveral } from '../estimate/finding-choices.js';
import { others } from './card-classes.js';
import { figureCell, idOf, KINDS, readAmount, readId, readKinds, readTaxes, readTitle, use, wordsCell } from './card-entries.js';
import type { ListGrid } from './card-lists.js';

/** The taxes: on which kinds of charge, and after which other taxes. */
export const TAXES: ListGrid<'taxes'> = {
  list: 'taxes',
  label: 'Taxes',
  one: 'tax',
  spare: 'Next tax',
  columns: [
    { id: 'title', title: 'Tax', width: 150 },
    { id: 'percent', title: 'Percent', width: 74, align: 'end' },
    { id: 'on', title: 'Charged on', width: 190, help: `Some of ${KINDS.join(', ')}; or all` },
    { id: 'after', title: 'And on these taxes', width: 120, help: 'Other taxes, by their ids, that this one is charged on as well' },
    { id: 'id', title: 'Id', width: 84 },
  ],
  nameOf: ({ title }) => title,
  cells: ({ id, title, percent, on, after }, { locale }) => ({
    title: wordsCell(title),
    percent: figureCell(percent, locale),
    on: wordsCell(on.length === KINDS.length ? 'all' : on.join(', '), 'choice', { edit: on.join(', ') }),
    after: wordsCell(after.join(', '), 'choice'),
    id: wordsCell(id, 'text', { marks: ['quiet'] }),
  }),
  enter: (column, text, entry, { state, locale }) => {
    switch (column) {
      case 'percent':
        return use(readAmount(text, locale, '0'), (percent) => ({ entry: { ...entry, percent } }));
      case 'on':
        return use(readKinds(text, KINDS), (on) => ({ entry: { ...entry, on } }));
      case 'after':
        return use(
          readTaxes(
            text,
            state.draft.taxes.filter(({ key }) => key !== entry.key),
          ),
          (after) => ({ entry: { ...entry, after } }),
        );
      case 'id':
        return use(readId(text || entry.id, others(state.draft.taxes, entry.key)), (id) => ({ entry: { ...entry, id } }));
      default:
        return use(readTitle(text, 'A tax'), (title) => ({ entry: { ...entry, title } }));
    }
  },
  choices: (column, typed, { state }) => {
    if (column === 'on') return lastOfSeveral(typed, [...KINDS, ...(typed.includes(',') ? [] : ['all'])], ',');
    return column === 'after'
      ? lastOfSeveral(
          typed,
          state.draft.taxes.map(({ id }) => id),
          ',',
        )
      : [];
  },
  create: (typed, { state }) => {
    const ids = state.draft.taxes.map(({ id }) => id);
    return { entry: { id: idOf(typed('title'), 'tax', ids), title: 'Tax', percent: '0', on: [], after: [] }, before: null };
  },
};
