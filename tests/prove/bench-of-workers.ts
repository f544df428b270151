/** Worker processes that share out the stretches of a proof among them. */
import { type ChildProcess, fork } from 'node:child_process';
import { setPriority } from 'node:os';
import type { Proof } from './proof.js';
import { type Message, type PlainOutcome, STRETCH, type Task } from './work.js';

/** A worker that says nothing for so long hangs. */
const SILENT_FOR = 120_000;

export interface Report extends Task {
  readonly outcome: PlainOutcome | null;
  /** What went wrong with the worker itself: it hung, or ended. */
  readonly lost: string | null;
}

interface Worker {
  readonly process: ChildProcess;
  task: Task | null;
  done: number;
  heard: number;
}

export class BenchOfWorkers {
  constructor(
    private readonly script: string,
    private readonly size: number,
  ) {}

  /**
   * Tries all stretches of a proof.
   *
   * @param onDone called whenever some cases are done, with how many in all
   */
  async run(proof: Proof, seed: number, stretches: readonly number[], cases: number, onDone: (done: number) => void): Promise<Report[]> {
    const open = stretches.map((stretch): Task => ({
      proof: proof.name,
      stretch,
      seed,
      cases: Math.min(STRETCH, cases - stretch * STRETCH),
    }));
    const reports: Report[] = [];
    const workers = new Set<Worker>();
    let ended = 0;
    const going = (): void => onDone(ended + [...workers].reduce((sum, { done }) => sum + done, 0));

    const oneWorker = (): Promise<void> =>
      new Promise((resolve) => {
        const worker: Worker = { process: this.start(), task: null, done: 0, heard: Date.now() };
        workers.add(worker);
        const report = (outcome: PlainOutcome | null, lost: string | null): void => {
          if (worker.task === null) return;
          reports.push({ ...worker.task, outcome, lost });
          ended += worker.task.cases;
          [worker.task, worker.done] = [null, 0];
        };
        const next = (): void => {
          worker.task = open.shift() ?? null;
          if (worker.task === null) worker.process.disconnect();
          else worker.process.send(worker.task);
        };
        const watch = setInterval(() => {
          if (worker.task === null || Date.now() - worker.heard < SILENT_FOR) return;
          report(null, `nothing was heard for ${SILENT_FOR / 1000} s after case ${worker.done}: it hangs`);
          worker.process.kill('SIGKILL');
        }, 1000);
        worker.process.on('message', (message: Message) => {
          worker.heard = Date.now();
          if (message.kind === 'going') worker.done = message.done;
          else if (message.kind === 'done') report(message.outcome, null);
          if (message.kind !== 'going') next();
          going();
        });
        worker.process.on('exit', (code, signal) => {
          clearInterval(watch);
          report(null, `the worker ended (${signal ?? code})`);
          workers.delete(worker);
          going();
          resolve(open.length > 0 ? oneWorker() : undefined);
        });
      });

    await Promise.all(Array.from({ length: Math.min(this.size, stretches.length) }, oneWorker));
    return reports;
  }

  /** Politely: whoever else works on the machine comes first. */
  private start(): ChildProcess {
    const child = fork(this.script, ['worker'], { stdio: ['ignore', 'inherit', 'inherit', 'ipc'] });
    if (child.pid !== undefined) setPriority(child.pid, 10);
    return child;
  }
}
