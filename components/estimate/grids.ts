import type { Command } from '../../src/store/commands.js';
import type { EditSource, SheetEdit, SheetRow, SheetSelection } from '../grid/index.js';
import { toldEntry, toldRefused } from '../grid/words.js';
import { findingActions, lineActions, type RowAction } from './actions.js';
import { Gesture, type Reference, type SheetView } from './context.js';
import { findingChoices } from './finding-choices.js';
import { FINDING_COLUMNS, type FindingColumn } from './finding-columns.js';
import { editFindings } from './finding-edits.js';
import { findingRows } from './finding-rows.js';
import type { GridOptions } from './grid-controller.js';
import { KeptRows } from './kept-rows.js';
import { lineChoices } from './line-choices.js';
import { LINE_COLUMNS, type LineColumn, readRow } from './line-columns.js';
import { editLines } from './line-edits.js';
import { lineRows } from './line-rows.js';

/** What the grids ask of the element that they stand in. */
export interface Desk {
  /** Null while documents are missing. */
  view(): SheetView | null;
  /** Whether nothing may be changed now. */
  isReading(): boolean;
  commit(commands: readonly Command[], what: string): void;
  undo(): void;
  redo(): void;
  announce(text: string): void;
  /** The total, in words. */
  total(): string;
  /** Shows the evidence of a finding and takes the keyboard there. */
  showEvidence(finding: string): void;
}

type Edit = (edits: readonly SheetEdit[], gesture: Gesture, reference: Reference) => void;

const WHAT: Readonly<Record<EditSource, string>> = { type: 'entry', paste: 'paste', cut: 'cut', fill: 'fill', clear: 'clearing' };

/** The findings grid. */
export function findingsGrid(desk: Desk): GridOptions {
  const rows = lastKept(desk, findingRows);
  return {
    container: 'findings',
    popups: 'popups',
    label: 'Findings',
    columns: FINDING_COLUMNS,
    maxVisibleRows: 9,
    rows,
    events: {
      ...shared(desk, { rows, columns: FINDING_COLUMNS, edit: editFindings, actions: findingActions }),
      choices: (row, column, typed) =>
        withView(
          desk,
          (view) => {
            const finding = view.state.estimate.findings.find(({ id }) => row === `findings:${id}`) ?? null;
            return findingChoices(column as FindingColumn, typed, finding, view.state.estimate, view);
          },
          [],
        ),
    },
  };
}

/** The lines grid. */
export function linesGrid(desk: Desk): GridOptions {
  const kept = new KeptRows();
  const rows = lastKept(desk, (view) => {
    kept.begin(view);
    return lineRows(view, kept.of);
  });
  return {
    container: 'lines',
    popups: 'popups',
    label: 'Lines',
    columns: LINE_COLUMNS,
    maxVisibleRows: 20,
    rows,
    events: {
      ...shared(desk, { rows, columns: LINE_COLUMNS, edit: editLines, actions: lineActions }),
      choices: (row, column, typed) =>
        withView(desk, (view) => lineChoices(column as LineColumn, typed, readRow(row), view.state.estimate, view), []),
    },
  };
}

/** Rows are only made when there is another view to make them from. */
function lastKept(desk: Desk, make: (view: SheetView) => readonly SheetRow[]): () => readonly SheetRow[] | null {
  let last: { readonly view: SheetView; readonly reading: boolean; readonly rows: readonly SheetRow[] } | null = null;
  return () => {
    const view = desk.view();
    const reading = desk.isReading();
    if (view !== null && (view !== last?.view || reading !== last.reading))
      last = { view, reading, rows: reading ? make(view).map(shownOnly) : make(view) };
    return view === null ? null : last!.rows;
  };
}

/** The row with nothing in it that can be changed. */
function shownOnly(row: SheetRow): SheetRow {
  return {
    ...row,
    cells: Object.fromEntries(Object.entries(row.cells).map(([column, cell]) => [column, { ...cell, editor: 'none' as const }])),
  };
}

interface GridOf extends Pick<GridOptions, 'rows' | 'columns'> {
  readonly edit: Edit;
  actions(selection: SheetSelection, view: SheetView): RowAction[];
}

function shared(desk: Desk, grid: GridOf) {
  const { actions } = grid;
  return {
    edit: (edits: readonly SheetEdit[], source: EditSource): void =>
      withView(desk, (view) => carryOut(edits, source, grid, view, desk), undefined),
    actions: (selection: SheetSelection) => withView(desk, (view) => actions(selection, view), []),
    act: (id: string, selection: SheetSelection): void =>
      withView(
        desk,
        (view) => {
          const chosen = actions(selection, view).find((action) => action.id === id);
          if (chosen?.evidence !== undefined) desk.showEvidence(chosen.evidence);
          else if (chosen !== undefined) {
            desk.commit(chosen.commands, chosen.label);
            desk.announce(`Done: ${chosen.label}. ${desk.total()}`);
          }
        },
        undefined,
      ),
    undo: () => desk.undo(),
    redo: () => desk.redo(),
    announce: (text: string) => desk.announce(text),
  };
}

function carryOut(edits: readonly SheetEdit[], source: EditSource, { rows, columns, edit }: GridOf, view: SheetView, desk: Desk): void {
  const gesture = new Gesture(view.state);
  const before = rows() ?? [];
  edit(edits, gesture, view);
  desk.commit(gesture.commands, WHAT[source]);
  const { refused } = gesture;
  const [only, ...others] = edits;
  if (only !== undefined && others.length === 0)
    desk.announce(toldEntry(only, { before, after: rows() ?? [], columns, refused: refused[0] }));
  else if (refused.length > 0) desk.announce(toldRefused(refused));
  if (refused.length < edits.length) desk.announce(desk.total());
}

function withView<T>(desk: Desk, use: (view: SheetView) => T, otherwise: T): T {
  const view = desk.view();
  return view === null ? otherwise : use(view);
}
