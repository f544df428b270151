import type { Command } from '../../src/store/commands.js';

/** What a person did in a pane beside the grids: one step of undo, and what it is called. */
export interface PaneEdit {
  readonly commands: readonly Command[];
  readonly what: string;
}

/** Sends an edit to the sheet, as the event `edit`. */
export function sendEdit(from: EventTarget, edit: PaneEdit): void {
  from.dispatchEvent(new CustomEvent<PaneEdit>('edit', { detail: edit }));
}

/** An entry with an optional text of it changed; an empty text takes the key out, so that documents gain no key that says nothing. */
export function withText<T extends object, K extends keyof T>(entry: T, key: K, text: string): T {
  const { [key]: _, ...rest } = entry;
  const words = text.trim();
  return (words === '' ? rest : { ...rest, [key]: words }) as T;
}
