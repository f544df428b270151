import type { Estimate } from '../../src/documents/estimate.js';
import { type DeferralCost, deferralCost, deferrable } from '../../src/pricing/deferral.js';
import { Pricer } from '../../src/pricing/pricer.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import type { Reference } from './context.js';

/** Milliseconds of work at a time, so that typing never waits. */
const SLICE = 12;

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
    const pricer = new Pricer(reference.catalogue, reference.rates);
    const open = deferrable(priced);
    const costs: [string, DeferralCost][] = [];
    const work = (): void => {
      const until = performance.now() + SLICE;
      for (let id = open.shift(); id !== undefined; id = open.shift()) {
        costs.push([id, deferralCost(id, estimate, priced, pricer, reference.rates)]);
        if (performance.now() > until) break;
      }
      if (open.length > 0) this.timer = setTimeout(work);
      else this.done(Object.fromEntries(costs));
    };
    this.timer = setTimeout(work, 60);
  }

  stop(): void {
    clearTimeout(this.timer);
    this.wanted = null;
  }
}
