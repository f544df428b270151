import type { Estimate } from '../../src/documents/estimate.js';
import { Deferral, type DeferralCost } from '../../src/pricing/deferral.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import type { Reference } from './context.js';

/** Milliseconds of work at a time, so that typing never waits, and of quiet before the work begins. */
const SLICE = 12;
const PAUSE = 100;

/**
 * Works out what each line costs later, in slices between the person's own doings: each line means pricing the
 * estimate three times. A newer estimate takes the place of one that is still being worked on.
 */
export class DeferralTask {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private wanted: Estimate | null = null;

  constructor(private readonly done: (costs: Record<string, DeferralCost>) => void) {}

  start(estimate: Estimate, priced: PricedEstimate, reference: Reference): void {
    if (this.wanted === estimate) return;
    this.stop();
    this.wanted = estimate;
    let deferral: Deferral | null = null;
    const costs: [string, DeferralCost][] = [];
    const work = (): void => {
      const until = performance.now() + SLICE;
      deferral ??= new Deferral(estimate, priced, reference.catalogue, reference.rates);
      while (costs.length < deferral.lines.length && performance.now() < until) {
        const id = deferral.lines[costs.length]!;
        costs.push([id, deferral.cost(id)]);
      }
      if (costs.length < deferral.lines.length) this.timer = setTimeout(work);
      else this.done(Object.fromEntries(costs));
    };
    this.timer = setTimeout(work, PAUSE);
  }

  stop(): void {
    clearTimeout(this.timer);
    this.wanted = null;
  }
}
