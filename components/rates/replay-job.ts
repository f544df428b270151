import type { Catalogue } from '../../src/documents/catalogue.js';
import type { Rates } from '../../src/documents/rates.js';
import type { DecimalString } from '../../src/number/decimal.js';
import { chargedJobs } from '../../src/replay/charged-hours.js';
import type { ClockedHours } from '../../src/replay/clocked-hours.js';
import { type Goal, seekGoal } from '../../src/replay/goal.js';
import { replay } from '../../src/replay/replay.js';
import type { ReplaySide } from '../../src/replay/sides.js';
import type { CancelSignal, Estimates } from '../../src/replay/stream.js';

/** What can be asked of past estimates; plain data, so that it can be sent to a worker. */
export interface ReplayJobs {
  replay: { readonly catalogue: Catalogue; readonly before: ReplaySide; readonly after: ReplaySide; readonly wage: DecimalString | null };
  goal: ReplayJobs['replay'] & { readonly goal: Goal };
  hours: { readonly catalogue: Catalogue; readonly rates: Rates; readonly rows: readonly ClockedHours[] };
}

export type JobName = keyof ReplayJobs;

export interface JobAnswers {
  replay: Awaited<ReturnType<typeof replay>>;
  goal: Awaited<ReturnType<typeof seekGoal>>;
  hours: Awaited<ReturnType<typeof chargedJobs>>;
}

export interface Job<N extends JobName = JobName> {
  readonly name: N;
  readonly of: ReplayJobs[N];
}

/** How far a job is: estimates that were gone through, of about how many, all trials of a goal together. */
export interface JobProgress {
  readonly done: number;
  readonly about: number;
}

export interface JobOptions {
  readonly signal?: CancelSignal | undefined;
  readonly onProgress?: ((progress: JobProgress) => void) | undefined;
}

/** Does a job, wherever that is: in a worker or on the page itself. */
export async function doJob<N extends JobName>(
  { name, of }: Job<N>,
  estimates: () => Estimates,
  count: number,
  { signal, onProgress }: JobOptions = {},
): Promise<JobAnswers[N]> {
  let passed = 0;
  let passes = 1;
  const stream = {
    signal,
    onProgress: (done: number) => onProgress?.({ done: passed * count + done, about: Math.max(1, passes) * count }),
  };
  switch (name) {
    case 'replay': {
      const { catalogue, before, after, wage } = of as ReplayJobs['replay'];
      return (await replay(estimates(), catalogue, before, after, { ...stream, wage })) as JobAnswers[N];
    }
    case 'goal': {
      const { catalogue, before, after, wage, goal } = of as ReplayJobs['goal'];
      const onTrial = (done: number, about: number): void => {
        passed = done;
        passes = Math.max(about, done + 1);
      };
      return (await seekGoal(estimates, catalogue, before, after, goal, { ...stream, wage, onTrial })) as JobAnswers[N];
    }
    default: {
      const { catalogue, rates, rows } = of as ReplayJobs['hours'];
      return (await chargedJobs(rows, estimates(), catalogue, rates, stream)) as JobAnswers[N];
    }
  }
}
