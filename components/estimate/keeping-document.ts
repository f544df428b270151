import type { Kept, KeptChange, KeptStore } from '../storage/port.js';
import { openPresence, type Presence, type PresenceState } from '../storage/presence.js';
import { SaveQueue } from './keeping-queue.js';

/** What the sheet is told of the estimate that it has open. */
export interface DocumentEvents {
  /** Something about it is another; look at it again. */
  changed(): void;
  /** Another text is kept under its id than the one on the screen, and nothing of this sheet is in its way. */
  show(kept: Kept): void;
  /** Another tab has taken over: what is being typed is to be entered now. */
  leaving(): void;
  /** It could not be read again. */
  failed(fault: unknown): void;
}

/** One estimate that a sheet has open in a store: who may write, what is saved, what others do to it. */
export class KeptDocument {
  readonly queue: SaveQueue;
  /** This sheet had it until another tab took it over. */
  wasTakenOver = false;
  /** Somebody has removed it from the store; what is on the screen is all there is. */
  wasRemoved = false;
  private presence: PresenceState = 'asking';
  /** Until it is read what the other tab has left. */
  private takingOver = false;
  private closed = false;
  private readonly tabs: Presence;

  constructor(
    private readonly store: KeptStore,
    readonly id: string,
    revision: string | null,
    private readonly events: DocumentEvents,
  ) {
    this.queue = new SaveQueue(store, id, revision, () => this.tell());
    this.tabs = openPresence(`estimate ${id}`, (state) => void this.onPresence(state));
  }

  /** Whether this sheet may change it. */
  get canWrite(): boolean {
    return this.presence === 'here' && !this.takingOver;
  }

  get isElsewhere(): boolean {
    return this.presence === 'elsewhere';
  }

  /** Makes this the sheet that writes; the other one is told. */
  takeOver(): void {
    this.tabs.takeOver();
  }

  /** Hears what became of estimates in the store. */
  async heard({ id, entry }: KeptChange): Promise<void> {
    if (id !== this.id) return;
    await this.queue.settled();
    if (this.closed || (entry !== null && this.queue.isOwn(entry.revision))) return;
    await this.readAgain();
  }

  /** Ends it; what is on its way arrives. */
  async close(): Promise<void> {
    this.closed = true;
    await this.queue.settled();
    this.queue.stop();
    this.tabs.close();
  }

  private async onPresence(state: PresenceState): Promise<void> {
    const before = this.presence;
    if (state === 'elsewhere' && before === 'here') {
      this.events.leaving();
      this.wasTakenOver = true;
    }
    this.presence = state;
    if (state === 'here' && before !== 'asking') {
      this.wasTakenOver = false;
      this.takingOver = true;
      await this.readAgain();
      this.takingOver = false;
    } else if (state === 'elsewhere') {
      await this.queue.settled();
      await this.readAgain();
    }
    this.tell();
  }

  private async readAgain(): Promise<void> {
    try {
      const kept = await this.store.get('estimate', this.id);
      if (this.closed || !this.queue.isClean || (kept?.revision ?? null) === this.queue.revision) return;
      this.wasRemoved = kept === null;
      this.queue.goOnFrom(kept?.revision ?? null);
      if (kept !== null) this.events.show(kept);
    } catch (fault) {
      if (!this.closed) this.events.failed(fault);
    }
    this.tell();
  }

  private tell(): void {
    if (!this.closed) this.events.changed();
  }
}
