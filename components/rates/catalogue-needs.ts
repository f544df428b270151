import type { CatalogueDraft, CatalogueList } from '../../src/store/catalogue-draft.js';
import type { CatalogueIndex } from './catalogue-index.js';

/** A step or an operation in the picture. */
export interface NeedsNode {
  readonly list: 'steps' | 'operations';
  readonly key: string;
  readonly id: string;
  readonly title: string;
  readonly hours: string;
  readonly per: 'vehicle' | 'position';
  /** Of a step: how many operations name it. */
  readonly uses: number;
  readonly chosen: boolean;
  /** From left to right: what comes off first stands left. */
  readonly column: number;
  /** From the top of its column. */
  row: number;
}

/** From what is needed to what needs it, with the rows that it passes in the columns between. */
export interface NeedsEdge {
  readonly from: NeedsNode;
  readonly to: NeedsNode;
  readonly lanes: readonly { readonly column: number; readonly row: number }[];
}

export interface NeedsPlan {
  readonly nodes: readonly NeedsNode[];
  readonly edges: readonly NeedsEdge[];
  readonly columns: number;
  /** Rows of the highest column, lanes included. */
  readonly rows: number;
  /** Rows by column, to set each in the middle. */
  readonly heights: readonly number[];
  /** Operations and steps that are left out for want of room. */
  readonly left: { readonly operations: number; readonly steps: number };
}

/** More than this nobody reads in one picture. */
const MOST_OPERATIONS = 9;
const MOST_STEPS = 40;

export interface NeedsSubject {
  readonly list: CatalogueList;
  readonly key: string;
}

/**
 * What a picture of the needs shows: around an operation all that must come off for it; around a step also what needs
 * it, and the operations that use it. Without either, all steps where they are few enough, else null.
 */
export function planNeeds(index: CatalogueIndex, subject: NeedsSubject | null): NeedsPlan | null {
  const { draft } = index;
  const operation = subject?.list === 'operations' ? draft.operations.find(({ key }) => key === subject.key) : undefined;
  if (operation !== undefined) return layOut(index, index.stepsBehind(operation.steps), [operation.id], operation.id);
  const step = subject?.list === 'steps' ? draft.steps.find(({ key }) => key === subject.key) : undefined;
  if (step === undefined) {
    if (draft.steps.length === 0 || draft.steps.length > MOST_STEPS) return null;
    return layOut(
      index,
      draft.steps.map(({ id }) => id),
      [],
      null,
    );
  }
  const above = needing(step.id, draft);
  const users = draft.operations.filter(({ steps }) => steps.includes(step.id));
  const through = draft.operations.filter((each) => !users.includes(each) && each.steps.some((id) => above.includes(id)));
  return layOut(
    index,
    [...index.stepsBehind([step.id]), ...above],
    [...users, ...through].map(({ id }) => id),
    step.id,
  );
}

/** Steps that need one, also through others. */
function needing(id: string, draft: CatalogueDraft): string[] {
  const found = new Set([id]);
  for (let grew = true; grew;) {
    grew = false;
    for (const step of draft.steps) {
      if (found.has(step.id) || !step.needs.some((needed) => found.has(needed))) continue;
      found.add(step.id);
      grew = true;
    }
  }
  found.delete(id);
  return [...found];
}

function layOut(index: CatalogueIndex, stepIds: readonly string[], operationIds: readonly string[], chosen: string | null): NeedsPlan {
  const { draft } = index;
  const asked = new Set(stepIds);
  const steps = draft.steps.filter(({ id }) => asked.has(id)).slice(0, MOST_STEPS);
  const shownSteps = new Set(steps.map(({ id }) => id));
  const shownOperations = new Set(operationIds.slice(0, MOST_OPERATIONS));
  const needs = new Map(steps.map((step) => [step.id, step.needs.filter((id) => shownSteps.has(id))]));
  const depth = depths(needs);
  /** An operation stands right of the last of its steps. */
  const columnOf = (operation: { readonly steps: readonly string[] }): number =>
    Math.max(-1, ...operation.steps.map((id) => depth.get(id) ?? -1)) + 1;

  const nodes: NeedsNode[] = [
    ...steps.map(({ id, key, title, hours, per }) => ({
      list: 'steps' as const,
      key,
      id,
      title,
      hours,
      per,
      uses: index.usesOf('steps', id),
      chosen: id === chosen,
      column: depth.get(id)!,
      row: 0,
    })),
    ...draft.operations
      .filter(({ id }) => shownOperations.has(id))
      .map((operation) => ({
        list: 'operations' as const,
        key: operation.key,
        id: operation.id,
        title: operation.title,
        hours: operation.bookHours,
        per: operation.per,
        uses: 0,
        chosen: operation.id === chosen,
        column: columnOf(operation),
        row: 0,
      })),
  ];
  const stepNodes = new Map(nodes.flatMap((node) => (node.list === 'steps' ? [[node.id, node] as const] : [])));
  const operations = new Map(draft.operations.map((operation) => [operation.id, operation]));
  const edges = nodes.flatMap((to) =>
    (to.list === 'steps' ? needs.get(to.id)! : operations.get(to.id)!.steps).flatMap((id) => {
      const from = stepNodes.get(id);
      return from === undefined || from.column >= to.column ? [] : [{ from, to, lanes: [] as { column: number; row: number }[] }];
    }),
  );
  const heights = order(nodes, edges);
  return {
    nodes,
    edges,
    columns: heights.length,
    rows: Math.max(1, ...heights),
    heights,
    left: { operations: operationIds.length - shownOperations.size, steps: asked.size - steps.length },
  };
}

/** How many others must come off before each, the longest way; a ring, which the check complains of, ends somewhere. */
function depths(needs: ReadonlyMap<string, readonly string[]>): Map<string, number> {
  const depth = new Map<string, number>();
  const visit = (id: string, above: ReadonlySet<string>): number => {
    const known = depth.get(id);
    if (known !== undefined) return known;
    if (above.has(id)) return 0;
    const inner = new Set([...above, id]);
    const found = Math.max(-1, ...needs.get(id)!.map((needed) => visit(needed, inner))) + 1;
    depth.set(id, found);
    return found;
  };
  for (const id of needs.keys()) visit(id, new Set());
  return depth;
}

interface Spot {
  row: number;
  readonly column: number;
  readonly before: Spot[];
  readonly after: Spot[];
}

/**
 * Gives every node its row: an edge over several columns gets a lane of its own in those between, and each column is
 * sorted by where its neighbours stand, back and forth a few times (the barycentre rule of Sugiyama, Tagawa and Toda, 1981).
 */
function order(
  nodes: readonly NeedsNode[],
  edges: readonly { from: NeedsNode; to: NeedsNode; lanes: { column: number; row: number }[] }[],
): number[] {
  const spots = new Map<NeedsNode, Spot>(nodes.map((node) => [node, { row: 0, column: node.column, before: [], after: [] }]));
  const columns: Spot[][] = Array.from({ length: Math.max(0, ...nodes.map(({ column }) => column + 1)) }, () => []);
  for (const spot of spots.values()) columns[spot.column]!.push(spot);
  const lanes = edges.map(({ from, to }) => {
    const through: Spot[] = [];
    let previous = spots.get(from)!;
    const join = (next: Spot): void => {
      previous.after.push(next);
      next.before.push(previous);
      previous = next;
    };
    for (let column = from.column + 1; column < to.column; column += 1) {
      const lane: Spot = { row: 0, column, before: [], after: [] };
      columns[column]!.push(lane);
      through.push(lane);
      join(lane);
    }
    join(spots.get(to)!);
    return through;
  });
  const number = (column: Spot[]): void => column.forEach((spot, row) => (spot.row = row));
  const share = (spot: Spot): number => spot.row / Math.max(1, columns[spot.column]!.length - 1);
  const sortBy = (column: Spot[], side: 'before' | 'after'): void => {
    const middle = (near: readonly Spot[]): number => near.reduce((sum, spot) => sum + share(spot), 0) / near.length;
    const place = new Map(column.map((spot) => [spot, spot[side].length === 0 ? share(spot) : middle(spot[side])]));
    column.sort((a, b) => place.get(a)! - place.get(b)!);
    number(column);
  };
  columns.forEach(number);
  for (let turn = 0; turn < 4; turn += 1) {
    columns.slice(1).forEach((column) => sortBy(column, 'before'));
    columns
      .slice(0, -1)
      .reverse()
      .forEach((column) => sortBy(column, 'after'));
  }
  for (const [node, spot] of spots) node.row = spot.row;
  edges.forEach((edge, i) => edge.lanes.push(...lanes[i]!.map(({ column, row }) => ({ column, row }))));
  return columns.map((column) => column.length);
}
