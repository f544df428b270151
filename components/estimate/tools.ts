import { html, nothing, type TemplateResult } from 'lit';
import type { SheetSelection } from '../grid/index.js';
import { printPage } from '../look/on-paper.js';
import type { Paper } from './work-desk.js';

export interface ToolActions {
  undo(): void;
  redo(): void;
  propose(): void;
  /** Opens one of the workshop's papers. */
  show(paper: Paper): void;
  /** Shows the list of estimates. */
  estimates(): void;
  open(event: Event): void;
  save(): void;
}

/**
 * The row of buttons above the sheet. `labels` say what undo and redo would do; `open` counts findings without a line;
 * `kept` says how it stands with the saving, null where nothing is kept.
 */
export function sheetTools(
  labels: { undo: string | null; redo: string | null },
  open: number,
  kept: string | null,
  actions: ToolActions,
): TemplateResult {
  const title = (what: string, label: string | null, keys: string): string => (label === null ? '' : `${what} ${label} (${keys})`);
  return html`<div class="tools" part="tools" role="toolbar" aria-label="Estimate">
    <button ?disabled=${labels.undo === null} title=${title('Undo', labels.undo, 'Ctrl+Z')} @click=${actions.undo}>Undo</button>
    <button ?disabled=${labels.redo === null} title=${title('Redo', labels.redo, 'Ctrl+Y')} @click=${actions.redo}>Redo</button>
    ${open === 0 ? nothing : html`<button class="main" @click=${actions.propose}>Propose lines for ${open} ${open === 1 ? 'finding' : 'findings'}</button>`}
    <span class="grow quiet saving" part="saving">${kept ?? nothing}</span>
    <button @click=${() => actions.show('parts-run')}>Parts run</button>
    <button @click=${() => actions.show('work-sheet')}>Work sheet</button>
    <button @click=${() => actions.show('write-up')}>Write-up</button>
    ${kept === null ? nothing : html`<button @click=${actions.estimates}>Estimates …</button>`}
    <label class="button">Open … <input class="unseen" type="file" accept=".json,application/json" @change=${actions.open} /></label>
    <button title=${kept === null ? '' : 'As a file'} @click=${actions.save}>Save</button>
    <button @click=${printPage}>Print</button>
  </div>`;
}

export interface RowToolActions {
  add(): void;
  act(action: string): void;
}

/** The buttons of one grid: a new row, and what can be done with the selected ones. `one` is what a row is called. */
export function rowTools(one: string, selection: SheetSelection | null, actions: RowToolActions): TemplateResult {
  const none = selection === null || selection.rows.every((row) => row.endsWith('+'));
  const button = (id: string, title: string): TemplateResult =>
    html`<button ?disabled=${none} aria-label="${title} the selected ${one}" @mousedown=${keepFocus} @click=${() => actions.act(id)}>${title}</button>`;
  return html`<button @click=${actions.add}>Add ${one}</button>
    ${button('up', 'Move up')} ${button('down', 'Move down')} ${button('remove', 'Remove')}`;
}

/** A press on a button must not take the selection from the grid that the button works on. */
function keepFocus(event: Event): void {
  event.preventDefault();
}
