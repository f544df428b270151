import { figureCell, idOf, readAmount, readId, use, wordsCell } from './card-entries.js';
import type { ListGrid } from './card-lists.js';

/** The labour classes with their rates. */
export const CLASSES: ListGrid<'labourClasses'> = {
  list: 'labourClasses',
  label: 'Labour classes',
  one: 'labour class',
  spare: 'Next class',
  columns: [
    { id: 'title', title: 'Labour class', width: 190 },
    { id: 'rate', title: 'Rate per hour', width: 110, align: 'end' },
    { id: 'id', title: 'Id', width: 120, help: 'What operations of the catalogue name it by' },
  ],
  nameOf: ({ title, id }) => title || id,
  cells: ({ id, title, rate }, { locale }) => ({
    title: wordsCell(title),
    rate: figureCell(rate, locale),
    id: wordsCell(id, 'text', { marks: ['quiet'] }),
  }),
  enter: (column, text, entry, { state, locale }) => {
    switch (column) {
      case 'rate':
        return use(readAmount(text, locale, '0'), (rate) => ({ entry: { ...entry, rate } }));
      case 'id':
        return use(readId(text || entry.id, others(state.draft.labourClasses, entry.key)), (id) => ({ entry: { ...entry, id } }));
      default:
        return { entry: { ...entry, title: text } };
    }
  },
  choices: () => [],
  create: (typed, { state }) => {
    const ids = state.draft.labourClasses.map(({ id }) => id);
    return { entry: { id: idOf(typed('title'), 'class', ids), title: '', rate: '0' }, before: null };
  },
};

/** The ids of all entries but one. */
export function others(list: readonly { readonly id: string; readonly key: string }[], key: string): string[] {
  return list.filter((entry) => entry.key !== key).map(({ id }) => id);
}
