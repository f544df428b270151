import type { Estimate } from '../documents/estimate.js';
import type { Command, SheetState } from './commands.js';
import { reduce } from './reduce.js';

/** How many steps can be taken back. States share what they have in common, so a step costs little. */
const MOST_STEPS = 500;

interface Step {
  readonly state: SheetState;
  /** What the step that led away from this state did, in words: "Undo paste". */
  readonly label: string;
}

/**
 * Who owns what. The store owns the estimate while it is on the screen, and the entries that are not fit to be part of
 * it. It knows nothing of grids, prices or pages: grids send commands and paint what they are given; the pricer reads
 * the estimate; the page is told by events. One gesture (a typed cell, a pasted block) is one dispatch and one step of
 * undo, whichever grid it came from, so both grids and the job's head share one history.
 */
export class EstimateStore {
  private state: SheetState;
  private past: Step[] = [];
  private future: Step[] = [];
  private readonly listeners = new Set<(state: SheetState) => void>();

  constructor(estimate: Estimate) {
    this.state = { estimate, pending: new Map() };
  }

  getState(): SheetState {
    return this.state;
  }

  /** Calls `listener` after each change; returns what ends that. */
  subscribe(listener: (state: SheetState) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Carries out the commands of one gesture as one step. Commands that change nothing make no step. */
  dispatch(commands: readonly Command[], label: string): void {
    const next = commands.reduce(reduce, this.state);
    if (next === this.state) return;
    this.past = [...this.past, { state: this.state, label }].slice(-MOST_STEPS);
    this.future = [];
    this.become(next);
  }

  /** Takes the last step back; false when there is none. */
  undo(): boolean {
    const step = this.past.at(-1);
    if (step === undefined) return false;
    this.past = this.past.slice(0, -1);
    this.future = [...this.future, { state: this.state, label: step.label }];
    this.become(step.state);
    return true;
  }

  /** Does again what was taken back last; false when there is nothing. */
  redo(): boolean {
    const step = this.future.at(-1);
    if (step === undefined) return false;
    this.future = this.future.slice(0, -1);
    this.past = [...this.past, { state: this.state, label: step.label }];
    this.become(step.state);
    return true;
  }

  /** What undo would take back and redo would do again, in words; null for nothing. */
  labels(): { undo: string | null; redo: string | null } {
    return { undo: this.past.at(-1)?.label ?? null, redo: this.future.at(-1)?.label ?? null };
  }

  /** Another estimate from outside: a new history. */
  replace(estimate: Estimate): void {
    this.past = [];
    this.future = [];
    this.become({ estimate, pending: new Map() });
  }

  private become(state: SheetState): void {
    this.state = state;
    for (const listener of [...this.listeners]) listener(state);
  }
}
