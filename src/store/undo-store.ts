/** How many steps can be taken back. States share what they have in common, so a step costs little. */
const MOST_STEPS = 500;

interface Step<State> {
  readonly state: State;
  /** What the step that led away from this state did, in words: "Undo paste". */
  readonly label: string;
}

/**
 * A state that is only changed by commands, and its history of undo. One gesture (a typed cell, a pasted block) is one
 * dispatch and one step, wherever it was made.
 */
export class UndoStore<State, Command> {
  private past: Step<State>[] = [];
  private future: Step<State>[] = [];
  private readonly listeners = new Set<(state: State) => void>();

  /** @param reduce the state after one command; the same object where nothing changes */
  constructor(
    private state: State,
    private readonly reduce: (state: State, command: Command) => State,
  ) {}

  getState(): State {
    return this.state;
  }

  /** Calls `listener` after each change; returns what ends that. */
  subscribe(listener: (state: State) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Carries out the commands of one gesture as one step. Commands that change nothing make no step. */
  dispatch(commands: readonly Command[], label: string): void {
    const next = commands.reduce(this.reduce, this.state);
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

  /** Another state from outside: a new history. */
  protected begin(state: State): void {
    this.past = [];
    this.future = [];
    this.become(state);
  }

  private become(state: State): void {
    this.state = state;
    for (const listener of [...this.listeners]) listener(state);
  }
}
