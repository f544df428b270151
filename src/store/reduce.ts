import { revise } from '../consent/revision.js';
import type { Estimate } from '../documents/estimate.js';
import type { PartNote } from '../documents/parts-run.js';
import { type Command, type ListName, type PendingEntry, rowOf, type SheetState } from './commands.js';
import { insertInto, moveIn, putInto } from './lists.js';

interface Entry {
  readonly id: string;
}

const nameOf = (entry: Entry): string => entry.id;

/**
 * The state after one command. Pure, and sparing: what does not change stays the same object, which is how the pricer
 * and the grids know that they need not look at it.
 */
export function reduce(state: SheetState, command: Command): SheetState {
  const { estimate } = state;
  switch (command.do) {
    case 'insert':
      return withList(state, command.list, insertInto<Entry>(estimate[command.list], [command.entry], command.before, nameOf));
    case 'put':
      return withList(state, command.list, putInto<Entry>(estimate[command.list], command.entry, nameOf));
    case 'remove':
      return remove(state, command.list, new Set(command.ids));
    case 'move':
      return withList(state, command.list, moveIn<Entry>(estimate[command.list], command.ids, command.before, nameOf));
    case 'set-lines':
      return withList(state, 'lines', command.lines);
    case 'set-rounds':
      return setFields(state, { rounds: [...command.rounds] });
    case 'set-codes':
      return setCodes(state, command.codes);
    case 'set-parts-run':
      return setPartsRun(state, command.notes);
    case 'quote':
      return setFields(state, { quoted: command.quoted });
    case 'revise':
      return { ...state, estimate: revise(estimate, command.at) };
    case 'set-estimate':
      return { estimate: command.estimate, pending: new Map() };
    case 'set-job':
      return setFields(state, command.fields);
    case 'pend':
      return pend(state, command.key, command.entry);
  }
}

function withList(state: SheetState, list: ListName, entries: readonly Entry[]): SheetState {
  if (entries === (state.estimate[list] as readonly Entry[])) return state;
  return { ...state, estimate: { ...state.estimate, [list]: entries } };
}

function setFields(state: SheetState, fields: Partial<Estimate>): SheetState {
  const { estimate } = state;
  const changed = (Object.keys(fields) as (keyof Estimate)[]).some((key) => JSON.stringify(fields[key]) !== JSON.stringify(estimate[key]));
  return changed ? { ...state, estimate: { ...estimate, ...fields } } : state;
}

/** An estimate without codes has no such key, as before there were any. */
function setCodes(state: SheetState, codes: NonNullable<Estimate['codes']>): SheetState {
  if (codes.length > 0) return setFields(state, { codes });
  if (state.estimate.codes === undefined) return state;
  const { codes: _, ...estimate } = state.estimate;
  return { ...state, estimate };
}

/** Takes entries out, with everything that hangs on them: references from lines and discounts, pending entries of their rows. */
function remove(state: SheetState, list: ListName, ids: ReadonlySet<string>): SheetState {
  const kept = (state.estimate[list] as readonly Entry[]).filter((entry) => !ids.has(entry.id));
  if (kept.length === state.estimate[list].length) return state;
  const without = withList(state, list, kept);
  const { estimate } = without;
  const rows = new Set([...ids].map((id) => rowOf(list, id)));
  const pending = new Map([...state.pending].filter(([key]) => !rows.has(key.split(/[ /]/, 1)[0]!)));
  return {
    estimate: {
      ...estimate,
      lines: list === 'findings' ? estimate.lines.map((line) => forgetFindings(line, ids)) : estimate.lines,
      discounts: list === 'lines' ? estimate.discounts.map((discount) => forgetLines(discount, ids)) : estimate.discounts,
    },
    pending: pending.size === state.pending.size ? state.pending : pending,
  };
}

function forgetFindings(line: Estimate['lines'][number], ids: ReadonlySet<string>): Estimate['lines'][number] {
  if (line.kind !== 'operation' || !line.findings.some((id) => ids.has(id))) return line;
  return { ...line, findings: line.findings.filter((id) => !ids.has(id)) };
}

/** A discount on lines that are all gone would otherwise become one on every line, so it keeps its last reference. */
function forgetLines(discount: Estimate['discounts'][number], ids: ReadonlySet<string>): Estimate['discounts'][number] {
  const lines = discount.lines.filter((id) => !ids.has(id));
  return lines.length === 0 || lines.length === discount.lines.length ? discount : { ...discount, lines };
}

/** An estimate without notes has no list of them either. */
function setPartsRun(state: SheetState, notes: readonly PartNote[]): SheetState {
  const { partsRun, ...rest } = state.estimate;
  if (notes.length > 0) return { ...state, estimate: { ...rest, partsRun: [...notes] } };
  return partsRun === undefined ? state : { ...state, estimate: rest };
}

function pend(state: SheetState, key: string, entry: PendingEntry | null): SheetState {
  if (entry === null && !state.pending.has(key)) return state;
  const pending = new Map(state.pending);
  if (entry === null) pending.delete(key);
  else pending.set(key, entry);
  return { ...state, pending };
}
