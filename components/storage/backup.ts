/**
 * The whole store as one file, `baysheet-backup` version 1: JSON, one text a line, by kind and id. It holds no times and no
 * revisions, so that a store that was filled from it gives the same file again, byte for byte.
 */
import { KEPT_KINDS } from './keepable.js';
import { type Kept, type KeptKind, type KeptStore, StorageFault } from './port.js';

export const BACKUP_FORMAT = 'baysheet-backup';
export const BACKUP_VERSION = 1;

export interface BackupEntry {
  readonly kind: KeptKind;
  readonly id: string;
  readonly about: string;
  readonly text: string;
}

/** What the store itself could not read, with what is left of it. */
export interface UnreadableEntry {
  readonly kind: KeptKind;
  readonly id: string;
  readonly why: string;
  /** What lies there, as JSON text; null where the store cannot tell. */
  readonly raw: string | null;
}

interface RawStore extends KeptStore {
  raw?(kind: KeptKind, id: string): Promise<string | null>;
}

/**
 * Writes a backup piece by piece, each text as it is read, so that not all of it must be in memory. Corrupt texts do not stop
 * it: they are listed at the end of the file. What is put meanwhile may be in it or not.
 *
 * @throws StorageFault where the store cannot be read at all
 */
export async function* writeBackup(store: KeptStore): AsyncGenerator<string> {
  yield `{"format":"${BACKUP_FORMAT}","version":${BACKUP_VERSION},"entries":[`;
  const unreadable: UnreadableEntry[] = [];
  let separator = '\n';
  for (const kind of KEPT_KINDS) {
    const ids = (await store.list(kind)).map(({ id }) => id);
    for (const id of ids.sort()) {
      const kept = await readOrNote(store, kind, id, unreadable);
      // Removed meanwhile, or noted.
      if (kept === null) continue;
      const entry: BackupEntry = { kind, id, about: kept.about, text: kept.text };
      yield `${separator}${JSON.stringify(entry)}`;
      separator = ',\n';
    }
  }
  yield `\n],"unreadable":${JSON.stringify(unreadable)}}\n`;
}

/** The backup as a file to offer. */
export async function backupFile(store: KeptStore): Promise<Blob> {
  const pieces: Blob[] = [];
  // A blob of each piece: browsers keep those on disk.
  for await (const piece of writeBackup(store)) pieces.push(new Blob([piece]));
  return new Blob(pieces, { type: 'application/json' });
}

async function readOrNote(store: RawStore, kind: KeptKind, id: string, unreadable: UnreadableEntry[]): Promise<Kept | null> {
  try {
    return await store.get(kind, id);
  } catch (fault) {
    if (!(fault instanceof StorageFault && ['corrupt', 'newer'].includes(fault.code))) throw fault;
    unreadable.push({ kind, id, why: fault.message, raw: (await store.raw?.(kind, id)) ?? null });
    return null;
  }
}
