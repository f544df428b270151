/** What replaying past estimates costs: time against pricing them one by one, and memory while it goes on. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { MadeUpEstimates } from '../../demo/made-up-estimates.js';
import card from '../../rates/card.demo.json';
import catalogueOfDemo from '../../rates/catalogue.demo.json';
import { type Catalogue, type Parsed, parseCatalogue, parseRates, priceEstimate, type Rates, replay } from '../../src/index.js';

const ESTIMATES = 10_000;
const ONE_BY_ONE = 500;
const SAMPLES = 10;

export interface ReplayBench {
  readonly estimates: number;
  readonly seconds: number;
  /** Of processor time; the clock above counts what else the machine did. */
  readonly processorSeconds: number;
  /** A replayed estimate against the same estimate checked and priced twice by `priceEstimate`. */
  readonly ratio: number;
  /** Megabytes in use after collecting garbage: before, and at each tenth of the way. */
  readonly heap: readonly number[];
}

export async function benchReplay(): Promise<ReplayBench> {
  const catalogue = must(parseCatalogue(catalogueOfDemo));
  const before = must(parseRates(card));
  const after: Rates = { ...before, labourClasses: before.labourClasses.map((each) => ({ ...each, rate: '168.50' })) };
  const single = oneByOne(catalogue, before, after);

  const collect = garbageCollector();
  const used = (): number => {
    collect();
    return process.memoryUsage().heapUsed / 1e6;
  };
  const heap = [used()];
  const [start, processor] = [performance.now(), process.cpuUsage()];
  await replay(unread(catalogue, ESTIMATES), catalogue, before, after, {
    onProgress: (done) => {
      if (done % (ESTIMATES / SAMPLES) === 0 && heap.length <= SAMPLES) heap.push(used());
    },
  });
  const seconds = (performance.now() - start) / 1000;
  const processorSeconds = processorSince(processor);
  return { estimates: ESTIMATES, seconds, processorSeconds, ratio: processorSeconds / ESTIMATES / single, heap };
}

function processorSince(start: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e6;
}

/** Seconds of processor time for one estimate under both cards. */
function oneByOne(catalogue: Catalogue, before: Rates, after: Rates): number {
  const start = process.cpuUsage();
  for (const estimate of unread(catalogue, ONE_BY_ONE))
    for (const rates of [before, after]) priceEstimate({ estimate: estimate as never, catalogue, rates });
  return processorSince(start) / ONE_BY_ONE;
}

function* unread(catalogue: Catalogue, count: number): Generator<unknown> {
  const estimates = new MadeUpEstimates(catalogue, count);
  for (let i = 0; i < count; i += 1) yield estimates.read(i);
}

function garbageCollector(): () => void {
  setFlagsFromString('--expose-gc');
  return runInNewContext('gc') as () => void;
}

function must<T>(parsed: Parsed<T>): T {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
}
