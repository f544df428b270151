import type { SheetColumn, SheetEdit, SheetRow } from '../grid/sheet.js';
import type { SettingsGrid } from './card-setting.js';
import { type CardGesture, type CardOutcome, type CardView, shown, withEntries } from './card-view.js';

export const SETTING_COLUMNS: readonly SheetColumn[] = [
  { id: 'setting', title: 'Setting', width: 158 },
  { id: 'value', title: 'Value', width: 124 },
  { id: 'meaning', title: 'What it means', width: 190 },
];

export function rowOfSetting(id: string): string {
  return `fields:${id}`;
}

/** The rows of a grid of settings: as many as there are, each with one cell to type in. */
export function settingRows({ settings }: SettingsGrid, view: CardView): SheetRow[] {
  return settings.map(({ id, title, meaning, cell }) => {
    const row = rowOfSetting(id);
    const cells = { setting: shown(title), value: cell(view.state.draft.fields, view), meaning: shown(meaning, { marks: ['quiet'] }) };
    return { id: row, label: title, level: 'main', cells: withEntries(cells, row, view) };
  });
}

/** What the edits of one gesture in a grid of settings come to. */
export function editSettings({ settings }: SettingsGrid, edits: readonly SheetEdit[], gesture: CardGesture, view: CardView): void {
  for (const { row, column, text } of edits) {
    const setting = settings.find(({ id }) => rowOfSetting(id) === row);
    if (setting === undefined || row === null) continue;
    const entered = setting.enter(text.trim(), gesture.state.draft.fields, { ...view, state: gesture.state });
    const outcome: CardOutcome = 'reason' in entered ? entered : { commands: [{ do: 'set', fields: entered.fields }] };
    gesture.enter(row, column, text, outcome);
  }
}
