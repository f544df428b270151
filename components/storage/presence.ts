/**
 * Which tab writes: one estimate open in two tabs of one browser. The first tab has it; another knows, reads, and may take
 * it over, which the first one hears at once. When the tab that has it is closed, one that waits gets it. The store
 * compares revisions besides, so even where nobody can be asked nothing is overwritten in silence.
 *
 * Web Locks do this where they are (pages over https); pages over plain http have none and ask each other over a
 * BroadcastChannel instead.
 */

/** `asking`: not known yet; `here`: this tab may write; `elsewhere`: another has it, this one reads. */
export type PresenceState = 'asking' | 'here' | 'elsewhere';

export interface Presence {
  readonly state: PresenceState;
  /** Makes this the tab that writes; read the text anew before going on. */
  takeOver(): void;
  /** Lets it go: a tab that waits gets it. */
  close(): void;
}

export interface PresenceOptions {
  /** Null: there are none. */
  readonly locks?: LockManager | null;
  /** Null: there is none. */
  readonly openChannel?: ((name: string) => BroadcastChannel) | null;
  /** How long an answer of another tab is waited for, in milliseconds. */
  readonly patience?: number;
}

/**
 * Takes part in the question which tab has `name` (such as `estimate 1042`), until `close`. `hear` is told every state
 * that follows `asking`. Pages that the browser keeps for "back" let go and ask again when they are shown.
 */
export function openPresence(name: string, hear: (state: PresenceState) => void, options: PresenceOptions = {}): Presence {
  const { locks = globalThis.navigator?.locks ?? null, openChannel = channelOpener(), patience = 300 } = options;
  const topic = `baysheet-presence:${name}`;
  const enter = (tell: (state: PresenceState) => void): Part => {
    if (locks !== null) return new ByLock(locks, topic, tell);
    if (openChannel !== null) return new ByTalk(openChannel(topic), patience, tell);
    return alone(tell);
  };
  return new OpenPresence(enter, hear);
}

function channelOpener(): ((name: string) => BroadcastChannel) | null {
  return typeof BroadcastChannel === 'undefined' ? null : (name) => new BroadcastChannel(name);
}

/** One stay among the tabs, from entering to leaving. */
interface Part {
  take(): void;
  leave(): void;
}

class OpenPresence implements Presence {
  state: PresenceState = 'asking';
  private part: Part | null;

  constructor(
    private readonly enter: (tell: (state: PresenceState) => void) => Part,
    private readonly hear: (state: PresenceState) => void,
  ) {
    this.part = enter(this.tell);
    globalThis.addEventListener?.('pagehide', this.leave);
    globalThis.addEventListener?.('pageshow', this.comeBack);
  }

  takeOver(): void {
    this.part?.take();
  }

  close(): void {
    globalThis.removeEventListener?.('pagehide', this.leave);
    globalThis.removeEventListener?.('pageshow', this.comeBack);
    this.leave();
  }

  private readonly tell = (state: PresenceState): void => {
    if (state === this.state) return;
    this.state = state;
    this.hear(state);
  };

  private readonly leave = (): void => {
    this.part?.leave();
    this.part = null;
  };

  private readonly comeBack = (): void => {
    if (this.part !== null) return;
    this.state = 'asking';
    this.part = this.enter(this.tell);
  };
}

/** Nobody can be asked. */
function alone(tell: (state: PresenceState) => void): Part {
  queueMicrotask(() => tell('here'));
  return { take: () => tell('here'), leave: () => undefined };
}

/** Whoever holds the lock has it. */
class ByLock implements Part {
  /** Ends the hold; null while it is not held. */
  private release: (() => void) | null = null;
  private waiting = new AbortController();
  private hasLeft = false;

  constructor(
    private readonly locks: LockManager,
    private readonly topic: string,
    private readonly tell: (state: PresenceState) => void,
  ) {
    void this.request({ ifAvailable: true });
  }

  take(): void {
    if (this.release !== null || this.hasLeft) return;
    this.waiting.abort();
    void this.request({ steal: true });
  }

  leave(): void {
    this.hasLeft = true;
    this.waiting.abort();
    this.release?.();
  }

  private async request(options: LockOptions): Promise<void> {
    try {
      await this.locks.request(this.topic, options, (lock) => (lock === null ? undefined : this.hold()));
    } catch (error) {
      if (options.signal?.aborted) return;
      // Aborted: another tab has taken it. Anything else: this page may not ask.
      if (!(error instanceof Error && error.name === 'AbortError')) {
        this.tell('here');
        return;
      }
    }
    this.release = null;
    if (this.hasLeft) return;
    this.tell('elsewhere');
    this.waiting = new AbortController();
    void this.request({ signal: this.waiting.signal });
  }

  private hold(): Promise<void> | undefined {
    if (this.hasLeft) return undefined;
    return new Promise((resolve) => {
      this.release = resolve;
      this.tell('here');
    });
  }
}

/** What tabs say: `who` asks, `here` answers and claims, `gone` leaves. The higher claim counts, between equals the lower tab. */
type Said = { readonly say: 'who' } | { readonly say: 'gone' } | { readonly say: 'here'; readonly claim: number; readonly tab: string };

/** Questions without an answer after which the other tab counts as gone. A frozen tab does not answer. */
const UNANSWERED = 3;

/** By asking: whoever has the highest claim has it. */
class ByTalk implements Part {
  private readonly tab = Array.from(crypto.getRandomValues(new Uint8Array(8)), (byte) => byte.toString(16).padStart(2, '0')).join('');
  /** This tab's claim while it has it, else 0. */
  private claim = 0;
  private highest = 0;
  private unanswered = 0;
  private timer: ReturnType<typeof setTimeout>;

  constructor(
    private readonly channel: BroadcastChannel,
    private readonly patience: number,
    private readonly tell: (state: PresenceState) => void,
  ) {
    channel.onmessage = ({ data }: MessageEvent<Said>) => this.listen(data);
    this.say({ say: 'who' });
    // The first time one question must do: an estimate that is opened shall not wait.
    this.timer = setTimeout(() => this.take(), patience);
  }

  take(): void {
    if (this.claim > 0) return;
    clearTimeout(this.timer);
    this.highest += 1;
    this.claim = this.highest;
    this.say(this.mine());
    this.tell('here');
  }

  leave(): void {
    clearTimeout(this.timer);
    if (this.claim > 0) this.say({ say: 'gone' });
    this.channel.close();
  }

  private listen(said: Said): void {
    if (said.say === 'gone') {
      if (this.claim === 0) this.take();
    } else if (said.say === 'who') {
      if (this.claim > 0) this.say(this.mine());
    } else {
      this.highest = Math.max(this.highest, said.claim);
      const isMine = this.claim > said.claim || (this.claim === said.claim && this.tab < said.tab);
      if (isMine) this.say(this.mine());
      else this.stepBack();
    }
  }

  private stepBack(): void {
    this.claim = 0;
    this.unanswered = 0;
    this.tell('elsewhere');
    clearTimeout(this.timer);
    this.timer = setTimeout(this.ask, 3 * this.patience);
  }

  private readonly ask = (): void => {
    if (this.unanswered >= UNANSWERED) {
      this.take();
      return;
    }
    this.unanswered += 1;
    this.say({ say: 'who' });
    this.timer = setTimeout(this.ask, this.patience);
  };

  private mine(): Said {
    return { say: 'here', claim: this.claim, tab: this.tab };
  }

  private say(said: Said): void {
    this.channel.postMessage(said);
  }
}
