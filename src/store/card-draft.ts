import type { MarkUp, Rates } from '../documents/rates.js';
import { decimal } from '../number/decimal.js';
import type { PendingEntry } from './commands.js';
import { insertInto, moveIn, putInto } from './lists.js';
import { UndoStore } from './undo-store.js';

/** An entry with a name of its own on the screen: its id may be changed, and a mark-up tier has none. */
type Keyed<T> = T & { readonly key: string };

/** Lists of a card whose entries have an order. */
export interface CardLists {
  readonly labourClasses: Keyed<Rates['labourClasses'][number]>;
  readonly tiers: Keyed<MarkUp['tiers'][number]>;
  readonly fees: Keyed<Rates['fees'][number]>;
  readonly taxes: Keyed<Rates['taxes'][number]>;
}
export type CardList = keyof CardLists;
type AnyEntry = CardLists[CardList];

/** What of a card is no list. */
export type CardFields = Omit<Rates, 'format' | 'version' | 'labourClasses' | 'parts' | 'fees' | 'taxes'> & Pick<MarkUp, 'basis' | 'mode'>;

/** A rate card that is being worked on: every entry has the right form, the whole need not (yet) make sense. */
export interface CardDraft {
  readonly fields: CardFields;
  readonly labourClasses: readonly CardLists['labourClasses'][];
  readonly tiers: readonly CardLists['tiers'][];
  readonly fees: readonly CardLists['fees'][];
  readonly taxes: readonly CardLists['taxes'][];
}

/** The draft, and entries that cannot be part of it; keys are made by `cellKey`. */
export interface CardState {
  readonly draft: CardDraft;
  readonly pending: ReadonlyMap<string, PendingEntry>;
}

/** Every change that a person can make to a rate card, as plain data. */
export type CardCommand =
  | {
      [L in CardList]: { readonly do: 'insert' | 'put'; readonly list: L; readonly entry: CardLists[L]; readonly before?: string | null };
    }[CardList]
  | { readonly do: 'remove'; readonly list: CardList; readonly keys: readonly string[] }
  | { readonly do: 'move'; readonly list: CardList; readonly keys: readonly string[]; readonly before: string | null }
  | { readonly do: 'set'; readonly fields: Partial<CardFields> }
  /** Other mark-up altogether, as a way out of a cliff gives it. */
  | { readonly do: 'set-parts'; readonly parts: MarkUp }
  /** Another card: a version, or a file. */
  | { readonly do: 'set-card'; readonly rates: Rates }
  /** An entry that cannot be used stays in its cell; null takes it away. */
  | { readonly do: 'pend'; readonly key: string; readonly entry: PendingEntry | null };

/** The state of a rate card on the screen, with its history of undo. */
export class CardStore extends UndoStore<CardState, CardCommand> {
  constructor(rates: Rates) {
    super(stateOf(rates), reduceCard);
  }

  /** Another card from outside: a new history. */
  replace(rates: Rates): void {
    this.begin(stateOf(rates));
  }
}

const rows = new WeakMap<CardDraft, Rates>();

/** The card that a draft stands for; not checked. The same object for the same draft. */
export function draftRates(draft: CardDraft): Rates {
  const known = rows.get(draft);
  if (known !== undefined) return known;
  const { basis, mode, ...fields } = draft.fields;
  const { labourClasses, tiers, fees, taxes } = draft;
  const rates: Rates = {
    format: 'baysheet-rates',
    version: 1,
    id: fields.id,
    title: fields.title,
    currency: fields.currency,
    locale: fields.locale,
    effectiveFrom: fields.effectiveFrom,
    rounding: fields.rounding,
    moneyStep: fields.moneyStep,
    labourClasses: labourClasses.map(unkeyed),
    parts: { basis, mode, tiers: tiers.map(unkeyed) },
    sublet: fields.sublet,
    supplies: fields.supplies,
    fees: fees.map(unkeyed),
    taxes: taxes.map(unkeyed),
    taxRounding: fields.taxRounding,
    pricesIncludeTax: fields.pricesIncludeTax,
    cashStep: fields.cashStep,
    authorisation: fields.authorisation,
  };
  rows.set(draft, rates);
  return rates;
}

function stateOf(rates: Rates): CardState {
  return { draft: draftOf(rates), pending: new Map() };
}

export function draftOf(rates: Rates): CardDraft {
  const { format: _format, version: _version, labourClasses, parts, fees, taxes, ...fields } = rates;
  return {
    fields: { ...fields, basis: parts.basis, mode: parts.mode },
    labourClasses: labourClasses.map(keyed),
    tiers: parts.tiers.map(keyed),
    fees: fees.map(keyed),
    taxes: taxes.map(keyed),
  };
}

/** A key that no entry of the list has. */
export function freeKey(list: readonly AnyEntry[]): string {
  const taken = new Set(list.map(keyOf));
  let n = list.length;
  while (taken.has(String(n))) n += 1;
  return String(n);
}

function keyed<T extends object>(entry: T, i: number): Keyed<T> {
  return { ...entry, key: String(i) };
}

function unkeyed<T extends { readonly key: string }>({ key: _key, ...entry }: T): Omit<T, 'key'> {
  return entry;
}

const keyOf = (entry: AnyEntry): string => entry.key;

/** The state after one command. Pure; what does not change stays the same object. */
export function reduceCard(state: CardState, command: CardCommand): CardState {
  const { draft } = state;
  switch (command.do) {
    case 'insert':
      return withList(state, command.list, insertInto<AnyEntry>(draft[command.list], [command.entry], command.before ?? null, keyOf));
    case 'put':
      return put(state, command.list, command.entry);
    case 'move':
      return withList(state, command.list, moveIn<AnyEntry>(draft[command.list], command.keys, command.before, keyOf));
    case 'remove':
      return remove(state, command.list, new Set(command.keys));
    case 'set':
      return setFields(state, command.fields);
    case 'set-parts': {
      const { basis, mode, tiers } = command.parts;
      const pending = new Map([...state.pending].filter(([key]) => !key.startsWith('tiers:')));
      return { draft: { ...draft, fields: { ...draft.fields, basis, mode }, tiers: tiers.map(keyed) }, pending };
    }
    case 'set-card':
      return stateOf(command.rates);
    case 'pend':
      return pend(state, command.key, command.entry);
  }
}

function withList(state: CardState, list: CardList, entries: readonly AnyEntry[]): CardState {
  if (entries === (state.draft[list] as readonly AnyEntry[])) return state;
  return { ...state, draft: { ...state.draft, [list]: entries } };
}

/** A tax that gets another id has it wherever the card names it. */
function put(state: CardState, list: CardList, entry: AnyEntry): CardState {
  const before = (state.draft[list] as readonly AnyEntry[]).find(({ key }) => key === entry.key);
  const after = withList(state, list, putInto<AnyEntry>(state.draft[list], entry, keyOf));
  if (list !== 'taxes' || before === undefined || !('id' in before) || !('id' in entry) || before.id === entry.id) return after;
  return overTaxes(after, (id) => (id === before.id ? entry.id : id));
}

/** Takes entries out with their pending entries; a tax that goes is charged on nothing any more. */
function remove(state: CardState, list: CardList, keys: ReadonlySet<string>): CardState {
  const gone = (state.draft[list] as readonly AnyEntry[]).filter(({ key }) => keys.has(key));
  if (gone.length === 0) return state;
  const kept = (state.draft[list] as readonly AnyEntry[]).filter(({ key }) => !keys.has(key));
  const rowsGone = new Set(gone.map(({ key }) => `${list}:${key}`));
  const pending = new Map([...state.pending].filter(([key]) => !rowsGone.has(key.split(' ', 1)[0]!)));
  const without = { ...withList(state, list, kept), pending };
  if (list !== 'taxes') return without;
  const ids = new Set(gone.map((tax) => ('id' in tax ? tax.id : '')));
  return overTaxes(without, (id) => (ids.has(id) ? null : id));
}

/** Goes through all references to taxes; null drops one. */
function overTaxes(state: CardState, change: (id: string) => string | null): CardState {
  const all = (ids: readonly string[]): string[] => ids.flatMap((id) => change(id) ?? []);
  const { draft } = state;
  const { supplies } = draft.fields;
  const own = <T extends { readonly taxes: string[] | null }>(entry: T): T =>
    entry.taxes === null ? entry : { ...entry, taxes: all(entry.taxes) };
  return {
    ...state,
    draft: {
      ...draft,
      fields: supplies === null ? draft.fields : { ...draft.fields, supplies: own(supplies) },
      fees: draft.fees.map(own),
      taxes: draft.taxes.map((tax) => ({ ...tax, after: all(tax.after) })),
    },
  };
}

function setFields(state: CardState, fields: Partial<CardFields>): CardState {
  const before = state.draft.fields;
  const changed = (Object.keys(fields) as (keyof CardFields)[]).some((key) => JSON.stringify(fields[key]) !== JSON.stringify(before[key]));
  return changed ? { ...state, draft: { ...state.draft, fields: { ...before, ...fields } } } : state;
}

function pend(state: CardState, key: string, entry: PendingEntry | null): CardState {
  if (entry === null && !state.pending.has(key)) return state;
  const pending = new Map(state.pending);
  if (entry === null) pending.delete(key);
  else pending.set(key, entry);
  return { ...state, pending };
}

/** Tiers in the order of their limits, the open one last. */
export function sortedTiers(tiers: CardDraft['tiers']): CardDraft['tiers'] {
  return tiers.toSorted((a, b) => (a.upTo === null ? 1 : b.upTo === null ? -1 : decimal(a.upTo).cmp(decimal(b.upTo))));
}
