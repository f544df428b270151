import type { Problem } from '../../src/documents/problem.js';
import type { CardList } from '../../src/store/card-draft.js';
import { rowOfCard } from './card-lists.js';
import { rowOfSetting } from './card-setting-rows.js';
import { SETTINGS, type SettingsName } from './card-settings.js';
import type { CardView } from './card-view.js';

export type GridName = CardList | SettingsName;

/** A cell of one of the grids of a card. */
export interface CardPlace {
  readonly grid: GridName;
  readonly row: string;
  readonly column: string;
}

const LISTS: readonly (readonly [path: string, list: CardList, column: string])[] = [
  ['labourClasses', 'labourClasses', 'title'],
  ['parts.tiers', 'tiers', 'upTo'],
  ['fees', 'fees', 'title'],
  ['taxes', 'taxes', 'on'],
];

/** The cell that a problem is about, so that one press leads to it. */
export function problemPlace({ path }: Problem, view: CardView): CardPlace | null {
  const list = LISTS.find(([start]) => path === start || path.startsWith(`${start}[`));
  if (list !== undefined) {
    const [start, name, column] = list;
    const [, index, field] = /^\[(\d+)\](?:\.(\w+))?/.exec(path.slice(start.length)) ?? [];
    const entry = index === undefined ? undefined : view.state.draft[name][Number(index)];
    return { grid: name, row: rowOfCard(name, entry?.key ?? '+'), column: field ?? column };
  }
  for (const [grid, { settings }] of Object.entries(SETTINGS) as [SettingsName, (typeof SETTINGS)[SettingsName]][]) {
    const found =
      settings.find(({ id }) => path === id || path.startsWith(`${id}[`)) ?? settings.find(({ id }) => id.startsWith(`${path}.`));
    if (found !== undefined) return { grid, row: rowOfSetting(found.id), column: 'value' };
  }
  return null;
}

/** The cell of an entry that could not be used. */
export function pendingPlace(key: string): CardPlace {
  const at = key.indexOf(' ');
  const row = key.slice(0, at);
  const [list, id] = [row.slice(0, row.indexOf(':')), row.slice(row.indexOf(':') + 1)];
  const settings = Object.values(SETTINGS).find((grid) => grid.settings.some((setting) => setting.id === id));
  return { grid: (list === 'fields' ? settings!.id : list) as GridName, row, column: key.slice(at + 1) };
}
