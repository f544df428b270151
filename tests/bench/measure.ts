export interface Contender {
  readonly name: string;
  /** One repetition of the work, which gives its result. */
  readonly work: () => unknown;
}

const ROUNDS = 9;
const ROUND_MS = 60;

/** Exported, so that a compiler must take results for needed. */
export let kept: unknown;

/**
 * Microseconds of processor time for one repetition of each contender: the median of rounds in which they take turns, so
 * that whatever else the machine is doing meets all of them alike. Only the ratios of one run mean anything.
 */
export function measure(contenders: readonly Contender[]): Map<string, number> {
  const repetitions = contenders.map(({ work }) => {
    warmUp(work);
    return Math.max(1, Math.round(ROUND_MS / Math.max(timeOf(work, 1), 0.001)));
  });

  const times: number[][] = contenders.map(() => []);
  for (let round = 0; round < ROUNDS; round += 1) {
    contenders.forEach(({ work }, i) => times[i]!.push(timeOf(work, repetitions[i]!) / repetitions[i]!));
  }
  return new Map(contenders.map(({ name }, i) => [name, median(times[i]!) * 1000]));
}

/** Long enough for the compiler to have made up its mind. */
function warmUp(work: () => unknown): void {
  for (let spent = 0; spent < ROUND_MS * 3; spent += timeOf(work, 1));
}

/** Milliseconds of the processor: a clock would count what it does for others in between. */
function timeOf(work: () => unknown, times: number): number {
  const start = process.cpuUsage();
  for (let i = 0; i < times; i += 1) kept = work();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}

export function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
}
