/** A backup read, and put back beside what is kept: nothing that differs is overwritten unless somebody has chosen so. */
import { BACKUP_FORMAT, BACKUP_VERSION, type BackupEntry, type UnreadableEntry } from './backup.js';
import { checkKeepable, KEPT_KINDS } from './keepable.js';
import { type Kept, type KeptStore, StorageFault } from './port.js';

/** What is wrong with a backup; `path` is the place in the file, such as `entries[3].text`. */
export interface BackupProblem {
  readonly path: string;
  readonly message: string;
}

export interface ReadBackup {
  /** What can be put back, in an order in which nothing refers to what comes later. */
  readonly entries: readonly BackupEntry[];
  /** What could not be read when the backup was made. */
  readonly unreadable: readonly UnreadableEntry[];
  /** All of them at once; entries that have one are left out, the others can be put back. */
  readonly problems: readonly BackupProblem[];
}

/** Reads a backup from the text of its file. It never throws. */
export function readBackup(text: string): ReadBackup {
  const nothing = (message: string): ReadBackup => ({ entries: [], unreadable: [], problems: [{ path: '', message }] });
  let file: { format?: unknown; version?: unknown; entries?: unknown; unreadable?: unknown } | null;
  try {
    file = JSON.parse(text.replace(/^\uFEFF/, '')) as typeof file;
  } catch (fault) {
    return nothing(`This file is no JSON, or was cut short: ${(fault as Error).message}. Choose a backup that was saved whole.`);
  }
  if (file?.format !== BACKUP_FORMAT)
    return nothing('This file is no backup of a store. A backup begins with {"format":"baysheet-backup".');
  if (typeof file.version !== 'number' || file.version > BACKUP_VERSION) {
    return nothing(
      `This backup is of ${typeof file.version === 'number' ? `version ${file.version}` : 'no version that can be read'}, and this page reads version ${BACKUP_VERSION}. Reload the page to get its newest version.`,
    );
  }
  if (!Array.isArray(file.entries)) return nothing('This backup holds no list of entries. Choose another one.');
  const { entries, problems } = readEntries(file.entries);
  const unreadable = Array.isArray(file.unreadable) ? (file.unreadable as UnreadableEntry[]) : [];
  entries.sort((a, b) => KEPT_KINDS.indexOf(a.kind) - KEPT_KINDS.indexOf(b.kind));
  return { entries, unreadable, problems };
}

function readEntries(values: readonly unknown[]): { entries: BackupEntry[]; problems: BackupProblem[] } {
  const entries: BackupEntry[] = [];
  const problems: BackupProblem[] = [];
  const seen = new Map<string, number>();
  for (const [i, value] of values.entries()) {
    const path = `entries[${i}]`;
    const { kind, id, about, text } = (value ?? {}) as Partial<BackupEntry>;
    const missing = Object.entries({ kind, id, about, text })
      .filter(([, word]) => typeof word !== 'string')
      .map(([name]) => name);
    for (const name of missing) problems.push({ path: `${path}.${name}`, message: `“${name}” must be a text.` });
    if (missing.length > 0) continue;
    const entry = { kind, id, about, text } as BackupEntry;
    const before = seen.get(`${kind} ${id}`);
    if (before !== undefined) {
      problems.push({ path, message: `The ${kind} “${id}” is in the file twice; the one at entries[${before}] is taken.` });
      continue;
    }
    seen.set(`${kind} ${id}`, i);
    try {
      checkKeepable(entry.kind, entry.id, entry.text, entry.about);
      entries.push(entry);
    } catch (fault) {
      problems.push({ path, message: (fault as StorageFault).message });
    }
  }
  return { entries, problems };
}

/** What to do with a text of the backup where another one is kept. */
export type RestoreChoice = 'leave' | 'replace';

type Choose = (entry: BackupEntry, current: Kept | null) => RestoreChoice | Promise<RestoreChoice>;

export interface Restored {
  readonly added: readonly BackupEntry[];
  readonly replaced: readonly BackupEntry[];
  /** Kept exactly so already. */
  readonly same: readonly BackupEntry[];
  /** Another text is kept, and was left as it is. */
  readonly left: readonly BackupEntry[];
  /** Not put back, and why; after a fault of the store itself (no room, not allowed, away) the rest is not tried. */
  readonly failed: readonly { readonly entry: BackupEntry; readonly fault: StorageFault }[];
}

/** Which texts differ from what is kept, to be asked about before anything is put back. */
export async function compareBackup(
  store: KeptStore,
  entries: readonly BackupEntry[],
): Promise<{ entry: BackupEntry; current: Kept | null }[]> {
  const differing: { entry: BackupEntry; current: Kept | null }[] = [];
  for (const entry of entries) {
    const { current } = await find(store, entry);
    if (current !== null && !isSame(entry, current)) differing.push({ entry, current });
  }
  return differing;
}

/**
 * Puts a backup back. Where another text is kept `choose` says what to do with it; without it everything that is kept stays.
 * A kept text that cannot be read may be replaced too; `current` is null then.
 */
export async function restoreBackup(store: KeptStore, entries: readonly BackupEntry[], choose: Choose = () => 'leave'): Promise<Restored> {
  const done = { added: [] as BackupEntry[], replaced: [] as BackupEntry[], same: [] as BackupEntry[], left: [] as BackupEntry[] };
  const failed: { entry: BackupEntry; fault: StorageFault }[] = [];
  let stopped: StorageFault | null = null;
  for (const entry of entries) {
    try {
      if (stopped !== null) throw stopped;
      done[await restoreOne(store, entry, choose)].push(entry);
    } catch (error) {
      if (!(error instanceof StorageFault)) throw error;
      failed.push({ entry, fault: error });
      if (['full', 'denied', 'away', 'newer'].includes(error.code)) stopped = error;
    }
  }
  return { ...done, failed };
}

async function restoreOne(store: KeptStore, entry: BackupEntry, choose: Choose): Promise<'added' | 'replaced' | 'same' | 'left'> {
  // Another tab may put meanwhile: then what it has put is asked about.
  for (;;) {
    const { current, revision } = await find(store, entry);
    if (current !== null && isSame(entry, current)) return 'same';
    if (revision !== null && (await choose(entry, current)) === 'leave') return 'left';
    const result = await store.put(entry.kind, entry.id, entry.text, revision, entry.about);
    if (result.ok) return revision === null ? 'added' : 'replaced';
  }
}

/** What is kept; of one that cannot be read only the revision. */
async function find(store: KeptStore, { kind, id }: BackupEntry): Promise<{ current: Kept | null; revision: string | null }> {
  try {
    const current = await store.get(kind, id);
    return { current, revision: current?.revision ?? null };
  } catch (fault) {
    if (!(fault instanceof StorageFault && fault.code === 'corrupt')) throw fault;
    const entry = (await store.list(kind)).find((listed) => listed.id === id);
    return { current: null, revision: entry?.revision ?? null };
  }
}

function isSame(entry: BackupEntry, kept: Kept): boolean {
  return entry.text === kept.text && entry.about === kept.about;
}
