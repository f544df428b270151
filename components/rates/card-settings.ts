import { parseRates } from '../../src/documents/rates.js';
import { draftRates } from '../../src/store/card-draft.js';
import { AUTHORISATION } from './card-authorisation.js';
import { figureCell, readAmount, readStep, use, wordsCell } from './card-entries.js';
import { chosen, set, type Setting, type SettingsGrid } from './card-setting.js';
import { SUPPLIES } from './card-supplies.js';

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

export const SETTINGS = { card: CARD, parts: PARTS, supplies: SUPPLIES, rounding: ROUNDING, authorisation: AUTHORISATION } as const;
export type SettingsName = keyof typeof SETTINGS;
