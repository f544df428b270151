import type { Catalogue, CataloguePart, Component, Method, Operation, Remedy, Step } from '../documents/catalogue.js';
import { changeLinks, type LinkTarget } from './catalogue-links.js';
import type { PendingEntry } from './commands.js';
import { insertInto, moveIn } from './lists.js';
import { UndoStore } from './undo-store.js';

/** An entry with a name of its own on the screen: its id may be changed, and remedies and overlaps have none. */
export type Keyed<T> = T & { readonly key: string };

/** Lists of a catalogue, in the order in which they are shown. */
export interface CatalogueLists {
  readonly operations: Operation;
  readonly steps: Step;
  readonly parts: CataloguePart;
  readonly remedies: Remedy;
  readonly components: Component;
  readonly cautions: Catalogue['cautions'][number];
  readonly overlaps: Catalogue['overlaps'][number];
  readonly methods: Method;
}
export type CatalogueList = keyof CatalogueLists;
export const CATALOGUE_LISTS = [
  'operations',
  'steps',
  'parts',
  'remedies',
  'components',
  'cautions',
  'overlaps',
  'methods',
] as const satisfies readonly CatalogueList[];

export type CatalogueRow = { [L in CatalogueList]: Keyed<CatalogueLists[L]> }[CatalogueList];

/** What of a catalogue is no list. */
export type CatalogueFields = Pick<Catalogue, 'id' | 'title' | 'note'>;

/**
 * A catalogue that is being worked on. Every entry has the right form, except that a remedy or an overlap may not say
 * (yet) what it is about: there an id is empty. The whole need not make sense.
 */
export type CatalogueDraft = { readonly fields: CatalogueFields } & { readonly [L in CatalogueList]: readonly Keyed<CatalogueLists[L]>[] };

/** The draft, and entries that cannot be part of it; keys are made by `cellKey`. */
export interface CatalogueState {
  readonly draft: CatalogueDraft;
  readonly pending: ReadonlyMap<string, PendingEntry>;
}

/** Every change that a person can make to a catalogue, as plain data. */
export type CatalogueCommand =
  | {
      [L in CatalogueList]: {
        readonly do: 'insert';
        readonly list: L;
        readonly entries: readonly Keyed<CatalogueLists[L]>[];
        readonly before?: string | null;
      };
    }[CatalogueList]
  /** Other versions of the entries with the same keys. An entry that gets another id has it wherever the catalogue names it. */
  | { [L in CatalogueList]: { readonly do: 'put'; readonly list: L; readonly entries: readonly Keyed<CatalogueLists[L]>[] } }[CatalogueList]
  /** Takes entries out, and with them every use of them: ask `usesOf` first. */
  | { readonly do: 'remove'; readonly list: CatalogueList; readonly keys: readonly string[] }
  | { readonly do: 'move'; readonly list: CatalogueList; readonly keys: readonly string[]; readonly before: string | null }
  | { readonly do: 'set'; readonly fields: Partial<CatalogueFields> }
  /** A fee or a labour class has another id in the rate card. */
  | { readonly do: 'follow'; readonly target: 'fees' | 'labourClasses'; readonly from: string; readonly to: string }
  /** Another catalogue: from a file. */
  | { readonly do: 'set-catalogue'; readonly catalogue: Catalogue }
  /** Entries that cannot be used stay in their cells; null takes one away. */
  | { readonly do: 'pend'; readonly cells: ReadonlyMap<string, PendingEntry | null> };

/** The state of a catalogue on the screen, with its history of undo. */
export class CatalogueStore extends UndoStore<CatalogueState, CatalogueCommand> {
  constructor(catalogue: Catalogue) {
    super(stateOf(catalogue), reduceCatalogue);
  }

  /** Another catalogue from outside: a new history. */
  replace(catalogue: Catalogue): void {
    this.begin(stateOf(catalogue));
  }
}

export function stateOf(catalogue: Catalogue): CatalogueState {
  return { draft: draftOfCatalogue(catalogue), pending: new Map() };
}

export function draftOfCatalogue({ id, title, note, ...lists }: Catalogue): CatalogueDraft {
  const rows = CATALOGUE_LISTS.map((list) => [list, (lists[list] ?? []).map((entry, i) => ({ ...entry, key: String(i) }))]);
  return { fields: { id, title, note }, ...(Object.fromEntries(rows) as Omit<CatalogueDraft, 'fields'>) };
}

const catalogues = new WeakMap<CatalogueDraft, Catalogue>();
const plainEntries = new WeakMap<CatalogueRow, object>();

/** The catalogue that a draft stands for; not checked. The same object for the same draft, the same entries for the same rows. */
export function draftCatalogue(draft: CatalogueDraft): Catalogue {
  const known = catalogues.get(draft);
  if (known !== undefined) return known;
  const { fields, methods, ...lists } = draft;
  const catalogue: Catalogue = {
    format: 'baysheet-catalogue',
    version: 1,
    ...fields,
    cautions: lists.cautions.map(unkeyed),
    components: lists.components.map(unkeyed),
    remedies: lists.remedies.map(unkeyed),
    parts: lists.parts.map(unkeyed),
    steps: lists.steps.map(unkeyed),
    operations: lists.operations.map(unkeyed),
    overlaps: lists.overlaps.map(unkeyed),
    ...(methods.length === 0 ? {} : { methods: methods.map(unkeyed) }),
  };
  catalogues.set(draft, catalogue);
  return catalogue;
}

function unkeyed<T extends CatalogueRow>(row: T): Omit<T, 'key'> {
  let plain = plainEntries.get(row) as Omit<T, 'key'> | undefined;
  if (plain === undefined) {
    const { key: _key, ...entry } = row;
    plain = entry;
    plainEntries.set(row, plain);
  }
  return plain;
}

let made = 0;

/** A key that no row has yet. */
export function freshKey(): string {
  made += 1;
  return `n${made}`;
}

const keyOf = (row: CatalogueRow): string => row.key;

/** The state after one command. Pure; what does not change stays the same object. */
export function reduceCatalogue(state: CatalogueState, command: CatalogueCommand): CatalogueState {
  const { draft } = state;
  switch (command.do) {
    case 'insert':
      return withList(state, command.list, insertInto<CatalogueRow>(draft[command.list], command.entries, command.before ?? null, keyOf));
    case 'put':
      return put(state, command.list, command.entries);
    case 'remove':
      return remove(state, command.list, new Set(command.keys));
    case 'move':
      return withList(state, command.list, moveIn<CatalogueRow>(draft[command.list], command.keys, command.before, keyOf));
    case 'set':
      return setFields(state, command.fields);
    case 'follow':
      return overLinks(state, command.target, (id) => (id === command.from ? command.to : id));
    case 'set-catalogue':
      return stateOf(command.catalogue);
    case 'pend':
      return pend(state, command.cells);
  }
}

function withList(state: CatalogueState, list: CatalogueList, rows: readonly CatalogueRow[]): CatalogueState {
  if (rows === (state.draft[list] as readonly CatalogueRow[])) return state;
  return { ...state, draft: { ...state.draft, [list]: rows } };
}

function put(state: CatalogueState, list: CatalogueList, entries: readonly CatalogueRow[]): CatalogueState {
  const byKey = new Map(entries.map((entry) => [entry.key, entry]));
  const before = state.draft[list] as readonly CatalogueRow[];
  const renamed = new Map<string, string>();
  let changed = false;
  const after = before.map((row) => {
    const next = byKey.get(row.key) ?? row;
    if (next !== row) changed = true;
    if ('id' in row && 'id' in next && row.id !== next.id) renamed.set(row.id, next.id);
    return next;
  });
  if (!changed) return state;
  const next = withList(state, list, after);
  return renamed.size === 0 ? next : overLinks(next, list as LinkTarget, (id) => renamed.get(id) ?? id);
}

function remove(state: CatalogueState, list: CatalogueList, keys: ReadonlySet<string>): CatalogueState {
  const before = state.draft[list] as readonly CatalogueRow[];
  const gone = before.filter(({ key }) => keys.has(key));
  if (gone.length === 0) return state;
  const without = withList(
    state,
    list,
    before.filter(({ key }) => !keys.has(key)),
  );
  const ids = new Set(gone.map((row) => ('id' in row ? row.id : '')));
  const after = gone.some((row) => 'id' in row) ? overLinks(without, list as LinkTarget, (id) => (ids.has(id) ? null : id)) : without;
  return withoutLostRows(after);
}

/** Goes through all links to entries of `target`; null drops one, and with it an entry that is nothing without it. */
function overLinks(state: CatalogueState, target: LinkTarget, change: (id: string) => string | null): CatalogueState {
  return CATALOGUE_LISTS.reduce((now, list) => {
    const before = now.draft[list] as readonly CatalogueRow[];
    const after = before.flatMap((row) => changeLinks(list, row, target, change) ?? []);
    return after.length === before.length && after.every((row, i) => row === before[i]) ? now : withList(now, list, after);
  }, state);
}

function withoutLostRows(state: CatalogueState): CatalogueState {
  const there = new Set(CATALOGUE_LISTS.flatMap((list) => state.draft[list].map(({ key }) => `${list}:${key}`)));
  const pending = new Map([...state.pending].filter(([key]) => key.includes(':+') || there.has(key.split(' ', 1)[0]!)));
  return pending.size === state.pending.size ? state : { ...state, pending };
}

function setFields(state: CatalogueState, fields: Partial<CatalogueFields>): CatalogueState {
  const before = state.draft.fields;
  const changed = (Object.keys(fields) as (keyof CatalogueFields)[]).some((key) => fields[key] !== before[key]);
  return changed ? { ...state, draft: { ...state.draft, fields: { ...before, ...fields } } } : state;
}

function pend(state: CatalogueState, cells: ReadonlyMap<string, PendingEntry | null>): CatalogueState {
  const pending = new Map(state.pending);
  let changed = false;
  for (const [key, entry] of cells) {
    if (entry !== null) pending.set(key, entry);
    changed = entry !== null || pending.delete(key) || changed;
  }
  return changed ? { ...state, pending } : state;
}
