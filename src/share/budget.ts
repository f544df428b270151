import type { Estimate, Urgency } from '../documents/estimate.js';
import type { Line } from '../documents/lines.js';
import { DECIMAL_PATTERN, decimal, type DecimalString } from '../number/decimal.js';
import { printMoney } from '../number/money.js';
import { Deferral } from '../pricing/deferral.js';
import { type Documents, prepare } from '../pricing/documents.js';
import { Pricer } from '../pricing/pricer.js';
import { leastModel, units } from './budget-model.js';
import { BudgetSearch } from './budget-search.js';
import { ShareFault } from './fault.js';

/** What fits under a ceiling. Ids are in the order of the sheet. */
export interface BudgetFit {
  readonly chosen: readonly string[];
  /** What these come to together, tax included. */
  readonly total: DecimalString;
  /** All other lines that have a price. */
  readonly left: readonly string[];
  /** Those of them that are for something unsafe. */
  readonly unsafeLeft: readonly string[];
  /** False where the lines that had to be kept are above the ceiling by themselves. */
  readonly fits: boolean;
  /** Whether no better set exists. Only false for sheets with very many lines that hardly differ, where the search was stopped. */
  readonly proven: boolean;
}

export interface BudgetOptions {
  /** Lines that are chosen whatever they cost; without it, the approved ones. */
  readonly keep?: Iterable<string>;
  /** Lines that may be chosen; without it, all but those that were declined or deferred. */
  readonly among?: Iterable<string>;
  /** How long to search: sets that may be looked at. */
  readonly patience?: number;
}

const URGENCIES: readonly Urgency[] = ['unsafe', 'now', 'soon', 'watch'];

/** Enough for most sheets of 40 lines, about a second. */
const PATIENCE = 60_000;

/**
 * The lines to choose when no more than `ceiling` can be spent: the most lines for what is unsafe, then the most for what
 * is to be done now, soon, and what is to be watched; of equal sets the one with the lowest total. A line is as urgent as the
 * most urgent of its findings, and "soon" without one. What a set comes to is what the engine makes of it, with
 * shared steps, discounts and taxes.
 *
 * @throws ShareFault where the documents cannot be read, or the ceiling is no decimal string
 */
export function fitToBudget(documents: Documents, ceiling: DecimalString, options: BudgetOptions = {}): BudgetFit {
  const { search, result } = begin(documents, ceiling, options);
  search.goOn();
  return result();
}

/** So many sets take a few milliseconds. */
const LOOKS_IN_A_TURN = 100;

/**
 * The same in short turns, for a page that goes on answering its reader.
 *
 * @param turn is waited for after each turn; when it throws, the search is given up and so does this
 * @throws ShareFault as `fitToBudget`
 */
export async function fitToBudgetInTurns(
  documents: Documents,
  ceiling: DecimalString,
  options: BudgetOptions,
  turn: () => Promise<void>,
): Promise<BudgetFit> {
  const { search, result } = begin(documents, ceiling, options);
  while (!search.goOn(LOOKS_IN_A_TURN)) await turn();
  return result();
}

function begin(documents: Documents, ceiling: DecimalString, options: BudgetOptions): { search: BudgetSearch; result: () => BudgetFit } {
  if (typeof ceiling !== 'string' || !DECIMAL_PATTERN.test(ceiling)) {
    throw new ShareFault('ceiling', `The most that may be spent is no amount: ${String(ceiling)}. Write it like "500.00".`);
  }
  const read = prepare(documents);
  if (!read.ok) throw new ShareFault('documents', 'The estimate cannot be read, so nothing can be chosen from it.');
  const { estimate, index, rates } = read.prepared;
  const pricer = new Pricer(index, rates);
  const priceable = new Deferral(estimate, pricer.price(estimate), index, rates).lines;
  const lines = new Map(estimate.lines.map((line) => [line.id, line]));

  const has = (given: Iterable<string> | undefined, usual: (line: Line) => boolean): ((id: string) => boolean) => {
    const named = given === undefined ? null : new Set(given);
    return (id) => (named === null ? usual(lines.get(id)!) : named.has(id));
  };
  const isKept = has(options.keep, (line) => line.decision === 'approved');
  const isOpen = has(options.among, (line) => line.decision === 'approved' || line.decision === 'proposed');
  const ids = priceable.filter((id) => isKept(id) || isOpen(id));

  const urgency = urgencies(estimate);
  const idsOf = (places: readonly number[]): Set<string> => new Set(places.map((i) => ids[i]!));
  const model = leastModel(estimate, ids, index, rates);
  const search = new BudgetSearch({
    model,
    ranks: ids.map((id) => URGENCIES.indexOf(urgency(lines.get(id)!))),
    levels: URGENCIES.length,
    kept: ids.flatMap((id, i) => (isKept(id) ? [i] : [])),
    twins: model.even
      ? twins(
          ids.map((id) => lines.get(id)!),
          isKept,
          estimate,
          urgency,
        )
      : ids.map(() => null),
    ceiling: units(decimal(ceiling)),
    judge: (places) => units(pricer.total(estimate, idsOf(places))),
    patience: options.patience ?? PATIENCE,
  });

  const result = (): BudgetFit => {
    const { best, proven } = search;
    const chosen = best === null ? new Set(ids.filter(isKept)) : idsOf(best.chosen);
    const total = pricer.total(estimate, chosen);
    const left = priceable.filter((id) => !chosen.has(id));
    return {
      chosen: priceable.filter((id) => chosen.has(id)),
      total: printMoney(total, rates.money),
      left,
      unsafeLeft: left.filter((id) => urgency(lines.get(id)!) === 'unsafe'),
      fits: total.lte(ceiling),
      proven,
    };
  };
  return { search, result };
}

function urgencies({ findings }: Estimate): (line: Line) => Urgency {
  const byFinding = new Map(findings.map((finding) => [finding.id, finding.urgency]));
  return (line) => {
    const of = line.kind === 'operation' ? line.findings.flatMap((id) => byFinding.get(id) ?? []) : [];
    return URGENCIES.find((urgency) => of.includes(urgency)) ?? 'soon';
  };
}

/** For each line the one before it that is the same in all that a price or an urgency hangs on: one of two such lines is as good as the other. */
function twins(
  lines: readonly Line[],
  isKept: (id: string) => boolean,
  { discounts }: Estimate,
  urgency: (line: Line) => Urgency,
): (number | null)[] {
  const last = new Map<string, number>();
  return lines.map((line, i) => {
    if (isKept(line.id)) return null;
    const named = discounts.map((discount) => discount.lines.includes(line.id));
    const { id: _id, decision: _decision, note: _note, ...rest } = line;
    const same = JSON.stringify({ ...rest, title: '', number: '', findings: [], named, urgency: urgency(line) });
    const before = last.get(same) ?? null;
    last.set(same, i);
    return before;
  });
}
