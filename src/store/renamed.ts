import type { CardCommand, CardDraft } from './card-draft.js';

/** An entry of a card that operations of the catalogue name, with its id before and after. */
export interface Renamed {
  readonly target: 'labourClasses' | 'fees';
  readonly from: string;
  readonly to: string;
}

const TARGETS = ['labourClasses', 'fees'] as const;

/** The labour classes and fees that these commands give another id. */
export function renamedBy(commands: readonly CardCommand[], draft: CardDraft): Renamed[] {
  return commands.flatMap((command) => {
    if (command.do !== 'put' || (command.list !== 'labourClasses' && command.list !== 'fees')) return [];
    const { list, entry } = command;
    const before = draft[list].find(({ key }) => key === entry.key);
    return before === undefined || before.id === entry.id ? [] : [{ target: list, from: before.id, to: entry.id }];
  });
}

/** The same between two states of which one came from the other by a renaming, as undo leaves and redo restores it. */
export function renamedBetween(before: CardDraft, after: CardDraft): Renamed[] {
  return TARGETS.flatMap((target) => {
    const old = new Map(before[target].map(({ key, id }) => [key, id]));
    return after[target].flatMap(({ key, id }) => {
      const from = old.get(key);
      return from === undefined || from === id ? [] : [{ target, from, to: id }];
    });
  });
}
