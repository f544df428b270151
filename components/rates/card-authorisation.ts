import type { CardFields } from '../../src/store/card-draft.js';
import type { SheetCell, SheetChoice } from '../grid/sheet.js';
import { type Choice, choicesFor, type Entry, figureCell, readAmount, readChoice, use, wordsCell } from './card-entries.js';
import type { Setting, SettingsGrid } from './card-setting.js';
import type { CardView } from './card-view.js';

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

function ofRule(
  key: keyof Rule,
  title: string,
  meaning: string,
  cell: (rule: Rule, view: CardView) => SheetCell,
  read: (text: string, view: CardView) => Entry<unknown>,
  choices?: (typed: string) => readonly SheetChoice[],
): Setting {
  return {
    id: `authorisation.${key}`,
    title,
    meaning,
    cell: ({ authorisation }, view) => {
      const like = cell(authorisation ?? NEW_RULE, view);
      return authorisation === null ? { text: '', editor: like.editor } : like;
    },
    enter: (text, { authorisation }, view) => {
      if (text === '' && authorisation === null) return { fields: {} };
      return use(read(text, view), (value) => {
        const rule = { ...(authorisation ?? NEW_RULE), [key]: value } as Rule;
        // A rule without a figure says nothing.
        return {
          fields: { authorisation: rule.percent === null && rule.amount === null && (key === 'percent' || key === 'amount') ? null : rule },
        };
      });
    },
    ...(choices === undefined ? {} : { choices }),
  };
}

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
