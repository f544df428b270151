import type { Bucket } from './cluster-connection.js';
import { messagesAfter } from './cluster-messages.js';
import { entryFrom, idOf, readCopy } from './cluster-versions.js';
import type { KeptChange, KeptKind } from './port.js';

/** Listens to one kind until it is ended; where listening breaks off it goes on after what was heard last. */
export class ClusterWatch {
  /** Settles when changes are heard from now on; also when that could not be. */
  readonly started: Promise<void>;
  private isEnded = false;
  private stop: () => void = () => undefined;
  /** Sequence of the last change before or while this listens; null: not known yet. */
  private last: number | null = null;
  /** Of each text the last version that was told: a copy that lags is not. */
  private readonly told = new Map<string, number>();

  constructor(
    private readonly kind: KeptKind,
    private readonly bucket: () => Promise<Bucket>,
    private readonly tell: (change: KeptChange) => void,
  ) {
    this.started = new Promise((resolve) => void this.listen(resolve));
  }

  end(): void {
    this.isEnded = true;
    this.stop();
  }

  private async listen(started: () => void): Promise<void> {
    while (!this.isEnded) {
      try {
        const bucket = await this.bucket();
        this.last ??= (await bucket.manager.streams.info(`KV_${bucket.name}`)).state.last_seq;
        const begin = (stop: () => void): void => {
          this.stop = stop;
          if (this.isEnded) stop();
          started();
        };
        for await (const { key, text, sequence } of messagesAfter(bucket, `${this.kind}.*`, this.last, begin)) {
          this.last = sequence;
          if (!this.isEnded) await this.hear(bucket, key, text);
        }
      } catch {
        started();
      }
      if (!this.isEnded) await new Promise((resolve) => setTimeout(resolve, 250));
    }
  }

  private async hear(bucket: Bucket, key: string, json: string): Promise<void> {
    const { kind } = this;
    const id = idOf(key);
    const version = await readCopy(bucket, kind, id, json);
    if (version.n <= (this.told.get(id) ?? 0)) return;
    this.told.set(id, version.n);
    this.tell({ kind, id, entry: version.text === null ? null : entryFrom(kind, id, version) });
  }
}
