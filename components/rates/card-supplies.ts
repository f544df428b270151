import type { Supplies } from '../../src/documents/rates.js';
import { lastOfSeveral } from '../estimate/finding-choices.js';
import { figureCell, KINDS, ownTaxesCell, readAmount, readKinds, readOwnTaxes, readTitle, wordsCell } from './card-entries.js';
import { type SettingsGrid, settingsOfPart } from './card-setting.js';

const BASE_KINDS = KINDS.filter((kind) => kind !== 'supplies');
const NEW_SUPPLIES: Supplies = { title: 'Shop supplies', percent: '0', of: ['labour'], minimum: null, maximum: null, taxes: null };

/** Without a percentage there are no supplies. */
const ofSupplies = settingsOfPart('supplies', NEW_SUPPLIES, (_, key, text) => key === 'percent' && text === '');

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
