import { closure } from '../documents/closure.js';
import type { Estimate } from '../documents/estimate.js';
import type { ChargeKind } from '../documents/fields.js';
import type { OperationLine } from '../documents/lines.js';
import { type Decimal, decimal, max, min, ONE, sum, ZERO } from '../number/decimal.js';
import type { CatalogueIndex } from '../overlap/catalogue-index.js';
import type { StepAt, Work } from '../overlap/work.js';
import { type Draft, draftLine } from '../pricing/draft.js';
import { estimateFees, unitFees } from '../pricing/fees.js';
import { sellPrice } from '../pricing/markup.js';
import type { RateIndex } from '../pricing/rate-index.js';
import { LeastMoney, type Likely } from './budget-money.js';

/** What something adds to the total at least, and to what shop supplies are a percentage of. In `UNITS` of money. */
export interface Weight {
  readonly total: bigint;
  readonly base: bigint;
}

/** A line that may be chosen. */
export interface Choice {
  readonly id: string;
  /** When no line includes it. */
  readonly alone: Weight;
  /** When one may include it; never more than alone. */
  readonly included: Weight;
  /** Places of the lines that would include it. */
  readonly outer: readonly number[];
  /** Places in `shared`. */
  readonly needs: readonly number[];
  /** Places of shared things that it needs even when it is included. */
  readonly always: readonly number[];
}

/** The least that any set of lines can come to, as sums that need no pricing. */
export interface LeastModel {
  readonly choices: readonly Choice[];
  /** What is paid once for all the lines that need it: steps, and fees for the estimate. */
  readonly shared: readonly Weight[];
  readonly offset: bigint;
  /** Supplies on a base, at least. */
  readonly supplies: (base: bigint) => bigint;
  /** Supplies on any base that can come about are at least this share of it (in units of one), less `suppliesSlack`. */
  readonly suppliesSlope: bigint;
  readonly suppliesSlack: bigint;
  /** Whether lines that say the same can change places. */
  readonly even: boolean;
}

/** Bounds are whole numbers of the last digit that an amount can have, rounded down. */
const DIGITS = 10;
export const ONE_UNITS = 10n ** BigInt(DIGITS);
/** Far more than what whole-number divisions can lose on the way, far less than any money step in use. */
const DIVISIONS = 10_000n;

const TEN_TO_DIGITS = decimal('10').pow(DIGITS);

export function units(value: Decimal): bigint {
  return BigInt(value.times(TEN_TO_DIGITS).floor().toFixed(0));
}

/**
 * A bound from below for the total of every set of the lines, by the rules of the sum:
 * own hours less the longest declared overlap (rule 6 deducts at most one for each line), each step once at its cheapest carrier
 * (rule 4), nothing for the labour of a line that may be included (rule 5), every rounding against us.
 *
 * It is only ever used to leave out what cannot be the answer; what a set comes to is for the engine to say.
 */
export function leastModel(estimate: Estimate, ids: readonly string[], index: CatalogueIndex, rates: RateIndex): LeastModel {
  const lines = new Map(estimate.lines.map((line) => [line.id, draftLine(line, index, rates)] as const));
  const drafts = ids.map((id) => lines.get(id)!);
  return new Builder(drafts, new LeastMoney(rates, estimate.customer.taxExempt, estimate.discounts), index, rates).model();
}

function lesser(weights: readonly Weight[]): Weight {
  const least = (key: keyof Weight): bigint => weights.map((weight) => weight[key]).reduce((a, b) => (a < b ? a : b));
  return { total: least('total'), base: least('base') };
}

class Builder {
  private readonly works: readonly (Work | null)[];

  constructor(
    private readonly drafts: readonly Draft[],
    private readonly money: LeastMoney,
    private readonly index: CatalogueIndex,
    private readonly rates: RateIndex,
  ) {
    this.works = drafts.map((draft) => draft.work);
  }

  model(): LeastModel {
    const steps = new Map<string, { users: number[]; at: StepAt }>();
    this.works.forEach((work, i) => {
      for (const at of work?.steps ?? []) {
        if (!steps.has(at.key)) steps.set(at.key, { users: [], at });
        steps.get(at.key)!.users.push(i);
      }
    });
    const stepKeys = [...steps.keys()];
    const trees = this.overlapTrees();
    const fees = estimateFees(new Set(this.works.flatMap((work) => work?.operation.fees ?? [])), this.rates);

    const shared = [
      ...[...steps.values()].map(({ users, at }) => this.cheapest(users.map((i) => this.stepCharges(i, at)))),
      ...trees.map((tree) => this.cheapest(tree.map((i) => [this.labour(i, this.longestOverlap(i))]))),
      ...fees.map((fee) => this.weigh([fee])),
    ];
    const choices = this.drafts.map((draft, i): Choice => {
      const { work } = draft;
      const outer = this.outerOf(i);
      const asked = fees.flatMap((fee, k) =>
        work?.operation.fees.includes(fee.id.replace(/^fee\./, '')) ? [stepKeys.length + trees.length + k] : [],
      );
      const alone = this.weigh(this.ownCharges(i));
      return {
        id: draft.line.id,
        alone,
        included: outer.length === 0 ? alone : lesser([alone, this.weigh(this.includedCharges(i, outer))]),
        outer,
        needs: [
          ...(work?.steps ?? []).map((at) => stepKeys.indexOf(at.key)),
          ...trees.flatMap((tree, k) => (tree.includes(i) ? [stepKeys.length + k] : [])),
          ...asked,
        ],
        always: asked,
      };
    });

    const supplies = this.suppliesRule(this.mostBase([...steps.values()], fees));
    // A thing below zero, which only a rounding can bring about, is taken whether it is needed or not.
    const below = shared.reduce((total, { total: each }) => (each < 0n ? total + each : total), 0n);
    return {
      choices,
      shared: shared.map(({ total, base }) => ({ total: total < 0n ? 0n : total, base: base < 0n ? 0n : base })),
      offset: below - units(this.money.offTheWhole()) - DIVISIONS,
      ...supplies,
      even: this.money.discountsAreEven(),
    };
  }

  /** The labour and parts of a line that no other line can take over. */
  private ownCharges(i: number): Likely[] {
    const draft = this.drafts[i]!;
    const { work, line } = draft;
    if (work === null || line.kind !== 'operation') return [...draft.charges];
    return [
      ...this.ownLabour(i),
      ...this.ownParts(i).map(({ charge }) => charge),
      ...this.strayParts(i),
      ...unitFees(work, line.taxes, this.rates),
    ];
  }

  /** Hours are rounded in one with those of the steps; a declared overlap that is not the longest may leave other fractions. */
  private ownLabour(i: number): Likely[] {
    const longest = this.longestOverlap(i);
    const labour = this.labour(i, this.works[i]!.ownHours.minus(longest));
    return longest.isZero() ? [labour] : [labour, { ...labour, amount: this.rates.money.step.div(-2) }];
  }

  /** What is left of a line that another one includes: parts that none of these lists, and fees. */
  private includedCharges(i: number, outer: readonly number[]): Likely[] {
    const { work, line } = this.drafts[i]!;
    const listed = new Set(outer.flatMap((j) => this.works[j]!.operation.parts.map((need) => need.part)));
    const parts = this.ownParts(i).filter(({ part, charge }) => charge.amount.lt(ZERO) || !listed.has(part));
    return [...parts.map(({ charge }) => charge), ...this.strayParts(i), ...unitFees(work!, line.taxes, this.rates)];
  }

  private stepCharges(i: number, at: StepAt): Likely[] {
    const line = this.drafts[i]!.line as OperationLine;
    const parts = at.indexed.step.parts.flatMap((need) =>
      line.parts.some((override) => override.part === need.part && (override.qty !== null || override.omit))
        ? []
        : this.partCharges(i, need.part, decimal(need.qty)),
    );
    return [this.labour(i, at.indexed.hours), ...parts];
  }

  private labour(i: number, hours: Decimal): Likely {
    const { line, rate } = this.drafts[i]!;
    return { line: line.id, kind: 'labour', amount: hours.times(rate), taxes: line.taxes ?? this.rates.taxesOf.labour };
  }

  /** The operation's own parts, and parts that the line adds to those of the catalogue. */
  private ownParts(i: number): { part: string; charge: Likely }[] {
    const line = this.drafts[i]!.line as OperationLine;
    const { operation } = this.works[i]!;
    const positions = Math.max(1, line.positions.length);
    const listed = operation.parts.map((need) => ({ part: need.part, qty: decimal(need.qty).times(need.each ? positions : 1) }));
    const known = new Set([...operation.parts.map((need) => need.part), ...this.stepParts(i)]);
    const added = line.parts.filter((override) => !known.has(override.part)).map(({ part }) => ({ part, qty: ONE }));
    return [...listed, ...added].flatMap(({ part, qty }) => {
      const override = line.parts.find((each) => each.part === part);
      if (override?.omit) return [];
      const used = override?.qty == null ? qty : decimal(override.qty);
      return this.partCharges(i, part, used).map((charge) => ({ part, charge }));
    });
  }

  /** Parts of steps that the line says are to be fewer than none: they may come about or not. */
  private strayParts(i: number): Likely[] {
    const line = this.drafts[i]!.line as OperationLine;
    const own = new Set(this.works[i]!.operation.parts.map((need) => need.part));
    const ofSteps = this.stepParts(i);
    return line.parts.flatMap(({ part, qty, omit }) =>
      !omit && qty !== null && decimal(qty).lt(ZERO) && ofSteps.has(part) && !own.has(part) ? this.partCharges(i, part, decimal(qty)) : [],
    );
  }

  private stepParts(i: number): Set<string> {
    return new Set(this.works[i]!.steps.flatMap((at) => at.indexed.step.parts.map((need) => need.part)));
  }

  private partCharges(i: number, id: string, qty: Decimal): Likely[] {
    const line = this.drafts[i]!.line as OperationLine;
    const part = this.index.parts.get(id)!;
    const override = line.parts.find((each) => each.part === id);
    const list = part.list === null ? null : decimal(part.list);
    const unit =
      override?.unitPrice == null ? sellPrice(decimal(override?.cost ?? part.cost), list, this.rates) : decimal(override.unitPrice);
    const charge = (kind: ChargeKind, price: Decimal): Likely => ({
      line: line.id,
      kind,
      amount: qty.times(price),
      taxes: line.taxes ?? this.rates.taxesOf[kind],
    });
    return [charge('part', unit), charge('core', decimal(part.core))].filter(({ amount }) => !amount.isZero());
  }

  private outerOf(i: number): number[] {
    const inner = this.works[i]?.operation.id;
    if (inner === undefined) return [];
    return this.works.flatMap((work, j) => (work !== null && this.index.includedBy.get(work.operation.id)!.has(inner) ? [j] : []));
  }

  /**
   * Lines that overlap with one another, directly or over others. One line of a tree at least deducts nothing (it is
   * the root), so of all that `ownCharges` has taken off one share is paid again: like a step that they have in common.
   */
  private overlapTrees(): number[][] {
    const here = new Set(this.works.flatMap((work) => (work === null ? [] : [work.operation.id])));
    const beside = (id: string): string[] => [...(this.index.overlaps.get(id)?.keys() ?? [])].filter((other) => here.has(other));
    const trees: number[][] = [];
    const seen = new Set<string>();
    for (const operation of here) {
      if (seen.has(operation) || beside(operation).length === 0) continue;
      const tree = closure([operation], beside);
      for (const id of tree) seen.add(id);
      trees.push(this.works.flatMap((work, i) => (work !== null && tree.has(work.operation.id) ? [i] : [])));
    }
    return trees;
  }

  private longestOverlap(i: number): Decimal {
    const work = this.works[i]!;
    const declared = this.index.overlaps.get(work.operation.id);
    let longest = ZERO;
    for (const other of declared === undefined ? [] : this.works) {
      const hours = other === null ? undefined : declared!.get(other.operation.id);
      if (hours === undefined) continue;
      const inCommon = sum(work.steps.filter((at) => other!.needs.has(at.key)).map((at) => at.indexed.hours));
      longest = max(longest, min(hours.minus(inCommon), min(work.ownHours, other!.ownHours)));
    }
    return longest;
  }

  private weigh(charges: readonly Likely[]): Weight {
    const of: readonly ChargeKind[] = this.rates.rates.supplies?.of ?? [];
    const based = charges.filter((charge) => of.includes(charge.kind));
    return {
      total: units(sum(charges.map((charge) => this.money.of(charge)))),
      base: units(sum(based.map((charge) => this.money.before(charge)))),
    };
  }

  /** What supplies are taken of can be no more than this, whatever lines are chosen. */
  private mostBase(steps: readonly { users: readonly number[]; at: StepAt }[], fees: readonly Likely[]): Decimal {
    const of: readonly ChargeKind[] = this.rates.rates.supplies?.of ?? [];
    const most = (charges: readonly Likely[]): Decimal =>
      sum(charges.map(({ kind, amount }) => (of.includes(kind) ? max(ZERO, amount).plus(this.rates.money.step) : ZERO)));
    const lines = this.drafts.map((draft, i) => {
      const { work, line } = draft;
      if (work === null || line.kind !== 'operation') return most(draft.charges);
      const typed = line.parts.flatMap(({ part, qty }) => (qty === null ? [] : this.partCharges(i, part, decimal(qty))));
      const own = [
        this.labour(i, work.ownHours),
        ...this.ownParts(i).map(({ charge }) => charge),
        ...unitFees(work, line.taxes, this.rates),
      ];
      return most([...own, ...typed]);
    });
    const shared = steps.map(({ users, at }) => users.map((i) => most(this.stepCharges(i, at))).reduce(max));
    return sum([...lines, ...shared, most(fees)]);
  }

  private cheapest(alternatives: readonly (readonly Likely[])[]): Weight {
    return lesser(alternatives.map((charges) => this.weigh(charges)));
  }

  private suppliesRule(mostBase: Decimal): Pick<LeastModel, 'supplies' | 'suppliesSlope' | 'suppliesSlack'> {
    const { supplies } = this.rates.rates;
    if (supplies === null) return { supplies: () => 0n, suppliesSlope: 0n, suppliesSlack: 0n };
    const { step } = this.rates.money;
    const worth = (amount: Decimal): Decimal =>
      this.money.of({ line: null, kind: 'supplies', amount, taxes: supplies.taxes ?? this.rates.taxesOf.supplies });
    const percent = decimal(supplies.percent).div(100);
    const most = supplies.maximum === null ? null : decimal(supplies.maximum);
    const least = supplies.minimum === null ? ZERO : decimal(supplies.minimum);
    const one = worth(ONE.times(1_000_000)).div(1_000_000);
    const slope = most === null || mostBase.isZero() ? percent : min(percent, most.div(mostBase));
    const [factor, slack] = [
      units(max(ZERO, one)),
      units(
        step
          .times(2)
          .times(max(ONE, one))
          .plus(this.money.slackOf(supplies.taxes ?? this.rates.taxesOf.supplies)),
      ) + 1n,
    ];
    const [percentUnits, leastUnits, mostUnits] = [units(percent), units(least), most === null ? null : units(most)];
    return {
      supplies: (base) => {
        if (base <= 0n) return 0n;
        let amount = (base * percentUnits) / ONE_UNITS;
        if (amount < leastUnits) amount = leastUnits;
        if (mostUnits !== null && amount > mostUnits) amount = mostUnits;
        const worthOf = (amount * factor) / ONE_UNITS - slack;
        return worthOf < 0n ? 0n : worthOf;
      },
      suppliesSlope: (units(slope) * factor) / ONE_UNITS,
      suppliesSlack: slack,
    };
  }
}
