import type { CardFields } from '../../src/store/card-draft.js';
import { type Choice, choicesFor, figureCell, readAmount, readChoice, wordsCell } from './card-entries.js';
import { type SettingsGrid, settingsOfPart } from './card-setting.js';

type Rule = NonNullable<CardFields['authorisation']>;
const NEW_RULE: Rule = { percent: null, amount: null, pick: 'lesser', cap: null, base: 'total', source: '' };

const PICKS: readonly Choice<Rule['pick']>[] = [
  { value: 'lesser', text: 'the lesser of the two' },
  { value: 'greater', text: 'the greater of the two' },
  { value: 'percent', text: 'the percentage alone' },
  { value: 'amount', text: 'the amount alone' },
];
const BASES: readonly Choice<Rule['base']>[] = [
  { value: 'total', text: 'the total' },
  { value: 'before-tax', text: 'the total before tax' },
];

/** A rule without a figure says nothing. */
const ofRule = settingsOfPart(
  'authorisation',
  NEW_RULE,
  ({ percent, amount }, key) => percent === null && amount === null && (key === 'percent' || key === 'amount'),
);

export const AUTHORISATION: SettingsGrid = {
  id: 'authorisation',
  label: 'Rule of authorisation',
  settings: [
    ofRule(
      'percent',
      'Percent',
      'Above what was authorised',
      ({ percent }, { locale }) => figureCell(percent, locale),
      (text, { locale }) => readAmount(text, locale, null),
    ),
    ofRule(
      'amount',
      'Amount',
      'The same in money',
      ({ amount }, { locale }) => figureCell(amount, locale),
      (text, { locale }) => readAmount(text, locale, null),
    ),
    ofRule(
      'pick',
      'Which counts',
      'Where both are given',
      ({ pick }) => wordsCell(PICKS.find(({ value }) => value === pick)!.text, 'choice'),
      (text) => readChoice(text || 'lesser', PICKS),
      (typed) => choicesFor(typed, PICKS),
    ),
    ofRule(
      'cap',
      'Never more than',
      'Empty: no cap',
      ({ cap }, { locale }) => figureCell(cap, locale),
      (text, { locale }) => readAmount(text, locale, null),
    ),
    ofRule(
      'base',
      'Of',
      'What was authorised',
      ({ base }) => wordsCell(BASES.find(({ value }) => value === base)!.text, 'choice'),
      (text) => readChoice(text || 'total', BASES),
      (typed) => choicesFor(typed, BASES),
    ),
    ofRule(
      'source',
      'Source',
      'The law that this follows',
      ({ source }) => wordsCell(source),
      (text) => ({ value: text }),
    ),
  ],
};
