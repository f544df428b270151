import { type Estimate, parseEstimate } from '../../src/documents/estimate.js';
import { error, type Parsed } from '../../src/documents/problem.js';
import type { PendingEntry, SheetState } from '../../src/store/commands.js';

/** A text that stands in an open field: not part of the estimate yet, and not to be lost either. */
export interface Typed {
  /** Where the field is; what `keeping-typed.ts` finds it by. */
  readonly place: readonly string[];
  /** What the field is called, in words. */
  readonly label: string;
  readonly text: string;
}

/** All that is kept of a sheet: the estimate, entries that cannot be used, and what was being typed. */
export interface KeptSheet {
  readonly estimate: Estimate;
  readonly pending: ReadonlyMap<string, PendingEntry>;
  readonly typed: readonly Typed[];
}

/** The key in `extra` under which a kept estimate holds what is not finished; there only while something is not. */
const UNFINISHED = 'baysheet-unfinished';

/** A sheet as it is kept: its estimate as JSON, a document like any other. */
export function keptText({ estimate, pending }: SheetState, typed: readonly Typed[]): string {
  const { [UNFINISHED]: _, ...extra } = estimate.extra;
  if (pending.size === 0 && typed.length === 0) return JSON.stringify({ ...estimate, extra });
  const cells = [...pending].map(([key, { text, reason }]) => ({ key, text, reason }));
  return JSON.stringify({ ...estimate, extra: { ...extra, [UNFINISHED]: { cells, typed } } });
}

/** Reads a kept sheet. What is wrong with the unfinished part never keeps the estimate from being read. */
export function readKept(text: string): Parsed<KeptSheet> {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return {
      ok: false,
      problems: [
        error('not-json', '', 'What is kept is no whole JSON text.', 'Save what is left of it as a file; a backup may hold it whole.'),
      ],
    };
  }
  const version = (json as { version?: unknown } | null)?.version;
  if (typeof version === 'number' && version > 1) {
    return {
      ok: false,
      problems: [
        error(
          'newer',
          'version',
          `It was written by a newer version of this page (format ${version}).`,
          'Reload the page; until then nothing is changed in it.',
        ),
      ],
    };
  }
  const parsed = parseEstimate(json);
  if (!parsed.ok) return parsed;
  const { [UNFINISHED]: unfinished, ...extra } = parsed.value.extra;
  return { ...parsed, value: { estimate: { ...parsed.value, extra }, ...readUnfinished(unfinished) } };
}

function readUnfinished(json: unknown): Pick<KeptSheet, 'pending' | 'typed'> {
  const { cells, typed } = (typeof json === 'object' && json !== null ? json : {}) as { cells?: unknown; typed?: unknown };
  return {
    pending: new Map(
      entries(cells).flatMap(({ key, text, reason }) => (isText(key) && isText(text) && isText(reason) ? [[key, { text, reason }]] : [])),
    ),
    typed: entries(typed).flatMap(({ place, label, text }) =>
      Array.isArray(place) && place.every(isText) && isText(label) && isText(text) ? [{ place, label, text }] : [],
    ),
  };
}

function entries(json: unknown): Record<string, unknown>[] {
  return Array.isArray(json) ? json.filter((entry): entry is Record<string, unknown> => typeof entry === 'object' && entry !== null) : [];
}

function isText(value: unknown): value is string {
  return typeof value === 'string';
}
