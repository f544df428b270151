import { parseRates, type Supplies } from '../../src/documents/rates.js';
import type { CardFields } from '../../src/store/card-draft.js';
import { draftRates } from '../../src/store/card-draft.js';
import type { SheetCell, SheetChoice } from '../grid/sheet.js';
import { lastOfSeveral } from '../estimate/finding-choices.js';
import {
  type Choice,
  choicesFor,
  type Entry,
  figureCell,
  KINDS,
  ownTaxesCell,
  readAmount,
  readChoice,
  readKinds,
  readOwnTaxes,
  readStep,
  readTitle,
  use,
  wordsCell,
} from './card-entries.js';
import type { CardView } from './card-view.js';

type Changes = Partial<CardFields>;
type Entered = { readonly fields: Changes } | { readonly reason: string };

/** One thing of a card that is no list: a row of a grid with its name, its value and what it means. */
export interface Setting {
  /** Also its path in the document, where it has one. */
  readonly id: string;
  readonly title: string;
  readonly meaning: string;
  cell(fields: CardFields, view: CardView): SheetCell;
  enter(text: string, fields: CardFields, view: CardView): Entered;
  choices?(typed: string, view: CardView): readonly SheetChoice[];
}

export interface SettingsGrid {
  readonly id: string;
  readonly label: string;
  readonly settings: readonly Setting[];
}

function set<K extends keyof CardFields>(key: K, entry: Entry<CardFields[K]>): Entered {
  return use(entry, (value) => ({ fields: { [key]: value } }));
}

/** A setting with a few fixed words to choose from; an empty entry takes the first. */
function chosen<K extends keyof CardFields>(
  key: K,
  id: string,
  title: string,
  meaning: string,
  choices: readonly Choice<CardFields[K]>[],
): Setting {
  return {
    id,
    title,
    meaning,
    cell: (fields) => wordsCell(choices.find(({ value }) => value === fields[key])!.text, 'choice'),
    enter: (text) => set(key, readChoice(text || choices[0]!.text, choices)),
    choices: (typed) => choicesFor(typed, choices),
  };
}

/** A setting that the document's own check judges: what it says of the path is why an entry cannot be used. */
function checked(
  key: 'currency' | 'locale' | 'effectiveFrom',
  title: string,
  meaning: string,
  form: (text: string) => string | null,
): Setting {
  return {
    id: key,
    title,
    meaning,
    cell: (fields) => wordsCell(fields[key] ?? ''),
    enter: (text, _fields, { state }) => {
      const value = form(text) as never;
      const read = parseRates({ ...draftRates(state.draft), [key]: value });
      const fault = read.problems.find(({ path, severity }) => path === key && severity === 'error');
      return fault === undefined ? { fields: { [key]: value } } : { reason: `${fault.message} ${fault.hint}` };
    },
  };
}

const CARD: SettingsGrid = {
  id: 'card',
  label: 'The card itself',
  settings: [
    {
      id: 'title',
      title: 'Title',
      meaning: 'What you call it',
      cell: ({ title }) => wordsCell(title),
      enter: (text) => ({ fields: { title: text } }),
    },
    checked('effectiveFrom', 'In force from', 'A day like 2026-01-31', (text) => text || null),
    checked('currency', 'Currency', 'Three letters of ISO 4217', (text) => text.toUpperCase()),
    checked('locale', 'Language and region', 'Of figures, like en-US or de-DE', (text) => text || 'en'),
  ],
};

const PARTS: SettingsGrid = {
  id: 'parts',
  label: 'Prices of parts and sublet work',
  settings: [
    chosen('mode', 'parts.mode', 'Tiers', 'On the whole cost, or on slices', [
      { value: 'whole', text: 'whole', hint: 'the tier’s percentage on the whole cost' },
      { value: 'progressive', text: 'progressive', hint: 'each slice of the cost at its own tier' },
    ]),
    chosen('basis', 'parts.basis', 'Price by', 'Mark-up, or list where there is one', [
      { value: 'markup', text: 'mark-up' },
      { value: 'list', text: 'list price', hint: 'where there is one, else mark-up' },
    ]),
    {
      id: 'sublet.percent',
      title: 'Sublet, mark-up %',
      meaning: 'Empty: sold at cost',
      cell: ({ sublet }, { locale }) => figureCell(sublet?.percent ?? null, locale),
      enter: (text, _fields, { locale }) =>
        use(readAmount(text, locale, null), (percent) => ({ fields: { sublet: percent === null ? null : { percent } } })),
    },
  ],
};

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

const SUPPLIES: SettingsGrid = {
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

const ROUNDING: SettingsGrid = {
  id: 'rounding',
  label: 'Rounding',
  settings: [
    chosen('pricesIncludeTax', 'pricesIncludeTax', 'Prices include tax', 'Whether tax is inside prices', [
      { value: false, text: 'no' },
      { value: true, text: 'yes' },
    ]),
    chosen('taxRounding', 'taxRounding', 'Tax is rounded', 'Where fractions are dropped', [
      { value: 'total', text: 'once for each tax' },
      { value: 'line', text: 'for each charge', hint: 'then added' },
    ]),
    chosen('rounding', 'rounding', 'A half is rounded', 'Exactly between two steps', [
      { value: 'half-up', text: 'up', hint: 'away from zero' },
      { value: 'half-even', text: 'to even' },
      { value: 'half-down', text: 'down', hint: 'towards zero' },
    ]),
    {
      id: 'moneyStep',
      title: 'Money step',
      meaning: 'Empty: the currency’s own',
      cell: ({ moneyStep }, { locale }) => figureCell(moneyStep, locale),
      enter: (text, _fields, { locale }) => set('moneyStep', readStep(text, locale, 'A money step')),
    },
    {
      id: 'cashStep',
      title: 'Cash step',
      meaning: 'What cash is rounded to; empty: not',
      cell: ({ cashStep }, { locale }) => figureCell(cashStep, locale),
      enter: (text, _fields, { locale }) => set('cashStep', readStep(text, locale, 'A cash step')),
    },
  ],
};

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

const AUTHORISATION: SettingsGrid = {
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

export const SETTINGS = { card: CARD, parts: PARTS, supplies: SUPPLIES, rounding: ROUNDING, authorisation: AUTHORISATION } as const;
export type SettingsName = keyof typeof SETTINGS;
