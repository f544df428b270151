import type { Catalogue } from '../documents/catalogue.js';
import { parseEstimate } from '../documents/estimate.js';
import { hasErrors, type Problem } from '../documents/problem.js';
import type { Rates } from '../documents/rates.js';
import { decimal, type DecimalString, printPlain, ZERO } from '../number/decimal.js';
import { reckon, type Reckoning } from '../pricing/reckon.js';
import type { ClockedHours } from './clocked-hours.js';
import { indexSides } from './sides.js';
import { type Estimates, forEachEstimate, type StreamOptions } from './stream.js';

/** What one estimate charges for one operation, all its lines together, in hours. */
export interface ChargedJob {
  readonly book: DecimalString;
  readonly charged: DecimalString;
  /** Whether the book hours are just those of the catalogue: one line, one unit, nothing added or typed over. */
  readonly plain: boolean;
}

/** What estimates charge for the operations that a table names; plain data, which may be sent to and from a worker. */
export interface ChargedJobs {
  /** Those of the table's estimates that were found, under the name that the table gives them. */
  readonly estimates: ReadonlySet<string>;
  /** By `jobKey`. */
  readonly jobs: ReadonlyMap<string, ChargedJob>;
}

export function jobKey(estimate: string, operation: string): string {
  return `${estimate} ${operation}`;
}

/**
 * Looks up, in one go through past estimates, what those charge that a table of clocked hours names. Only what is asked
 * for is kept.
 */
export async function chargedJobs(
  rows: readonly ClockedHours[],
  estimates: Estimates,
  catalogue: Catalogue,
  rates: Rates,
  options: StreamOptions = {},
): Promise<{ readonly ok: true; readonly charged: ChargedJobs } | { readonly ok: false; readonly problems: readonly Problem[] }> {
  const read = indexSides(catalogue, rates, rates);
  if (!read.ok) return read;
  const { index, rates: indexed } = read.sides.before;
  const wanted = new Set(rows.flatMap(({ estimate }) => (estimate === null ? [] : [estimate])));
  const found = new Set<string>();
  const jobs = new Map<string, ChargedJob>();
  await forEachEstimate(
    estimates,
    (json) => {
      const parsed = parseEstimate(json);
      if (!parsed.ok) return;
      const names = [parsed.value.id, parsed.value.number].filter((name) => wanted.has(name));
      if (names.length === 0) return;
      const { lines, problems } = reckon(parsed.value, index, indexed);
      if (hasErrors(problems)) return;
      const own = byOperation(lines);
      for (const name of names) {
        found.add(name);
        for (const [operation, job] of own) jobs.set(jobKey(name, operation), job);
      }
    },
    options,
  );
  return { ok: true, charged: { estimates: found, jobs } };
}

function byOperation(lines: Reckoning['lines']): Map<string, ChargedJob> {
  const jobs = new Map<string, ChargedJob>();
  for (const { draft, share } of lines) {
    if (draft.work === null || share === null) continue;
    const { operation, units, positions } = draft.work;
    const known = jobs.get(operation.id);
    const alone = known === undefined && units === 1 && positions.length <= 1;
    jobs.set(operation.id, {
      book: printPlain(draft.bookHours.plus(known?.book ?? ZERO)),
      charged: printPlain(share.chargedHours.plus(known?.charged ?? ZERO)),
      plain: alone && draft.bookHours.eq(decimal(operation.bookHours)),
    });
  }
  return jobs;
}
