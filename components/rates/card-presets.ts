import rules from '../../rates/authorisation/rules.json';
import australia from '../../rates/card.australia.json';
import ontario from '../../rates/card.canada-ontario.json';
import quebec from '../../rates/card.canada-quebec.json';
import germany from '../../rates/card.germany.json';
import japan from '../../rates/card.japan.json';
import newZealand from '../../rates/card.new-zealand.json';
import uk from '../../rates/card.uk.json';
import usPartsTax from '../../rates/card.us-parts-tax.json';
import sources from '../../rates/presets/taxes.json';
import type { Rates } from '../../src/documents/rates.js';
import { type CardCommand, draftOf } from '../../src/store/card-draft.js';
import type { CardView } from './card-view.js';

/** What is offered ready-made: a convenience, with where it comes from and whether that was read or remembered. */
export interface Preset {
  readonly id: string;
  readonly place: string;
  /** What it sets, in words. */
  readonly text: string;
  readonly sources: readonly { readonly of: string; readonly seen: string; readonly text: string }[];
  readonly note: string;
  commands(view: CardView): CardCommand[];
}

const SEEN: Readonly<Record<string, string>> = {
  text: 'the source itself was read',
  secondary: 'a summary was read, not the source',
  memory: 'from memory, not read',
  invented: 'invented',
};

/** Rules of authorisation that can be said in figures. */
export const RULE_PRESETS: readonly Preset[] = rules.rules.map(({ id, place, rule, seen, where, note, from, below }) => ({
  id,
  place: `${place}${rangeText(from, below)}`,
  text: rule.source,
  sources: [{ of: 'Rule', seen: SEEN[seen]!, text: where ?? '' }],
  note: note ?? '',
  commands: () => [{ do: 'set', fields: { authorisation: rule as NonNullable<Rates['authorisation']> } }],
}));

function rangeText(from: string | null, below: string | null): string {
  if (from === null && below === null) return '';
  return `, totals ${from === null ? '' : `from ${from}`}${from !== null && below !== null ? ' ' : ''}${below === null ? '' : `below ${below}`}`;
}

const CARDS = [usPartsTax, quebec, ontario, uk, germany, australia, newZealand, japan] as unknown as readonly Rates[];

/** Taxes of a place, with how they are rounded and what is paid in cash. */
export const TAX_PRESETS: readonly Preset[] = sources.cards
  .filter(({ card }) => CARDS.some(({ id }) => id === card))
  .map(({ card, place, taxes, rate, rounding, cash, note }) => ({
    id: card,
    place,
    text: taxes,
    sources: [
      { of: 'Rate', seen: SEEN[rate.seen]!, text: rate.text },
      { of: 'Rounding', seen: SEEN[rounding.seen]!, text: rounding.text },
      ...(cash === null ? [] : [{ of: 'Cash', seen: SEEN[cash.seen]!, text: cash.text }]),
    ],
    note: note ?? '',
    commands: (view: CardView) =>
      taxCommands(
        CARDS.find(({ id }) => id === card)!,
        view,
      ),
  }));

/** The taxes of another card in place of those that are there, which go from wherever the card names them. */
function taxCommands({ taxes, taxRounding, pricesIncludeTax, rounding, cashStep }: Rates, { state }: CardView): CardCommand[] {
  const { draft } = state;
  const fresh = draftOf({ ...EMPTY, taxes }).taxes.map((tax) => ({ ...tax, key: `p${tax.key}` }));
  return [
    { do: 'remove', list: 'taxes', keys: draft.taxes.map(({ key }) => key) },
    ...fresh.map((entry): CardCommand => ({ do: 'insert', list: 'taxes', entry, before: null })),
    { do: 'set', fields: { taxRounding, pricesIncludeTax, rounding, cashStep } },
    // Taxes that fees and supplies had named are gone with those taxes: they go by their kind again.
    ...draft.fees
      .filter((fee) => fee.taxes !== null && fee.taxes.length > 0)
      .map((fee): CardCommand => ({ do: 'put', list: 'fees', entry: { ...fee, taxes: null } })),
    ...(draft.fields.supplies?.taxes?.length
      ? [{ do: 'set', fields: { supplies: { ...draft.fields.supplies, taxes: null } } } satisfies CardCommand]
      : []),
  ];
}

const EMPTY = { labourClasses: [], parts: { basis: 'markup', mode: 'whole', tiers: [] }, fees: [] } as unknown as Rates;
