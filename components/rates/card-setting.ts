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

type PartName = 'supplies' | 'authorisation';
type Part<P extends PartName> = NonNullable<CardFields[P]>;

/** How the settings of one part are made: each is called, shown and read as it is told. */
export type SettingOfPart<P extends PartName> = (
  key: keyof Part<P> & string,
  title: string,
  meaning: string,
  cell: (part: Part<P>, view: CardView) => SheetCell,
  read: (text: string, view: CardView) => Entry<unknown>,
  choices?: (typed: string, view: CardView) => readonly SheetChoice[],
) => Setting;

/**
 * The settings of a part that a card may lack. They are empty then, and the first entry begins the part anew.
 *
 * @param isGone whether an entry leaves nothing of it
 */
export function settingsOfPart<P extends PartName>(
  name: P,
  fresh: Part<P>,
  isGone: (part: Part<P>, key: keyof Part<P>, text: string) => boolean,
): SettingOfPart<P> {
  const partOf = (fields: CardFields): Part<P> | null => fields[name] as Part<P> | null;
  return (key, title, meaning, cell, read, choices) => ({
    id: `${name}.${key}`,
    title,
    meaning,
    cell: (fields, view) => {
      const part = partOf(fields);
      const like = cell(part ?? fresh, view);
      return part === null ? { text: '', editor: like.editor } : like;
    },
    enter: (text, fields, view) => {
      const part = partOf(fields);
      // Clearing what is not there changes nothing.
      if (text === '' && part === null) return { fields: {} };
      return use(read(text, view), (value) => {
        const next = { ...(part ?? fresh), [key]: value };
        return { fields: { [name]: isGone(next, key, text) ? null : next } };
      });
    },
    ...(choices === undefined ? {} : { choices }),
  });
}
