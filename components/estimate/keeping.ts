import type { ReactiveController } from 'lit';
import type { Estimate } from '../../src/documents/estimate.js';
import type { Kept, KeptStore } from '../storage/port.js';
import { aboutOf, printAbout } from './keeping-about.js';
import { wordsOf } from './keeping-fault.js';
import { KeptDocument } from './keeping-document.js';
import { copyOf } from './keeping-duplicate.js';
import { FirstOpening } from './keeping-first.js';
import type { KeepingTasks, KeptSheetHost } from './keeping-host.js';
import { openInHash, rememberOpen, writeHash } from './keeping-last.js';
import type { Saving } from './keeping-queue.js';
import { isBrowserStore, isCorrupt, lookInto, readSame, sheetOf, type Unreadable } from './keeping-read.js';
import { Recovered } from './keeping-recovered.js';
import { keptText, readKept } from './keeping-text.js';
import { savingWords } from './keeping-words.js';
import { Typing } from './keeping-typing.js';

/** What is known of the saving, for the words on the screen. */
export type KeepingState = { readonly is: 'off' | 'opening' } | { readonly is: 'reading'; readonly wasTakenOver: boolean } | Saving;

/**
 * Keeps the estimate of a sheet in its store: every change at once, also what stands in an open field; opens it again
 * after a reload; lets one tab write and the others read; never puts over what somebody else has put, without a person
 * who decides.
 */
export class Keeping implements ReactiveController {
  store: KeptStore | null = null;
  /** Why something that is kept could not be opened. */
  unreadable: Unreadable | null = null;
  /** When the estimate on the screen was saved last; null where it never was. */
  savedAt: Date | null = null;
  readonly recovered: Recovered;
  private document: KeptDocument | null = null;
  private readonly typing: Typing;
  private readonly first: FirstOpening;
  private unwatch: (() => void) | null = null;
  /** Raised with each opening: what comes back for an earlier one is of no use any more. */
  private turn = 0;
  /** What was put last, or read. */
  private lastText = '';
  private lastWords = '';
  /** What is on the screen is to be saved as soon as this tab may write. */
  private saveWhenOpen = false;
  /** What was open when the sheet was taken off the page. */
  private left: { readonly id: string; readonly revision: string | null } | null = null;

  constructor(
    private readonly host: KeptSheetHost,
    private readonly desk: KeepingTasks,
  ) {
    this.typing = new Typing(host, { typed: () => this.save(), refuses: () => this.refuses() });
    this.recovered = new Recovered(host, desk, () => {
      this.save();
      host.requestUpdate();
    });
    this.first = new FirstOpening(host, {
      read: (id) => this.read(id),
      isOpen: () => this.document !== null,
      hasUnreadable: () => this.unreadable !== null,
      begin: () => desk.begin(),
    });
    host.addController(this);
  }

  hostConnected(): void {
    this.typing.listen();
    window.addEventListener('pagehide', this.flush);
    window.addEventListener('online', this.flush);
    window.addEventListener('hashchange', this.onHash);
    window.addEventListener('beforeunload', this.onLeaving);
    document.addEventListener('visibilitychange', this.flush);
    if (this.store !== null && this.unwatch === null) this.start(this.store);
  }

  hostDisconnected(): void {
    this.typing.unlisten();
    window.removeEventListener('pagehide', this.flush);
    window.removeEventListener('online', this.flush);
    window.removeEventListener('hashchange', this.onHash);
    window.removeEventListener('beforeunload', this.onLeaving);
    document.removeEventListener('visibilitychange', this.flush);
    this.end();
  }

  // What the sheet tells

  /** The store to keep in; null keeps nothing. */
  use(store: KeptStore | null): void {
    if (store === this.store) return;
    this.end();
    this.store = store;
    if (store !== null && this.host.isConnected) this.start(store);
  }

  /** Reads the estimate that the page names, unless one that is kept is opened. */
  readSource(read: () => void): void {
    this.first.readSource(read);
  }

  /** Whether an empty estimate may be begun where there is none. */
  get mayBegin(): boolean {
    return this.first.isDecided;
  }

  /** Another estimate is on the screen: `given` by the page's program, read from the `source` that the page names, or a `new` one. */
  brought(from: 'given' | 'source' | 'new'): void {
    const state = this.desk.state();
    if (this.store === null || state === null) return;
    this.first.end();
    void this.adopt(state.estimate, from);
  }

  /** A person has changed the sheet. */
  changed(): void {
    const state = this.desk.state();
    if (this.store === null || state === null) return;
    this.typing.look();
    if (state.estimate.id === this.document?.id) this.save();
    else void this.adopt(state.estimate, 'mine');
  }

  /** Whether the sheet may only be read; says so to whoever tried to change it. */
  refuses(): boolean {
    if (!this.isReading) return false;
    this.desk.announce(
      this.document?.isElsewhere
        ? 'This estimate is open in another tab, so it can only be read here. Take over to change it.'
        : 'The estimate is still being opened. Try again in a moment.',
    );
    return true;
  }

  get isReading(): boolean {
    return this.store !== null && this.desk.state() !== null && !this.document?.canWrite;
  }

  // What the screen shows

  get state(): KeepingState {
    const { document } = this;
    if (this.store === null) return { is: 'off' };
    if (document === null) return { is: 'opening' };
    const { saving } = document.queue;
    if (saving.is === 'conflict' || saving.is === 'failed') return saving;
    if (document.isElsewhere) return { is: 'reading', wasTakenOver: document.wasTakenOver };
    return saving;
  }

  /** Whether it is kept in this browser and not somewhere else. */
  get isInBrowser(): boolean {
    return isBrowserStore(this.store);
  }

  get wasRemoved(): boolean {
    return this.document?.wasRemoved ?? false;
  }

  // What a person does

  takeOver(): void {
    this.document?.takeOver();
  }

  retry(): void {
    this.document?.queue.retry();
  }

  /** Opens a kept estimate. False where there is none, or none that can be read; `unreadable` says why. */
  open(id: string): Promise<boolean> {
    this.first.end();
    return this.read(id);
  }

  /** Begins another estimate: an empty one, or this one. */
  begin(estimate?: Estimate): void {
    this.first.end();
    this.unreadable = null;
    if (estimate === undefined) this.desk.begin();
    else this.desk.show({ estimate, pending: new Map() });
    const begun = this.desk.state()?.estimate;
    if (begun !== undefined) void this.adopt(begun, estimate === undefined ? 'new' : 'mine');
  }

  /** Ends a conflict. `mine` is put over the other, `theirs` takes the place of mine (undo brings mine back), `copy` keeps both. */
  resolve(choice: 'mine' | 'theirs' | 'copy'): void {
    const state = this.desk.state();
    const { document } = this;
    if (state === null || document === null) return;
    if (choice === 'copy') this.begin(copyOf(state.estimate));
    if (document.queue.saving.is !== 'conflict') return;
    const { current } = document.queue.saving;
    if (choice === 'mine') document.queue.putOver(current?.revision ?? null);
    else if (choice === 'theirs' && current !== null) {
      const theirs = readKept(current.text);
      if (!theirs.ok) return;
      document.queue.goOnFrom(current.revision);
      this.savedAt = new Date(current.savedAt);
      this.desk.commit([{ do: 'set-estimate', estimate: theirs.value.estimate }], 'taking the other version');
    }
    this.host.requestUpdate();
  }

  forgetUnreadable(): void {
    this.unreadable = null;
    this.host.requestUpdate();
  }

  // Opening

  private start(store: KeptStore): void {
    this.unwatch = store.watch('estimate', (change) => void this.document?.heard(change));
    const state = this.desk.state();
    if (state === null) void this.first.decide(store);
    else void this.adopt(state.estimate, 'given');
  }

  private end(): void {
    this.turn += 1;
    this.first.end();
    this.unwatch?.();
    this.unwatch = null;
    this.left = this.document === null ? null : { id: this.document.id, revision: this.document.queue.revision };
    void this.document?.close();
    this.document = null;
  }

  private async read(id: string): Promise<boolean> {
    const { store } = this;
    if (store === null) return false;
    const turn = (this.turn += 1);
    this.unreadable = null;
    try {
      const kept = await store.get('estimate', id);
      return kept !== null && turn === this.turn && this.showKept(kept, store);
    } catch (fault) {
      const unreadable = await lookInto(store, id, fault);
      if (turn === this.turn) this.unreadable = unreadable;
      return false;
    } finally {
      this.host.requestUpdate();
    }
  }

  /**
   * Looks up what is kept under the id of the estimate on the screen. What is kept goes before what the page names as a `source`.
   * One that is `given` stays on the screen; if something else is kept, the first change asks. `mine` is put at once, and
   * asks at once. A `new` one is kept with the first change.
   */
  private async adopt(estimate: Estimate, as: 'given' | 'source' | 'new' | 'mine'): Promise<void> {
    const { store } = this;
    if (store === null) return;
    const turn = (this.turn += 1);
    void this.document?.close();
    this.document = null;
    this.unreadable = null;
    let kept: Kept | null = null;
    try {
      kept = await store.get('estimate', estimate.id);
    } catch (fault) {
      // What keeps it from being read keeps it from being put over, too: the first put says so.
      if (turn === this.turn && isCorrupt(fault)) this.unreadable = await lookInto(store, estimate.id, fault);
    }
    if (turn !== this.turn) return;
    if (kept !== null && as === 'source' && this.showKept(kept, store)) return;
    // Taken off the page and put back, the sheet may be ahead of what is kept.
    const isOurs = kept !== null && this.left?.id === kept.id && this.left.revision === kept.revision;
    const same = kept === null ? null : readSame(kept.text, estimate);
    if (same !== null && !isOurs) {
      this.recovered.texts = same.typed;
      if (same.pending.size > 0 && this.desk.state()?.pending.size === 0) this.desk.show(same);
    } else if (!isOurs) this.recovered.texts = [];
    this.opened(store, estimate.id, isOurs || same !== null ? kept : null);
    this.saveWhenOpen = as === 'mine' || (as === 'source' && this.unreadable === null) || isOurs;
  }

  private showKept(kept: Kept, store: KeptStore): boolean {
    const sheet = sheetOf(kept);
    if ('why' in sheet) {
      this.unreadable = sheet;
      return false;
    }
    void this.document?.close();
    this.desk.show(sheet);
    this.recovered.texts = sheet.typed;
    this.opened(store, kept.id, kept);
    return true;
  }

  private opened(store: KeptStore, id: string, kept: Kept | null): void {
    this.savedAt = kept === null ? null : new Date(kept.savedAt);
    this.lastText = kept?.text ?? '';
    this.typing.forget();
    this.saveWhenOpen = false;
    this.document = new KeptDocument(store, id, kept?.revision ?? null, {
      changed: () => this.onDocument(),
      show: (newer) => this.follow(newer),
      leaving: () => this.typing.stop(),
      failed: (fault) => this.desk.announce(`What is kept could not be read again. ${wordsOf(fault)}`),
    });
    rememberOpen(id);
    if (this.host.idInHash) writeHash(id);
    this.host.requestUpdate();
  }

  /** Shows what somebody else has saved, or what lay there before this tab took over. */
  private follow(kept: Kept): void {
    const sheet = sheetOf(kept);
    if ('why' in sheet) {
      this.unreadable = sheet;
      return;
    }
    this.savedAt = new Date(kept.savedAt);
    this.lastText = kept.text;
    this.recovered.texts = sheet.typed;
    this.desk.show(sheet);
  }

  private onDocument(): void {
    const saving = this.document?.queue.saving;
    if (saving?.is === 'saved') this.savedAt = saving.at;
    if (this.saveWhenOpen && this.document?.canWrite) {
      this.saveWhenOpen = false;
      this.save();
    }
    const words = `${savingWords(this, 'en')} ${this.isReading} ${this.wasRemoved}`;
    // Each key that is typed is saved: the sheet is not to be painted for it.
    if (words !== this.lastWords) this.host.requestUpdate();
    this.lastWords = words;
  }

  // Saving

  private save(): void {
    const state = this.desk.state();
    const { document } = this;
    if (state === null || document === null || state.estimate.id !== document.id || !document.canWrite) return;
    const typed = this.typing.open === null ? this.recovered.texts : [...this.recovered.texts, this.typing.open];
    const text = keptText(state, typed);
    if (text === this.lastText) return;
    this.lastText = text;
    document.queue.put(text, printAbout(aboutOf(state.estimate, this.desk.priced())));
  }

  private readonly flush = (): void => this.retry();

  private readonly onLeaving = (event: BeforeUnloadEvent): void => {
    if (this.document !== null && !this.document.queue.isClean) event.preventDefault();
  };

  private readonly onHash = (): void => {
    const id = this.host.idInHash ? openInHash() : null;
    if (id !== null && id !== this.document?.id && this.store !== null) void this.open(id);
  };
}
