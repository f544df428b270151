import { idFromWords } from '../../src/exchange/slug.js';
import { isReason } from '../../src/exchange/reason.js';
import {
  type CatalogueCommand,
  type CatalogueList,
  type CatalogueRow,
  type CatalogueState,
  freshKey,
  reduceCatalogue,
} from '../../src/store/catalogue-draft.js';
import { cellKey, type PendingEntry, rowOf } from '../../src/store/commands.js';
import type { SheetEdit } from '../grid/sheet.js';
import type { CatalogueColumn } from './catalogue-cells.js';
import { CatalogueIndex } from './catalogue-index.js';
import { CATALOGUE_COLUMNS, LIST_TITLES } from './catalogue-lists.js';
import type { CatalogueView } from './catalogue-view.js';

/** What the edits of one gesture come to. */
export interface CatalogueGesture {
  readonly commands: readonly CatalogueCommand[];
  /** Reasons why entries could not be used. */
  readonly refused: readonly string[];
  /** Ids that were changed, from and to. */
  readonly renamed: readonly (readonly [string, string])[];
}

/** The row at the end of a list that waits for the next entry. */
export function spareRow(list: CatalogueList): string {
  return `${list}:+`;
}

/**
 * Carries out the edits of one gesture, row by row. Entries in a row that does not exist yet make one: its id comes from
 * its words where none is typed. An entry that cannot be used is kept in its cell with the reason.
 */
export function editCatalogue(list: CatalogueList, edits: readonly SheetEdit[], view: CatalogueView): CatalogueGesture {
  const work = new Work(list, view);
  for (const group of byRow(list, edits)) work.row(group);
  return work.done();
}

interface RowEdits {
  /** Null: a new row. */
  readonly key: string | null;
  readonly edits: readonly SheetEdit[];
}

function byRow(list: CatalogueList, edits: readonly SheetEdit[]): RowEdits[] {
  const groups = new Map<string, { key: string | null; edits: SheetEdit[] }>();
  for (const edit of edits) {
    const isNew = edit.row === null || edit.row === spareRow(list);
    const name = isNew ? `+${edit.row === null ? edit.extra : ''}` : edit.row;
    const group = groups.get(name) ?? { key: isNew ? null : name.slice(list.length + 1), edits: [] };
    group.edits.push(edit);
    groups.set(name, group);
  }
  return [...groups.values()];
}

/** Gathers what rows become, so that a block of thousands is a few commands; only another id is carried out at once. */
class Work {
  private readonly commands: CatalogueCommand[] = [];
  private readonly refused: string[] = [];
  private readonly renamed: [string, string][] = [];
  private readonly columns: ReadonlyMap<string, CatalogueColumn<never>>;
  private state: CatalogueState;
  private rows = new Map<string, CatalogueRow>();
  private readonly changed = new Map<string, CatalogueRow>();
  private readonly added: CatalogueRow[] = [];
  private readonly pending = new Map<string, PendingEntry | null>();
  private ids: Set<string>;

  constructor(
    private readonly list: CatalogueList,
    private view: CatalogueView,
  ) {
    this.state = view.state;
    this.columns = new Map((CATALOGUE_COLUMNS[list] as readonly CatalogueColumn<never>[]).map((column) => [column.id, column]));
    this.ids = this.takeStock();
  }

  row({ key, edits }: RowEdits): void {
    if (key === null && edits.every(({ text }) => text.trim() === '')) return;
    let row = key === null ? this.newRow(edits) : (this.changed.get(key) ?? this.rows.get(key));
    if (row === undefined) return;
    const before = row;
    // The words first: an id that cannot be used must not keep them out.
    for (const edit of edits) {
      const column = this.columns.get(edit.column);
      if (column?.enter === undefined || (key === null && edit.text.trim() === '')) continue;
      const cell = cellKey(rowOf(this.list as never, row.key), column.id);
      const outcome = this.taken(column, edit.text, row) ?? column.enter(edit.text, row as never, this.view);
      if (isReason(outcome)) {
        this.refused.push(outcome.reason);
        this.pending.set(cell, { text: edit.text, reason: outcome.reason });
        continue;
      }
      if (this.state.pending.has(cell)) this.pending.set(cell, null);
      row = withChanges(row, outcome);
    }
    if (key === null) {
      this.added.push(row);
      if ('id' in row) this.ids.add(row.id);
    } else if (!same(row, before)) {
      if ('id' in row && 'id' in before && row.id !== before.id) this.rename(before, row);
      else this.changed.set(key, row);
    }
  }

  done(): CatalogueGesture {
    this.flush();
    if (this.added.length > 0) this.commands.push({ do: 'insert', list: this.list, entries: this.added } as CatalogueCommand);
    if (this.pending.size > 0) this.commands.push({ do: 'pend', cells: this.pending });
    return { commands: this.commands, refused: this.refused, renamed: this.renamed };
  }

  /** Ids that this very gesture has given away are not free either. */
  private taken(column: CatalogueColumn<never>, text: string, row: CatalogueRow): { readonly reason: string } | null {
    const id = text.trim();
    if (column.id !== 'id' || ('id' in row && row.id === id) || !this.ids.has(id)) return null;
    return { reason: `Another ${LIST_TITLES[this.list].one} has the id "${id}" already. Choose one that is free.` };
  }

  /** Other rows name it by its id: they get the new one before anything else is read. */
  private rename(before: CatalogueRow & { id: string }, row: CatalogueRow & { id: string }): void {
    this.changed.set(row.key, row);
    this.flush();
    this.renamed.push([before.id, row.id]);
    this.view = { ...this.view, state: this.state, index: new CatalogueIndex(this.state.draft, this.view.index.rates) };
    this.ids = this.takeStock();
  }

  private flush(): void {
    if (this.changed.size === 0) return;
    const command = { do: 'put', list: this.list, entries: [...this.changed.values()] } as CatalogueCommand;
    this.commands.push(command);
    this.state = reduceCatalogue(this.state, command);
    this.changed.clear();
    this.takeStock();
  }

  private takeStock(): Set<string> {
    const rows = this.state.draft[this.list] as readonly CatalogueRow[];
    this.rows = new Map(rows.map((row) => [row.key, row]));
    return new Set([...rows, ...this.added].flatMap((row) => ('id' in row ? [row.id] : [])));
  }

  /** A row with its words and its id; the other entries come after it. */
  private newRow(edits: readonly SheetEdit[]): CatalogueRow {
    const typed = (column: string): string => edits.find((edit) => edit.column === column)?.text.trim() ?? '';
    const { list } = this;
    const key = freshKey();
    if (list === 'remedies') return { key, component: '', fault: '', operations: [], instead: [] };
    if (list === 'overlaps') return { key, between: ['', ''], hours: '0' };
    const words = typed(list === 'cautions' ? 'text' : 'title') || typed('id') || `New ${LIST_TITLES[list].one}`;
    const id = idFromWords(words, this.ids);
    const common = { key, id, title: words };
    switch (list) {
      case 'operations':
        return {
          ...common,
          system: '',
          labourClass: this.usualClass(),
          per: 'vehicle',
          bookHours: '0',
          additionalHours: '0',
          steps: [],
          includes: [],
          parts: [],
          fees: [],
          cautions: [],
          basis: '',
        };
      case 'steps':
        return { ...common, hours: '0', per: 'vehicle', needs: [], parts: [], cautions: [] };
      case 'parts':
        return { ...common, number: '', cost: '0', list: null, core: '0', condition: 'new' };
      case 'components':
        return { ...common, positions: [] };
      case 'cautions':
        return { key, id, text: words };
      case 'methods':
        return {
          ...common,
          unit: '',
          start: null,
          minutes: null,
          drop: null,
          least: null,
          most: null,
          cautions: [],
          closing: null,
          basis: '',
        };
    }
  }

  private usualClass(): string {
    const { draft } = this.state;
    return this.view.index.rates?.labourClasses[0]?.id ?? draft.operations.at(-1)?.labourClass ?? 'general';
  }
}

/** What is undefined in the changes is left out of the entry. */
function withChanges(row: CatalogueRow, changes: object): CatalogueRow {
  const after = { ...row, ...changes } as Record<string, unknown>;
  for (const [field, value] of Object.entries(changes)) if (value === undefined) delete after[field];
  return after as unknown as CatalogueRow;
}

function same(a: CatalogueRow, b: CatalogueRow): boolean {
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}
