import { type CardCommand, type CardList, type CardLists, freeKey, sortedTiers } from '../../src/store/card-draft.js';
import type { SheetAction, SheetSelection } from '../grid/sheet.js';
import type { ListGrid } from './card-lists.js';
import type { CardView } from './card-view.js';

/** An entry of a row menu, with what it does. */
export interface CardAction extends SheetAction {
  /** What it is called among the steps of undo. */
  readonly label: string;
  readonly commands: readonly CardCommand[];
}

/** What can be done with the selected rows of a list. */
export function listActions<L extends CardList>(grid: ListGrid<L>, { row, rows }: SheetSelection, view: CardView): CardAction[] {
  const { list, one } = grid;
  const entries = view.state.draft[list] as readonly CardLists[L][];
  const keyOf = (id: string): string => id.slice(list.length + 1);
  const keys = rows.map(keyOf).filter((key) => key !== '+');
  const places = entries.flatMap(({ key }, i) => (keys.includes(key) ? [i] : []));
  const insert = insertAction(grid, keyOf(row), entries, view);
  if (places.length === 0) return [insert];
  const above = entries[places[0]! - 1];
  const below = entries[places.at(-1)! + 1];
  const after = entries[places.at(-1)! + 2];
  return [
    insert,
    { ...action('up', 'Move up', [{ do: 'move', list, keys, before: above?.key ?? null }]), disabled: above === undefined },
    { ...action('down', 'Move down', [{ do: 'move', list, keys, before: after?.key ?? null }]), disabled: below === undefined },
    ...(list === 'tiers' ? sortAction(view) : []),
    removeAction(keys.length === 1 ? `Remove the ${one}` : `Remove ${keys.length} rows`, list, keys, entries.length),
  ];
}

function insertAction<L extends CardList>(grid: ListGrid<L>, key: string, entries: readonly CardLists[L][], view: CardView): CardAction {
  const { entry } = grid.create(() => '', view);
  // A limit between two others is not known yet: half of the tier, at its percentage, changes no price.
  const before = entries.find((each) => each.key === key);
  const split = before !== undefined && 'upTo' in before ? { percent: before.percent, upTo: before.upTo } : {};
  return action('insert', `Insert a ${grid.one} above`, [
    {
      do: 'insert',
      list: grid.list,
      entry: { ...entry, ...split, key: freeKey(entries) },
      before: before?.key ?? null,
    } as unknown as CardCommand,
  ]);
}

function sortAction({ state }: CardView): CardAction[] {
  const { tiers } = state.draft;
  const sorted = sortedTiers(tiers);
  if (sorted.every((tier, i) => tier === tiers[i])) return [];
  return [
    action(
      'sort',
      'Put the tiers in rising order',
      sorted.map(({ key }): CardCommand => ({ do: 'move', list: 'tiers', keys: [key], before: null })),
    ),
  ];
}

/** A card without any tier could not say what a part costs. */
function removeAction(title: string, list: CardList, keys: readonly string[], all: number): CardAction {
  return { ...action('remove', title, [{ do: 'remove', list, keys }]), disabled: list === 'tiers' && keys.length === all };
}

function action(id: string, title: string, commands: readonly CardCommand[]): CardAction {
  return { id, title, label: title.charAt(0).toLowerCase() + title.slice(1), commands };
}
