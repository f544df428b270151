import { type Decimal, decimal, type DecimalString, printPlain, sum } from '../../src/number/decimal.js';
import type { PricedEstimate, PricedLine, PricedStep } from '../../src/pricing/priced-estimate.js';
import { neighboursTogether } from './teardown-order.js';

/**
 * Where everything stands in the teardown picture, and what it says.
 *
 * Places are JavaScript numbers, because a screen has no use for more: `x` and `width` in hours from the left edge,
 * `top` and `lanes` in rows from the top. They are only ever drawn. Hours that are shown are the engine's decimal
 * strings, or worked out from them in decimal.
 */
export interface TeardownPlan {
  readonly rows: readonly TeardownRow[];
  readonly steps: readonly TeardownStep[];
  readonly joints: readonly TeardownJoint[];
  /** Left edge of the own work of every row. */
  readonly axis: number;
  /** Hours from edge to edge, with room for a figure at the end of the longest row. */
  readonly width: number;
  readonly lanes: number;
}

/** A priced operation line. */
export interface TeardownRow extends Span {
  readonly line: PricedLine;
  /** What is charged for the line's own work, without any step. */
  readonly own: DecimalString;
  /** What a declared overlap takes from its own work. */
  readonly deducted: DecimalString;
  readonly ownWidth: number;
  readonly deductedWidth: number;
  /** Marks of the steps that the line needs, and of those that it carries. */
  readonly needs: readonly string[];
  readonly carries: readonly string[];
  /** Lines that are part of this one (rule 5), each with half a lane below it. */
  readonly included: readonly (Span & { readonly line: PricedLine })[];
}

/** An access step with its position: one block over all rows that need it. */
export interface TeardownStep {
  readonly mark: string;
  readonly title: string;
  readonly step: PricedStep;
  readonly x: number;
  readonly width: number;
  /** Rows next to each other that need it. */
  readonly runs: readonly Span[];
  /** The row that is charged for it. */
  readonly carried: Span;
}

/** A declared overlap between two rows. */
export interface TeardownJoint extends Span {
  readonly payer: PricedLine;
  readonly spared: PricedLine;
  readonly hours: DecimalString;
  readonly x: number;
}

interface Span {
  readonly top: number;
  readonly lanes: number;
}

/** Room to the right of a row for its figure, and the width of a joint with its figure, in hours. */
const FIGURE_WIDTH = 0.8;
const JOINT_WIDTH = 0.9;
const INCLUDED_LANES = 0.5;
/** The narrowest field of steps that still has room for its heading. */
const LEAST_STEPS_WIDTH = 1;

/** Lays out the picture of an estimate; lines that are not priced, and lines that are no operations, are left out. */
export function planTeardown(priced: PricedEstimate): TeardownPlan {
  const operations = priced.lines.filter((line) => line.kind === 'operation' && line.priced);
  const inDepth = outermostFirst(priced.overlap.steps);
  const lines = neighboursTogether(
    operations.filter((line) => line.includedIn === null),
    [...inDepth.map((step) => step.lines), ...priced.overlap.pairs.map((pair) => pair.between)],
  );

  let lanes = 0;
  const spans = lines.map((line) => {
    const included = operations
      .filter((other) => other.includedIn === line.id)
      .map((other, i) => ({ line: other, top: lanes + 1 + i * INCLUDED_LANES, lanes: INCLUDED_LANES }));
    const span = { line, top: lanes, lanes: 1 + included.length * INCLUDED_LANES, included };
    lanes += span.lanes;
    return span;
  });
  const spanOf = new Map(spans.map((span) => [span.line.id, span]));
  const rowOf = new Map(lines.map((line, i) => [line.id, i]));

  const steps = placeSteps(inDepth, spans, rowOf);
  const stepsWidth = Math.max(0, ...steps.map((step) => step.x + step.width));
  const jointsAt = steps.length === 0 ? 0 : Math.max(stepsWidth, LEAST_STEPS_WIDTH) + 0.35;
  const joints = placeJoints(priced.overlap.pairs, spanOf, jointsAt);

  const needing = new Map(steps.map(({ step }) => [step, new Set(step.lines)]));
  const rows = spans.map((span): TeardownRow => {
    const { line } = span;
    const own = ownHours(line, priced.overlap.steps);
    const deducted = sum(priced.overlap.pairs.filter((p) => p.between[1] === line.id).map((p) => decimal(p.hours)));
    const needs = steps.filter(({ step }) => needing.get(step)!.has(line.id));
    return {
      ...span,
      own: printPlain(own),
      deducted: printPlain(deducted),
      ownWidth: own.toNumber(),
      deductedWidth: deducted.toNumber(),
      needs: needs.map(({ mark }) => mark),
      carries: needs.filter(({ step }) => step.carriedBy === line.id).map(({ mark }) => mark),
    };
  });

  const axis = Math.max(jointsAt, ...joints.map((joint) => joint.x + JOINT_WIDTH));
  const width = axis + Math.max(0, ...rows.map((row) => row.ownWidth + row.deductedWidth)) + FIGURE_WIDTH;
  return { rows, steps, joints, axis, width, lanes };
}

/**
 * A step that another step needs is needed by all lines of that one, so the one with more lines comes off first. Where
 * both have the same lines the estimate does not tell; then the later of the two, which is mostly the one that is needed.
 */
function outermostFirst(steps: readonly PricedStep[]): PricedStep[] {
  return [...steps].reverse().sort((a, b) => b.lines.length - a.lines.length);
}

/** Puts each step as far left as the steps before it let it, clear of the rows that it only passes. */
function placeSteps(inDepth: readonly PricedStep[], spans: readonly Span[], rowOf: ReadonlyMap<string, number>): TeardownStep[] {
  const taken = spans.map(() => 0);
  const placed = inDepth.map((step) => {
    const rows = step.lines.map((id) => rowOf.get(id)!).sort((a, b) => a - b);
    const [first, last] = [rows[0]!, rows.at(-1)!];
    const x = Math.max(...taken.slice(first, last + 1));
    const width = decimal(step.hours).toNumber();
    taken.fill(x + width, first, last + 1);
    const title = step.position === null ? step.title : `${step.title}, ${step.position}`;
    return { title, step, x, width, runs: runsOf(rows, spans), carried: spans[rowOf.get(step.carriedBy)!]! };
  });
  return placed.sort((a, b) => a.x - b.x || a.runs[0]!.top - b.runs[0]!.top).map((step, i) => ({ mark: letters(i), ...step }));
}

function runsOf(rows: readonly number[], spans: readonly Span[]): Span[] {
  const runs: { top: number; lanes: number }[] = [];
  let before = -2;
  for (const row of rows) {
    const { top, lanes } = spans[row]!;
    if (row === before + 1) runs.at(-1)!.lanes += lanes;
    else runs.push({ top, lanes });
    before = row;
  }
  return runs;
}

/** Puts each joint into the first column where it meets no other. */
function placeJoints(
  pairs: PricedEstimate['overlap']['pairs'],
  spanOf: ReadonlyMap<string, Span & { readonly line: PricedLine }>,
  left: number,
): TeardownJoint[] {
  const columns: number[] = [];
  return pairs
    .map(({ between: [payer, spared], hours }) => {
      const [a, b] = [spanOf.get(payer)!, spanOf.get(spared)!];
      const top = Math.min(a.top, b.top);
      return { payer: a.line, spared: b.line, hours, top, lanes: Math.max(a.top, b.top) - top + 1 };
    })
    .sort((a, b) => a.top - b.top)
    .map((joint) => {
      const free = columns.findIndex((end) => end <= joint.top);
      const column = free < 0 ? columns.length : free;
      columns[column] = joint.top + joint.lanes;
      return { ...joint, x: left + column * JOINT_WIDTH };
    });
}

/** Rule 4 read backwards: what is charged and is not a carried step is the line's own work. */
function ownHours(line: PricedLine, steps: readonly PricedStep[]): Decimal {
  const carried = steps.filter((step) => step.carriedBy === line.id).map((step) => decimal(step.hours));
  return decimal(line.chargedHours).minus(sum(carried));
}

/** A, B … Z, AA, AB … */
function letters(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letters(Math.floor(index / 26) - 1) + last;
}
