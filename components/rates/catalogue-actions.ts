import { idFromWords } from '../../src/exchange/slug.js';
import {
  type CatalogueCommand,
  type CatalogueDraft,
  type CatalogueList,
  type CatalogueRow,
  freshKey,
} from '../../src/store/catalogue-draft.js';
import { type LinkTarget, type Use, usesOf } from '../../src/store/catalogue-links.js';
import type { SheetAction, SheetSelection } from '../grid/sheet.js';
import { LIST_TITLES } from './catalogue-lists.js';
import { titleOf } from './catalogue-view.js';

/** What can be done with the selected rows: commands at once, or a question to the person first. */
export interface CatalogueAction extends SheetAction {
  readonly label: string;
  readonly commands: readonly CatalogueCommand[];
  readonly ask?: 'uses' | 'remove';
}

/** Rows of the draft that a selection holds, in their order. */
export function selectedRows(list: CatalogueList, selection: SheetSelection | null, draft: CatalogueDraft): CatalogueRow[] {
  const keys = new Set((selection?.rows ?? []).map((row) => row.slice(list.length + 1)));
  return (draft[list] as readonly CatalogueRow[]).filter(({ key }) => keys.has(key));
}

/** The row menu. `found`: only some rows are shown, so that moving them would say little. */
export function catalogueActions(list: CatalogueList, selection: SheetSelection, draft: CatalogueDraft, found: boolean): CatalogueAction[] {
  const rows = selectedRows(list, selection, draft);
  if (rows.length === 0) return [];
  const keys = rows.map(({ key }) => key);
  const all = draft[list] as readonly CatalogueRow[];
  const places = all.flatMap(({ key }, i) => (keys.includes(key) ? [i] : []));
  const above = found ? undefined : all[places[0]! - 1];
  const below = found ? undefined : all[places.at(-1)! + 1];
  const after = all[places.at(-1)! + 2];
  const { one } = LIST_TITLES[list];
  const many = rows.length === 1 ? `the ${one}` : `${rows.length} rows`;
  const move = (before: string | null): readonly CatalogueCommand[] => [{ do: 'move', list, keys, before }];
  const named = rows.every((row) => 'id' in row);
  return [
    ...(rows.length === 1 && named && list !== 'methods'
      ? [{ id: 'uses', title: 'Where it is used …', label: '', commands: [], ask: 'uses' as const }]
      : []),
    { id: 'copy', title: `Copy ${many} below`, label: 'copy', commands: copies(list, rows, all) },
    { id: 'up', title: 'Move up', label: 'move up', commands: above === undefined ? [] : move(above.key), disabled: above === undefined },
    {
      id: 'down',
      title: 'Move down',
      label: 'move down',
      commands: below === undefined ? [] : move(after?.key ?? null),
      disabled: below === undefined,
    },
    { id: 'remove', title: `Remove ${many}`, label: `removal of ${many}`, commands: [{ do: 'remove', list, keys }], ask: 'remove' },
  ];
}

/** The same again under free ids, after the last of the rows. */
function copies(list: CatalogueList, rows: readonly CatalogueRow[], all: readonly CatalogueRow[]): CatalogueCommand[] {
  const ids = new Set(all.flatMap((row) => ('id' in row ? [row.id] : [])));
  const entries = rows.map((row): CatalogueRow => {
    if (!('id' in row)) return { ...row, key: freshKey() };
    const id = idFromWords(row.id, ids);
    ids.add(id);
    return { ...row, id, key: freshKey() };
  });
  const next = all[all.findIndex(({ key }) => key === rows.at(-1)!.key) + 1];
  return [{ do: 'insert', list, entries, before: next?.key ?? null } as CatalogueCommand];
}

/** Where rows are named by others that stay. */
export function usesOfRows(list: CatalogueList, rows: readonly CatalogueRow[], draft: CatalogueDraft): Use[] {
  const ids = new Set(rows.flatMap((row) => ('id' in row ? [row.id] : [])));
  return ids.size === 0 ? [] : usesOf(draft, list as LinkTarget, ids, new Set(rows.map(({ key }) => key)));
}

/** A place in words: `step “Undertray off”, under needs`. */
export function useInWords({ list, row, field }: Use): string {
  const where: Readonly<Record<string, string>> = {
    operations: 'put right by',
    instead: 'instead',
    between: 'the pair',
    closing: 'closing test',
    labourClass: 'class',
  };
  return `${LIST_TITLES[list].one} “${titleOf(row)}”, under ${where[field] ?? field}`;
}
