import { type Kept, type KeptStore, StorageFault } from '../storage/port.js';

/** How it stands with the saving of one estimate. */
export type Saving =
  /** Nothing was changed since it was read. */
  | { readonly is: 'unchanged' }
  | { readonly is: 'saving' }
  | { readonly is: 'saved'; readonly at: Date }
  /** Not saved, and tried again: with the next change, after a while, when the network is back. */
  | { readonly is: 'failed'; readonly fault: StorageFault }
  /** Somebody else has put another text meanwhile (null: has removed it). Nothing is put until a person has decided. */
  | { readonly is: 'conflict'; readonly current: Kept | null };

interface Draft {
  readonly text: string;
  readonly about: string;
}

/** How long to wait before the next try, in milliseconds; the last one from then on. */
const PAUSES = [1_000, 2_000, 4_000, 8_000, 15_000];

/** Revisions of its own that a queue knows again. */
const MOST_OWN = 100;

/** Texts of which nobody knows whether they were kept that are remembered. */
const MOST_UNKNOWN = 20;

/**
 * Puts the states of one estimate: one is on its way, the latest waits, those between are left out. What was not kept
 * stays here until it is.
 */
export class SaveQueue {
  saving: Saving = { is: 'unchanged' };
  private waiting: Draft | null = null;
  private running: Promise<void> | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private tries = 0;
  private stopped = false;
  private readonly own: string[] = [];
  /** Puts whose answer was lost: kept after all, they are no conflict. */
  private readonly unknown: string[] = [];

  /** @param revision at which it was read; null: nothing is kept under this id as far as is known */
  constructor(
    private readonly store: KeptStore,
    readonly id: string,
    public revision: string | null,
    private readonly hear: () => void,
  ) {}

  /** Whether everything is kept that was put. */
  get isClean(): boolean {
    return this.waiting === null && this.running === null;
  }

  /** Whether a revision is one that this queue has put. */
  isOwn(revision: string): boolean {
    return this.own.includes(revision);
  }

  put(text: string, about: string): void {
    if (this.stopped) return;
    this.waiting = { text, about };
    this.tries = 0;
    if (this.saving.is !== 'conflict') this.run();
  }

  /** Tries again now what was not kept. */
  retry(): void {
    if (this.waiting !== null && this.saving.is === 'failed') this.run();
  }

  /** Settles when nothing is on its way any more, kept or not. */
  async settled(): Promise<void> {
    while (this.running !== null) await this.running;
  }

  /** Ends a conflict: what waits is put over `revision`. */
  putOver(revision: string | null): void {
    this.revision = revision;
    this.tell({ is: 'saving' });
    this.run();
  }

  /** What is kept at `revision` counts from now on; what waits is forgotten. */
  goOnFrom(revision: string | null): void {
    this.waiting = null;
    clearTimeout(this.timer);
    this.revision = revision;
    this.tell({ is: 'unchanged' });
  }

  /** Nothing more is begun; what is on its way arrives. */
  stop(): void {
    this.stopped = true;
    clearTimeout(this.timer);
  }

  private run(): void {
    if (this.running !== null) return;
    clearTimeout(this.timer);
    this.running = this.putAll().finally(() => {
      this.running = null;
      this.hear();
    });
  }

  private async putAll(): Promise<void> {
    while (this.waiting !== null) {
      const next = this.waiting;
      this.waiting = null;
      if (this.saving.is !== 'failed') this.tell({ is: 'saving' });
      try {
        const put = await this.store.put('estimate', this.id, next.text, this.revision, next.about);
        if (put.ok) this.kept(put.revision);
        else if (put.current !== null && this.unknown.includes(put.current.text)) {
          this.revision = put.current.revision;
          this.waiting ??= next;
        } else {
          this.waiting ??= next;
          this.tell({ is: 'conflict', current: put.current });
          return;
        }
      } catch (fault) {
        this.waiting ??= next;
        this.failed(fault, next.text);
        return;
      }
    }
  }

  private kept(revision: string): void {
    this.revision = revision;
    this.own.push(revision);
    if (this.own.length > MOST_OWN) this.own.shift();
    this.tries = 0;
    this.unknown.length = 0;
    this.tell({ is: 'saved', at: new Date() });
  }

  private failed(reason: unknown, text: string): void {
    const fault =
      reason instanceof StorageFault
        ? reason
        : new StorageFault('fault', reason instanceof Error ? reason.message : String(reason), { cause: reason });
    this.unknown.push(text);
    if (this.unknown.length > MOST_UNKNOWN) this.unknown.shift();
    this.tell({ is: 'failed', fault });
    if (this.stopped) return;
    const pause = PAUSES[Math.min(this.tries, PAUSES.length - 1)]!;
    this.tries += 1;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.retry(), pause);
  }

  private tell(saving: Saving): void {
    this.saving = saving;
    this.hear();
  }
}
