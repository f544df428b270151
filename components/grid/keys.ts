/** What a key asks of the sheet while no editor is open. */
export type Command =
  | { readonly do: 'move'; readonly rows: number; readonly columns: number; readonly extend: boolean }
  | { readonly do: 'edge'; readonly to: 'row-start' | 'row-end' | 'first' | 'last'; readonly extend: boolean }
  | { readonly do: 'page'; readonly rows: 1 | -1; readonly extend: boolean }
  | { readonly do: 'step'; readonly by: 1 | -1 }
  | { readonly do: 'select'; readonly what: 'all' | 'rows' | 'columns' }
  | { readonly do: 'edit'; readonly begin: '' | null; readonly list: boolean }
  | { readonly do: 'clear' | 'fill-down' | 'undo' | 'redo' | 'menu' | 'escape' };

type Key = Pick<KeyboardEvent, 'key' | 'shiftKey' | 'ctrlKey' | 'metaKey' | 'altKey' | 'isComposing' | 'keyCode'> & {
  getModifierState(key: string): boolean;
};

/**
 * The keys of a data grid (WAI-ARIA Authoring Practices, grid pattern) and those that spreadsheets add to them.
 * Control and Command are taken alike, so that the sheet works on a Mac. `null`: the key is not ours, and the
 * page gets it.
 */
export function commandFor(event: Key): Command | null {
  const { key, shiftKey: extend } = event;
  // An input method is at work: its characters belong into an editor.
  if (event.isComposing || event.keyCode === 229 || key === 'Process') return { do: 'edit', begin: '', list: false };
  // AltGr is Control and Alt on some keyboards, and makes characters.
  const makesCharacter = event.getModifierState('AltGraph');
  const control = (event.ctrlKey || event.metaKey) && !makesCharacter;
  if (control) return event.altKey ? null : withControl(key, extend);
  if (event.altKey && !makesCharacter) {
    return key === 'ArrowDown' ? { do: 'edit', begin: null, list: true } : null;
  }
  switch (key) {
    case 'ArrowUp':
      return { do: 'move', rows: -1, columns: 0, extend };
    case 'ArrowDown':
      return { do: 'move', rows: 1, columns: 0, extend };
    case 'ArrowLeft':
      return { do: 'move', rows: 0, columns: -1, extend };
    case 'ArrowRight':
      return { do: 'move', rows: 0, columns: 1, extend };
    case 'Home':
      return { do: 'edge', to: 'row-start', extend };
    case 'End':
      return { do: 'edge', to: 'row-end', extend };
    case 'PageUp':
      return { do: 'page', rows: -1, extend };
    case 'PageDown':
      return { do: 'page', rows: 1, extend };
    case 'Tab':
      return { do: 'step', by: extend ? -1 : 1 };
    case 'Enter':
      return extend ? { do: 'move', rows: -1, columns: 0, extend: false } : { do: 'edit', begin: null, list: true };
    case 'F2':
      return { do: 'edit', begin: null, list: true };
    case 'F10':
      return extend ? { do: 'menu' } : null;
    case 'ContextMenu':
      return { do: 'menu' };
    case 'Delete':
    case 'Backspace':
      return { do: 'clear' };
    case 'Escape':
      return { do: 'escape' };
    case ' ':
      return extend ? { do: 'select', what: 'rows' } : { do: 'edit', begin: '', list: false };
    default:
      return [...key].length === 1 || key === 'Dead' ? { do: 'edit', begin: '', list: false } : null;
  }
}

function withControl(key: string, shift: boolean): Command | null {
  switch (key.toLowerCase()) {
    case 'home':
      return { do: 'edge', to: 'first', extend: shift };
    case 'end':
      return { do: 'edge', to: 'last', extend: shift };
    case 'arrowup':
      return { do: 'move', rows: -Infinity, columns: 0, extend: shift };
    case 'arrowdown':
      return { do: 'move', rows: Infinity, columns: 0, extend: shift };
    case 'arrowleft':
      return { do: 'move', rows: 0, columns: -Infinity, extend: shift };
    case 'arrowright':
      return { do: 'move', rows: 0, columns: Infinity, extend: shift };
    case ' ':
      return { do: 'select', what: 'columns' };
    case 'a':
      return { do: 'select', what: 'all' };
    case 'd':
      return { do: 'fill-down' };
    case 'z':
      return { do: shift ? 'redo' : 'undo' };
    case 'y':
      return { do: 'redo' };
    default:
      return null;
  }
}
