/** What the main process and its workers tell each other. */
import { setImmediate } from 'node:timers/promises';
import { type Outcome, type Proof, seedOfStretch, tryCases } from './proof.js';

/** Cases of one stretch: as many as a worker tries in one go. */
export const STRETCH = 250;

export interface Task {
  readonly proof: string;
  readonly stretch: number;
  readonly seed: number;
  readonly cases: number;
}

export type Message =
  | { readonly kind: 'ready' }
  /** So many cases of the task are done. */
  | { readonly kind: 'going'; readonly done: number }
  | { readonly kind: 'done'; readonly outcome: PlainOutcome };

/** An outcome as it goes from one process to another. */
export interface PlainOutcome extends Omit<Outcome, 'counts'> {
  readonly counts: readonly (readonly [string, number])[];
}

const TELL_EACH = 250;

/** A worker: takes one task after the other until it is told to go. */
export function work(proofs: readonly Proof[]): void {
  const tell = (message: Message): void => void process.send!(message);
  const take = async ({ proof: name, stretch, seed, cases }: Task): Promise<void> => {
    const proof = proofs.find((each) => each.name === name)!;
    let told = Date.now();
    const onCase = async (done: number): Promise<void> => {
      if (Date.now() - told < TELL_EACH) return;
      told = Date.now();
      tell({ kind: 'going', done });
      await setImmediate();
    };
    const outcome = await tryCases(proof, { seed: seedOfStretch(seed, stretch), cases, onCase });
    tell({ kind: 'done', outcome: { ...outcome, counts: [...outcome.counts] } });
  };
  process.on('message', (task: Task) => void take(task));
  tell({ kind: 'ready' });
}
