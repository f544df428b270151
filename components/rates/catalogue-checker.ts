import { hasErrors } from '../../src/documents/problem.js';
import type { Rates } from '../../src/documents/rates.js';
import type { CatalogueDraft } from '../../src/store/catalogue-draft.js';
import { checkDraft, type PlacedProblem } from './catalogue-checks.js';

/** What a check has found. */
export interface Checked {
  readonly draft: CatalogueDraft;
  readonly problems: readonly PlacedProblem[];
  /** No errors: the catalogue can be used. */
  readonly usable: boolean;
}

/** Begins when the person pauses this long, in milliseconds. */
const PAUSE = 200;
/** Works at most this long at a stretch, so that a key is never kept waiting for more than it. */
const STRETCH = 10;

/**
 * Checks a draft while the person goes on: after a pause, in short stretches, and from the start again when it changes.
 * On the page's own thread, since a strict policy lets no worker begin.
 */
export class CatalogueChecker {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private asked: { readonly draft: CatalogueDraft; readonly rates: Rates | null } | null = null;

  constructor(private readonly done: (checked: Checked) => void) {}

  /** Asks for a check, unless the same was asked for already. */
  ask(draft: CatalogueDraft, rates: Rates | null, pause = PAUSE): void {
    if (this.asked?.draft === draft && this.asked.rates === rates) return;
    this.asked = { draft, rates };
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.work(draft, checkDraft(draft, rates), []), pause);
  }

  /** Ends without an answer; the next `ask` begins anew. */
  stop(): void {
    clearTimeout(this.timer);
    this.asked = null;
  }

  private work(draft: CatalogueDraft, pieces: Generator<PlacedProblem[], void>, found: PlacedProblem[]): void {
    const until = performance.now() + STRETCH;
    do {
      const next = pieces.next();
      if (next.done) {
        this.done({ draft, problems: found, usable: !hasErrors(found) });
        return;
      }
      found.push(...next.value);
    } while (performance.now() < until);
    this.timer = setTimeout(() => this.work(draft, pieces, found));
  }
}
