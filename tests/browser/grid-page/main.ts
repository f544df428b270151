import { css } from 'lit';
import { createSheet, sheetStyles } from '../../../components/grid/index.js';
import type { Sheet, SheetColumn, SheetEdit, SheetEvents, SheetRow, SheetSelection } from '../../../components/grid/index.js';
import { tokens } from '../../../components/look/tokens.js';
import { columns, manyRows, smallRows, spareRow, works } from './data.js';

/** A small owner of one sheet: keeps rows, undoes, and writes down what it was told. */
class Owner {
  rows: readonly SheetRow[];
  columns: readonly SheetColumn[] = columns;
  readonly log: { what: string; detail: unknown }[] = [];
  selection: SheetSelection | null = null;
  /** Answers edits at once, or after a microtask as an element that renders would. */
  late = false;
  private readonly past: (readonly SheetRow[])[] = [];
  private readonly future: (readonly SheetRow[])[] = [];
  private made = 0;
  sheet: Sheet;

  constructor(
    private readonly container: HTMLElement,
    private readonly popups: HTMLElement,
    private readonly label: string,
    rows: readonly SheetRow[],
  ) {
    this.rows = rows;
    this.sheet = this.create();
  }

  create(): Sheet {
    return createSheet({
      container: this.container,
      popups: this.popups,
      label: this.label,
      columns: this.columns,
      rows: this.rows,
      maxVisibleRows: 12,
      events: this.events(),
    });
  }

  show(rows: readonly SheetRow[]): void {
    this.rows = rows;
    if (this.late) void Promise.resolve().then(() => this.sheet.update(this.rows));
    else this.sheet.update(this.rows);
  }

  private events(): SheetEvents {
    const note = (what: string, detail: unknown): void => void this.log.push({ what, detail });
    return {
      edit: (edits, source) => {
        note(`edit:${source}`, edits);
        this.past.push(this.rows);
        this.show(this.apply(edits));
      },
      choices: (_row, column, typed) => {
        const all = column === 'position' ? [{ text: 'feed' }, { text: 'return' }] : works;
        const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
        return all.filter((choice) => {
          const held = `${choice.text} ${'hint' in choice ? choice.hint : ''}`.toLowerCase();
          return words.every((word) => held.includes(word));
        });
      },
      select: (selection) => {
        this.selection = selection;
        note('select', selection);
      },
      undo: () => {
        note('undo', null);
        const before = this.past.pop();
        if (!before) return;
        this.future.push(this.rows);
        this.show(before);
      },
      redo: () => {
        note('redo', null);
        const after = this.future.pop();
        if (!after) return;
        this.past.push(this.rows);
        this.show(after);
      },
      actions: () => [
        { id: 'add', title: 'Add a row below' },
        { id: 'remove', title: 'Remove the row', keys: 'Ctrl+Minus' },
        { id: 'up', title: 'Move up', disabled: true },
      ],
      act: (action, selection) => {
        note(`act:${action}`, selection);
        if (action === 'remove') this.show(this.rows.filter((row) => !selection.rows.includes(row.id)));
      },
      announce: (words) => note('announce', words),
    };
  }

  private apply(edits: readonly SheetEdit[]): SheetRow[] {
    const rows = [...this.rows];
    const fresh = new Map<number, number>();
    const set = (index: number, edit: SheetEdit): void => {
      const row = rows[index]!;
      const cell = row.cells[edit.column] ?? { text: '', editor: 'text' as const };
      const { edit: _old, ...rest } = cell;
      rows[index] = { ...row, cells: { ...row.cells, [edit.column]: { ...rest, text: edit.text } } };
    };
    const make = (at: number): void => {
      rows.splice(at, 0, { ...spareRow(), id: `n${(this.made += 1)}`, label: 'Made row', level: 'main' });
    };
    for (const edit of edits) {
      const spareAt = rows.findIndex((row) => row.level === 'spare');
      const key = edit.row === null ? edit.extra! : edit.row === 'spare' ? -1 : null;
      if (key === null) {
        set(
          rows.findIndex((row) => row.id === edit.row),
          edit,
        );
        continue;
      }
      if (!fresh.has(key)) {
        const at = spareAt < 0 ? rows.length : spareAt;
        make(at);
        fresh.set(key, at);
      }
      set(fresh.get(key)!, edit);
    }
    return rows;
  }
}

/** Two sheets and a field of its own in one shadow root. */
class SheetPage extends HTMLElement {
  first!: Owner;
  second!: Owner;

  connectedCallback(): void {
    if (this.shadowRoot) return;
    const root = this.attachShadow({ mode: 'open' });
    const own = css`
      :host {
        display: block;
      }
      .box {
        margin-block: 12px;
      }
    `;
    root.adoptedStyleSheets = [tokens, sheetStyles, own].map((style) => style.styleSheet!);
    const boxes = [1, 2].map(() => Object.assign(document.createElement('div'), { className: 'box' }));
    const popups = document.createElement('div');
    const label = document.createElement('label');
    label.append('Inside ', Object.assign(document.createElement('input'), { id: 'inside' }));
    root.append(boxes[0]!, label, boxes[1]!, popups);
    this.first = new Owner(boxes[0]!, popups, 'Lines', smallRows());
    this.second = new Owner(boxes[1]!, popups, 'Findings', smallRows());
  }
}

/** Puts a page into another shadow root. */
class OuterPage extends HTMLElement {
  connectedCallback(): void {
    if (this.shadowRoot) return;
    this.attachShadow({ mode: 'open' }).append(document.createElement('sheet-page'));
  }
}

const violations: string[] = [];
document.addEventListener('securitypolicyviolation', (event) => {
  violations.push(`${event.violatedDirective} ${event.blockedURI} ${event.sample} ${event.sourceFile}:${event.lineNumber}`);
});

Object.assign(window, { harness: { Owner, manyRows, smallRows, violations } });

customElements.define('sheet-page', SheetPage);
customElements.define('outer-page', OuterPage);
