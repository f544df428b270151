import type { KeptStore } from '../storage/port.js';
import type { KeptSheetHost } from './keeping-host.js';
import { lastOpen, openInHash } from './keeping-last.js';

export interface FirstOpeningTasks {
  /** Opens a kept estimate; false where there is none, or none that can be read. */
  read(id: string): Promise<boolean>;
  /** Whether an estimate is open, kept or not. */
  isOpen(): boolean;
  /** Whether something that is kept could not be read. */
  hasUnreadable(): boolean;
  /** Puts an empty estimate on the screen. */
  begin(): void;
}

/** What a sheet opens first: what the address or the page names, else what the page brings, else what was open last. */
export class FirstOpening {
  /** Until it is clear what to open; anything else that is opened meanwhile ends it. */
  private decision: object | null = null;
  /** Reads the estimate that the page names, once it is clear that nothing kept is to be opened instead. */
  private source: (() => void) | null = null;

  constructor(
    private readonly host: KeptSheetHost,
    private readonly tasks: FirstOpeningTasks,
  ) {}

  get isDecided(): boolean {
    return this.decision === null;
  }

  /** Reads the estimate that the page names, unless one that is kept is opened. */
  readSource(read: () => void): void {
    if (this.isDecided) read();
    else this.source = read;
  }

  /** Something else is opened. */
  end(): void {
    this.decision = null;
    this.source = null;
  }

  async decide(store: KeptStore): Promise<void> {
    const { host, tasks } = this;
    const decision = {};
    this.decision = decision;
    const isOver = (): boolean => this.decision !== decision;
    // The page may name what it brings right after the store.
    await Promise.resolve();
    const wanted = (host.idInHash ? openInHash() : null) ?? (host.estimateId || null);
    const opened = wanted !== null && (await tasks.read(wanted));
    if (!opened && !isOver() && this.source === null) await this.openLast(store, isOver);
    if (isOver()) return;
    const { source } = this;
    this.end();
    if (tasks.isOpen()) return;
    if (source === null) tasks.begin();
    else source();
  }

  private async openLast(store: KeptStore, isOver: () => boolean): Promise<void> {
    const last = lastOpen();
    if (last !== null && (await this.tasks.read(last))) return;
    if (this.tasks.hasUnreadable() || isOver()) return;
    const [newest] = await store.list('estimate').catch(() => []);
    if (newest !== undefined && !isOver()) await this.tasks.read(newest.id);
  }
}
