import { ONE_UNITS, type LeastModel } from './budget-model.js';

/** How many lines of each urgency, the most urgent first. */
export type Counts = readonly number[];

export interface Found {
  readonly chosen: readonly number[];
  readonly counts: Counts;
  /** In units of the model. */
  readonly total: bigint;
}

export interface SearchTask {
  readonly model: LeastModel;
  /** By place of the line: how urgent it is; 0 is the most urgent. */
  readonly ranks: readonly number[];
  readonly levels: number;
  /** Places of lines that are chosen whatever they cost. */
  readonly kept: readonly number[];
  /** By place: the line before it that says the same, if any. */
  readonly twins: readonly (number | null)[];
  readonly ceiling: bigint;
  /** What a set comes to, by the engine. */
  judge(chosen: readonly number[]): bigint;
  /** How often a set may be looked at before the search gives up proving. */
  readonly patience: number;
}

type State = 'in' | 'out' | 'open';

/**
 * Branch and bound: the most lines of the first urgency, of these sets the most of the second, and so on; of equal ones
 * the lowest total. A branch is left when even the bound from below shows that nothing better is in it.
 *
 * It can be done piece by piece, so that a page can answer its reader in between.
 */
export class BudgetSearch {
  /** The best set so far. */
  best: Found | null = null;
  /** Whether no better set exists; known when the search has come to its end. */
  proven = false;
  private readonly state: State[];
  private readonly order: readonly number[];
  /** By depth: what is tried next with the line there. */
  private readonly next: ('in' | 'out' | 'back')[] = [];
  private depth = 0;
  private isEntering = true;
  private looks = 0;

  constructor(private readonly task: SearchTask) {
    const { model, ranks, kept } = task;
    this.state = model.choices.map(() => 'open');
    for (const i of kept) this.state[i] = 'in';
    const cost = this.weights().weight;
    // Within one urgency the cheap ones first: taking them is mostly right, so a good set is found early.
    const byUrgency = (a: number, b: number): number =>
      ranks[a]! - ranks[b]! || (cost[a]! < cost[b]! ? -1 : cost[a]! > cost[b]! ? 1 : a - b);
    this.order = model.choices
      .map((_, i) => i)
      .filter((i) => this.state[i] === 'open')
      .sort(byUrgency);
  }

  /** Goes on for so many looks, or to the end. @returns whether it has come to the end */
  goOn(looks = Infinity): boolean {
    const until = this.looks + looks;
    while (this.depth >= 0) {
      if (this.looks > this.task.patience) return true;
      if (this.looks > until) return false;
      this.step();
    }
    this.proven = true;
    return true;
  }

  private step(): void {
    if (this.isEntering) this.enter();
    else this.branch(this.order[this.depth]!);
  }

  private enter(): void {
    this.isEntering = false;
    this.looks += 1;
    const isLast = this.depth === this.order.length;
    if (!this.mayBeBetter()) this.depth -= 1;
    else if (isLast) {
      this.look();
      this.depth -= 1;
    } else this.next[this.depth] = 'in';
  }

  private branch(line: number): void {
    const next = this.next[this.depth]!;
    if (next === 'back') {
      this.state[line] = 'open';
      this.depth -= 1;
      return;
    }
    this.next[this.depth] = next === 'in' ? 'out' : 'back';
    const twin = this.task.twins[line]!;
    if (next === 'in' && twin !== null && this.state[twin] !== 'in') return;
    this.state[line] = next;
    this.depth += 1;
    this.isEntering = true;
  }

  /** A set with nothing open: the engine says what it comes to. */
  private look(): void {
    const chosen = this.places('in');
    const total = this.task.judge(chosen);
    this.looks += 20;
    if (total > this.task.ceiling) return;
    const counts = this.count(chosen);
    const order = this.best === null ? 1 : compare(counts, this.best.counts);
    if (order > 0 || (order === 0 && total < this.best!.total)) this.best = { chosen, counts, total };
  }

  private places(state: State): number[] {
    const places: number[] = [];
    this.state.forEach((each, i) => {
      if (each === state) places.push(i);
    });
    return places;
  }

  private count(chosen: readonly number[]): number[] {
    const counts = Array.from({ length: this.task.levels }, () => 0);
    for (const i of chosen) counts[this.task.ranks[i]!]! += 1;
    return counts;
  }

  /** Whether, by the bound, some choice of the open lines fits and beats the best so far. */
  private mayBeBetter(): boolean {
    const { ranks, levels, ceiling } = this.task;
    const { weight, taken } = this.weights();
    const open = this.places('open');
    let total = taken;
    // A credit pays for others, so all of them are counted in.
    for (const i of open) if (weight[i]! < 0n) total += weight[i]!;
    if (total > ceiling) return false;

    const counts = this.count(this.places('in'));
    for (let level = 0; level < levels; level += 1) {
      const costs = open.filter((i) => ranks[i] === level).map((i) => (weight[i]! < 0n ? 0n : weight[i]!));
      for (const cost of costs.sort((a, b) => (a < b ? -1 : 1))) {
        if (total + cost > ceiling) break;
        total += cost;
        counts[level]! += 1;
      }
    }
    if (this.best === null) return true;
    const order = compare(counts, this.best.counts);
    return order > 0 || (order === 0 && total < this.best.total);
  }

  /** What the lines that are in come to at least, and what each open one adds at least. */
  private weights(): { taken: bigint; weight: bigint[] } {
    const { choices, shared, offset, supplies, suppliesSlope, suppliesSlack } = this.task.model;
    const included = choices.map(({ outer }) => outer.some((j) => this.state[j] !== 'out'));
    const needs = choices.map((choice, i) => (included[i] ? choice.always : choice.needs));
    const paid = shared.map(() => false);
    const users = shared.map(() => 0n);
    this.state.forEach((state, i) => {
      if (state === 'out') return;
      for (const k of needs[i]!) {
        if (state === 'in') paid[k] = true;
        else users[k]! += 1n;
      }
    });

    let taken = 0n;
    let base = 0n;
    let openBase = 0n;
    let openCredits = 0n;
    const weight = choices.map(() => 0n);
    const bases = choices.map(() => 0n);
    choices.forEach((choice, i) => {
      if (this.state[i] === 'out') return;
      const own = included[i] ? choice.included : choice.alone;
      if (this.state[i] === 'in') {
        taken += own.total;
        base += own.base;
        return;
      }
      let { total: added, base: addedBase } = own;
      // Whoever of the open lines is chosen, together they pay a shared thing at least once.
      for (const k of needs[i]!) {
        if (paid[k]) continue;
        added += shared[k]!.total / users[k]!;
        addedBase += shared[k]!.base / users[k]!;
      }
      weight[i] = added;
      bases[i] = addedBase;
      openBase += addedBase;
      if (addedBase < 0n) openCredits += addedBase;
    });
    paid.forEach((is, k) => {
      if (!is) return;
      taken += shared[k]!.total;
      base += shared[k]!.base;
    });

    // Supplies stop rising at their maximum. Either what the lines that are in ask for counts, or a share of every line.
    const bySlope = (amount: bigint): bigint => (amount * suppliesSlope) / ONE_UNITS;
    // A credit that is still open could make them less.
    const now = supplies(base + openCredits);
    if (now >= bySlope(base + openBase) - suppliesSlack) return { taken: taken + now + offset, weight };
    return {
      taken: taken + bySlope(base) - suppliesSlack + offset,
      weight: weight.map((each, i) => each + bySlope(bases[i]!)),
    };
  }
}

/** Above zero where `a` is the better one. */
function compare(a: Counts, b: Counts): number {
  const level = a.findIndex((count, i) => count !== b[i]);
  return level < 0 ? 0 : a[level]! - b[level]!;
}
