import { type Decimal, sum, ZERO } from '../number/decimal.js';
import { type Carried, carrySteps, type SharedStep, stepKeys } from './carry.js';
import type { CatalogueIndex } from './catalogue-index.js';
import { deductAgain, type Deduction, linkedOperations } from './declared.js';
import { difference } from './difference.js';
import { inclusions } from './includes.js';
import { rankAgain } from './precedence.js';
import { sameItems, sameShare } from './same.js';
import type { StepAt, Work } from './work.js';

/** What one line is charged for, and why not for all its book hours. `charged = book − shared`, always. */
export interface Share {
  readonly work: Work;
  readonly chargedHours: Decimal;
  readonly sharedHours: Decimal;
  /** The work of the line that this one is part of, or null. */
  readonly includedIn: Work | null;
  readonly carries: readonly StepAt[];
  readonly uses: readonly { readonly step: StepAt; readonly carriedBy: string }[];
}

/** How the works of an estimate share their teardown. */
export interface Sharing {
  /** In the order of the sheet. */
  readonly works: readonly Work[];
  /** In order of precedence. */
  readonly ranked: readonly Work[];
  /** By operation, the work that includes it. */
  readonly included: ReadonlyMap<string, Work>;
  readonly carried: Carried;
  readonly deductions: readonly Deduction[];
  /** By line id. */
  readonly shares: ReadonlyMap<string, Share>;
  /** As their carriers are ranked. */
  readonly steps: readonly SharedStep[];
}

const NOTHING: Sharing = { works: [], ranked: [], included: new Map(), carried: new Map(), deductions: [], shares: new Map(), steps: [] };

/**
 * Rules 4 to 6 put together: includes, carried steps, declared overlaps → charged hours.
 *
 * Each rule is worked out again only where a changed work has a say, and a share that comes to the same stays the
 * same object; the first sharing is a change from nothing.
 *
 * @param works one for each priced operation line, in the order of the sheet
 * @param before how works were shared before; those that are the same objects count as unchanged
 */
export function shareWork(works: readonly Work[], index: CatalogueIndex, before: Sharing = NOTHING): Sharing {
  const change = difference(before.works, works);
  if (change.removed.length === 0 && change.added.length === 0) return before;
  const ranked = rankAgain(before.ranked, change, works);
  const included = inclusions(ranked, index);
  const reincluded = includedElsewhere(works, included, before.included);
  const changed = [...change.removed, ...change.added, ...reincluded];

  const charged = notIncluded(ranked, included);
  const keys = stepKeys(changed);
  const carried = carrySteps(notIncluded(works, included), keys, before.carried);
  const linked = linkedOperations(changed, charged, index);
  const deductions = deductAgain(before.deductions, linked, charged, index);

  const shares = new Map(before.shares);
  for (const work of change.removed) shares.delete(work.line);
  const deducted = new Map(deductions.map((deduction) => [deduction.child.line, deduction.hours]));
  const concerned = [
    ...change.added,
    ...reincluded,
    ...usersOf(keys, carried, before.carried, shares),
    ...charged.filter((work) => linked.has(work.operation.id)),
  ];
  for (const work of new Set(concerned)) {
    const outer = included.get(work.operation.id);
    const share = outer === undefined ? shareOf(work, carried, deducted.get(work.line) ?? ZERO) : includedShare(work, outer);
    const known = before.shares.get(work.line);
    shares.set(work.line, known !== undefined && sameShare(known, share) ? known : share);
  }
  const steps = inRank(ranked, shares, carried);
  return { works, ranked, included, carried, deductions, shares, steps: sameItems(steps, before.steps) ? before.steps : steps };
}

function notIncluded(works: readonly Work[], included: ReadonlyMap<string, Work>): readonly Work[] {
  return included.size === 0 ? works : works.filter((work) => !included.has(work.operation.id));
}

/** The works that have become part of another line, or of none. */
function includedElsewhere(works: readonly Work[], now: ReadonlyMap<string, Work>, before: ReadonlyMap<string, Work>): readonly Work[] {
  if (now.size === 0 && before.size === 0) return [];
  return works.filter(({ operation: { id } }) => now.get(id) !== before.get(id));
}

/** The works among those that have a share which need one of these steps, where another line than before carries it. */
function usersOf(keys: ReadonlySet<string>, carried: Carried, before: Carried, shares: Sharing['shares']): Work[] {
  if (carried === before) return [];
  return [...keys].flatMap((key) => {
    const now = carried.get(key);
    if (now === undefined || now.carriedBy === before.get(key)?.carriedBy) return [];
    return now.neededBy.flatMap((line) => shares.get(line)?.work ?? []);
  });
}

function shareOf(work: Work, carried: Carried, deducted: Decimal): Share {
  const uses = work.steps.map((step) => ({ step, carriedBy: carried.get(step.key)!.carriedBy }));
  const carries = uses.filter((use) => use.carriedBy === work.line).map((use) => use.step);
  const chargedHours = work.ownHours.plus(sum(carries.map((step) => step.indexed.hours))).minus(deducted);
  return { work, chargedHours, sharedHours: work.bookHours.minus(chargedHours), includedIn: null, carries, uses };
}

function includedShare(work: Work, outer: Work): Share {
  return { work, chargedHours: ZERO, sharedHours: work.bookHours, includedIn: outer, carries: [], uses: [] };
}

/** The teardown in the order of its carriers. */
function inRank(ranked: readonly Work[], shares: ReadonlyMap<string, Share>, carried: Carried): SharedStep[] {
  const steps: SharedStep[] = [];
  for (const work of ranked) for (const step of shares.get(work.line)!.carries) steps.push(carried.get(step.key)!);
  return steps;
}
