import type { CardFields } from '../../src/store/card-draft.js';
import type { SheetCell, SheetChoice } from '../grid/sheet.js';
import { type Choice, choicesFor, type Entry, readChoice, use, wordsCell } from './card-entries.js';
import type { CardView } from './card-view.js';

type Changes = Partial<CardFields>;
/** What an entry changes, or why it cannot be used. */
export type Entered = { readonly fields: Changes } | { readonly reason: string };

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

/** What an entry makes of one field. */
export function set<K extends keyof CardFields>(key: K, entry: Entry<CardFields[K]>): Entered {
  return use(entry, (value) => ({ fields: { [key]: value } }));
}

/** A setting with a few fixed words to choose from; an empty entry takes the first. */
export function chosen<K extends keyof CardFields>(
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
