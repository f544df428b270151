import { lastOfSeveral } from '../estimate/finding-choices.js';
import { others } from './card-classes.js';
import {
  type Choice,
  choicesFor,
  figureCell,
  idOf,
  ownTaxesCell,
  readAmount,
  readChoice,
  readId,
  readOwnTaxes,
  readTitle,
  use,
  wordsCell,
} from './card-entries.js';
import type { ListGrid } from './card-lists.js';

const PER: readonly Choice<'estimate' | 'unit'>[] = [
  { value: 'estimate', text: 'once for the estimate' },
  { value: 'unit', text: 'for each unit of work' },
];

/** Fees that operations of the catalogue name. */
export const FEES: ListGrid<'fees'> = {
  list: 'fees',
  label: 'Fees',
  one: 'fee',
  spare: 'Next fee',
  columns: [
    { id: 'title', title: 'Fee', width: 150 },
    { id: 'amount', title: 'Amount', width: 74, align: 'end' },
    { id: 'per', title: 'Charged', width: 130 },
    { id: 'taxes', title: 'Taxes', width: 110, help: 'Empty: as the taxes say for fees; or none; or some by their ids' },
    { id: 'id', title: 'Id', width: 110, help: 'What operations of the catalogue name it by' },
  ],
  nameOf: ({ title }) => title,
  cells: ({ id, title, amount, per, taxes }, { locale }) => ({
    title: wordsCell(title),
    amount: figureCell(amount, locale),
    per: wordsCell(PER.find(({ value }) => value === per)!.text, 'choice'),
    taxes: ownTaxesCell(taxes),
    id: wordsCell(id, 'text', { marks: ['quiet'] }),
  }),
  enter: (column, text, entry, { state, locale }) => {
    switch (column) {
      case 'amount':
        return use(readAmount(text, locale, '0'), (amount) => ({ entry: { ...entry, amount } }));
      case 'per':
        return use(readChoice(text || 'estimate', PER), (per) => ({ entry: { ...entry, per } }));
      case 'taxes':
        return use(readOwnTaxes(text, state.draft.taxes), (taxes) => ({ entry: { ...entry, taxes } }));
      case 'id':
        return use(readId(text || entry.id, others(state.draft.fees, entry.key)), (id) => ({ entry: { ...entry, id } }));
      default:
        return use(readTitle(text, 'A fee'), (title) => ({ entry: { ...entry, title } }));
    }
  },
  choices: (column, typed, { state }) => {
    if (column === 'per') return choicesFor(typed, PER);
    return column === 'taxes'
      ? lastOfSeveral(typed, [...state.draft.taxes.map(({ id }) => id), ...(typed.includes(',') ? [] : ['none'])], ',')
      : [];
  },
  create: (typed, { state }) => {
    const ids = state.draft.fees.map(({ id }) => id);
    return { entry: { id: idOf(typed('title'), 'fee', ids), title: 'Fee', amount: '0', per: 'estimate', taxes: null }, before: null };
  },
};
