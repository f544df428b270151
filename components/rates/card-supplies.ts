import type { Supplies } from '../../src/documents/rates.js';
import { lastOfSeveral } from '../estimate/finding-choices.js';
import type { SheetCell, SheetChoice } from '../grid/sheet.js';
import {
  type Entry,
  figureCell,
  KINDS,
  ownTaxesCell,
  readAmount,
  readKinds,
  readOwnTaxes,
  readTitle,
  use,
  wordsCell,
} from './card-entries.js';
import type { Setting, SettingsGrid } from './card-setting.js';
import type { CardView } from './card-view.js';

const BASE_KINDS = KINDS.filter((kind) => kind !== 'supplies');
const NEW_SUPPLIES: Supplies = { title: 'Shop supplies', percent: '0', of: ['labour'], minimum: null, maximum: null, taxes: null };

function ofSupplies(
  key: keyof Supplies,
  title: string,
  meaning: string,
  cell: (supplies: Supplies, view: CardView) => SheetCell,
  read: (text: string, view: CardView) => Entry<unknown>,
  choices?: (typed: string, view: CardView) => readonly SheetChoice[],
): Setting {
  return {
    id: `supplies.${key}`,
    title,
    meaning,
    cell: ({ supplies }, view) => {
      const like = cell(supplies ?? NEW_SUPPLIES, view);
      return supplies === null ? { text: '', editor: like.editor } : like;
    },
    enter: (text, { supplies }, view) => {
      // Without a percentage there are no supplies, and clearing what is not there changes nothing.
      if (text === '' && (supplies === null || key === 'percent')) return { fields: { supplies: null } };
      return use(read(text, view), (value) => ({ fields: { supplies: { ...(supplies ?? NEW_SUPPLIES), [key]: value } } }));
    },
    ...(choices === undefined ? {} : { choices }),
  };
}

export const SUPPLIES: SettingsGrid = {
  id: 'supplies',
  label: 'Shop supplies',
  settings: [
    ofSupplies(
      'percent',
      'Percent',
      'Empty: no supplies are charged',
      ({ percent }, { locale }) => figureCell(percent, locale),
      (text, { locale }) => readAmount(text, locale, '0'),
    ),
    ofSupplies(
      'title',
      'Called',
      'What the customer reads',
      ({ title }) => wordsCell(title),
      (text) => readTitle(text, 'Supplies'),
    ),
    ofSupplies(
      'of',
      'Of',
      'A percentage of these kinds',
      ({ of }) => wordsCell(of.join(', '), 'choice'),
      (text) => readKinds(text, BASE_KINDS),
      (typed) => lastOfSeveral(typed, BASE_KINDS, ','),
    ),
    ofSupplies(
      'minimum',
      'At least',
      'Empty: no minimum',
      ({ minimum }, { locale }) => figureCell(minimum, locale),
      (text, { locale }) => readAmount(text, locale, null),
    ),
    ofSupplies(
      'maximum',
      'At most',
      'Empty: no cap',
      ({ maximum }, { locale }) => figureCell(maximum, locale),
      (text, { locale }) => readAmount(text, locale, null),
    ),
    ofSupplies(
      'taxes',
      'Taxes',
      'Empty: as the kind says; or none',
      ({ taxes }) => ownTaxesCell(taxes),
      (text, { state }) => readOwnTaxes(text, state.draft.taxes),
      (typed, { state }) => lastOfSeveral(typed, [...state.draft.taxes.map(({ id }) => id), ...(typed.includes(',') ? [] : ['none'])], ','),
    ),
  ],
};
