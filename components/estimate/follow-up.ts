import type { DeferralCost } from '../../src/pricing/deferral.js';
import type { PricedEstimate } from '../../src/pricing/priced-estimate.js';
import type { SheetView } from './context.js';
import { DeferralTask } from './deferral-task.js';

/** Up to so many lines the picture is drawn with every change; beyond, when the person pauses (milliseconds). */
const QUICK_LINES = 60;
const PICTURE_DELAY = 400;

/** What need not be on the screen with the keystroke: the picture of a long estimate, and what each line costs later. */
export class FollowUp {
  /** What the picture shows. */
  pictured: PricedEstimate | null = null;
  deferral: Record<string, DeferralCost> | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly later: DeferralTask;

  /** @param done called when there is something new to show */
  constructor(private readonly done: () => void) {
    this.later = new DeferralTask((costs) => {
      this.deferral = costs;
      done();
    });
  }

  start(view: SheetView): void {
    this.later.start(view.state.estimate, view.priced, view);
    if (this.pictured === view.priced) return;
    clearTimeout(this.timer);
    if (this.pictured === null || view.priced.lines.length <= QUICK_LINES) this.pictured = view.priced;
    else {
      this.timer = setTimeout(() => {
        this.pictured = view.priced;
        this.done();
      }, PICTURE_DELAY);
    }
  }

  stop(): void {
    this.later.stop();
    clearTimeout(this.timer);
  }
}
