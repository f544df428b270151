import { closure } from '../documents/closure.js';
import { type Decimal, max, min, sum, ZERO } from '../number/decimal.js';
import type { CatalogueIndex } from './catalogue-index.js';
import type { Work } from './work.js';

/** Hours that `child` need not be charged, because `parent` has done them. */
export interface Deduction {
  /** Where the tree of deductions that this one belongs to begins. */
  readonly root: Work;
  readonly parent: Work;
  readonly child: Work;
  readonly hours: Decimal;
}

interface Edge {
  /** Ranks of the two works, the better one first. */
  readonly ends: readonly [number, number];
  readonly hours: Decimal;
}

/**
 * Rule 6: deductions for operations that are only declared to overlap, as a maximum-weight spanning forest of the
 * declared pairs (Hunter 1976, Worsley 1982: the sum less such a forest is never below the union).
 *
 * Deducting every pair would take too much: three operations that share one hour would be charged for none.
 *
 * @param ranked works that are not included in others, in order of precedence
 */
export function declaredDeductions(ranked: readonly Work[], index: CatalogueIndex): Deduction[] {
  return rooted(spanningForest(declaredEdges(ranked, index), ranked.length), ranked);
}

/**
 * The operations whose deductions may change when some works do: theirs, and all that declared overlaps link to them
 * from one operation in the sheet to the next. A forest outside these does not know of the change.
 *
 * @param ranked works that are not included in others
 */
export function linkedOperations(changed: readonly Work[], ranked: readonly Work[], index: CatalogueIndex): Set<string> {
  const declared = changed.map((work) => work.operation.id).filter((id) => index.overlaps.has(id));
  if (declared.length === 0) return new Set();
  const present = new Set(ranked.map((work) => work.operation.id));
  return closure(declared, (id) => [...index.overlaps.get(id)!.keys()].filter((other) => present.has(other)));
}

/**
 * The deductions after a change.
 *
 * @param linked what `linkedOperations` gave for the change; the deductions of other operations stay
 * @returns in the order of a first run: tree by tree, as their roots are ranked
 */
export function deductAgain(
  before: readonly Deduction[],
  linked: ReadonlySet<string>,
  ranked: readonly Work[],
  index: CatalogueIndex,
): readonly Deduction[] {
  if (linked.size === 0) return before;
  const kept = before.filter(({ child }) => !linked.has(child.operation.id));
  const made = declaredDeductions(
    ranked.filter((work) => linked.has(work.operation.id)),
    index,
  );
  const trees = new Map<Work, Deduction[]>();
  for (const deduction of [...kept, ...made]) {
    const tree = trees.get(deduction.root);
    if (tree === undefined) trees.set(deduction.root, [deduction]);
    else tree.push(deduction);
  }
  return ranked.flatMap((work) => trees.get(work) ?? []);
}

function declaredEdges(ranked: readonly Work[], index: CatalogueIndex): Edge[] {
  const ranks = new Map<string, number[]>();
  ranked.forEach((work, rank) => {
    if (!index.overlaps.has(work.operation.id)) return;
    ranks.set(work.operation.id, [...(ranks.get(work.operation.id) ?? []), rank]);
  });

  const edges: Edge[] = [];
  for (const [operation, here] of ranks) {
    for (const [other, declared] of index.overlaps.get(operation)!) {
      for (const a of here) {
        for (const b of ranks.get(other) ?? []) {
          if (a > b) continue;
          const hours = undeducted(declared, ranked[a]!, ranked[b]!);
          if (hours.gt(ZERO)) edges.push({ ends: [a, b], hours });
        }
      }
    }
  }
  return edges;
}

/** What is declared beyond the steps that both lines need, at most what either still has of its own. */
function undeducted(declared: Decimal, a: Work, b: Work): Decimal {
  const shared = sum(a.steps.filter((step) => b.needs.has(step.key)).map((step) => step.indexed.hours));
  return max(ZERO, min(declared.minus(shared), min(a.ownHours, b.ownHours)));
}

/** Kruskal's algorithm: the heaviest edges that close no ring; of equal ones those of the better rank first. */
function spanningForest(edges: readonly Edge[], size: number): Edge[] {
  const heaviest = [...edges].sort((a, b) => b.hours.cmp(a.hours) || a.ends[0] - b.ends[0] || a.ends[1] - b.ends[1]);
  const leader = Array.from({ length: size }, (_, rank) => rank);
  const find = (rank: number): number => {
    let at = rank;
    while (leader[at] !== at) at = leader[at]!;
    leader[rank] = at;
    return at;
  };
  return heaviest.filter(({ ends: [a, b] }) => {
    const [treeA, treeB] = [find(a), find(b)];
    if (treeA === treeB) return false;
    leader[Math.max(treeA, treeB)] = Math.min(treeA, treeB);
    return true;
  });
}

/** Every tree hangs from its first line by precedence; each other line deducts the edge to its parent. */
function rooted(forest: readonly Edge[], ranked: readonly Work[]): Deduction[] {
  const beside = new Map<number, { rank: number; hours: Decimal }[]>();
  const link = (from: number, rank: number, hours: Decimal): void => {
    beside.set(from, [...(beside.get(from) ?? []), { rank, hours }]);
  };
  for (const {
    ends: [a, b],
    hours,
  } of forest) {
    link(a, b, hours);
    link(b, a, hours);
  }

  const deductions: Deduction[] = [];
  const reached = new Set<number>();
  for (const root of [...beside.keys()].sort((a, b) => a - b)) {
    if (reached.has(root)) continue;
    reached.add(root);
    const open = [root];
    for (let parent = open.pop(); parent !== undefined; parent = open.pop()) {
      for (const { rank, hours } of beside.get(parent)!) {
        if (reached.has(rank)) continue;
        reached.add(rank);
        open.push(rank);
        deductions.push({ root: ranked[root]!, parent: ranked[parent]!, child: ranked[rank]!, hours });
      }
    }
  }
  return deductions;
}
