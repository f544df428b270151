/** The database in the browser: how it is opened, and what its faults mean in words. */
import { type IDBPDatabase, openDB } from 'idb';
import { StorageFault } from './port.js';

/** Raised when the shape of the database changes; `upgrade` then leads from every earlier one to it. */
export const DATABASE_VERSION = 1;

/** What is listed, by `[kind, id]`. */
export const ENTRIES = 'entries';
/** The texts, by `[kind, id]`; apart, so that a list reads no photos. */
export const TEXTS = 'texts';

export type Database = IDBPDatabase<unknown>;

/** What opening hears: the connection is of no use any more, and why. */
export type Lost = (why: 'newer' | 'gone') => void;

/**
 * Opens the database. An older page that keeps it from being upgraded is told to let go; one that does not is named.
 *
 * @throws StorageFault `denied`, `newer`, `full`, `away` (another tab is in the way) or `fault`
 */
export async function openDatabase(name: string, lost: Lost, version = DATABASE_VERSION): Promise<Database> {
  if (typeof indexedDB === 'undefined') throw denied();
  let database: Promise<Database> | undefined;
  try {
    return await new Promise((resolve, reject) => {
      database = openDB(name, version, {
        upgrade(db, before) {
          if (before < 1) {
            db.createObjectStore(ENTRIES);
            db.createObjectStore(TEXTS);
          }
        },
        blocked: () => reject(blockedByOlder()),
        blocking: (_current, wanted, event) => {
          // Null: the database is being deleted, as by "clear site data".
          (event.target as IDBDatabase).close();
          lost(wanted === null ? 'gone' : 'newer');
        },
        terminated: () => lost('gone'),
      });
      database.then(resolve, reject);
    });
  } catch (error) {
    // It may still open, when the other tab has gone; by then somebody has asked anew.
    void database?.then(
      (late) => late.close(),
      () => undefined,
    );
    throw openingFault(error);
  }
}

function openingFault(error: unknown): StorageFault {
  switch (nameOf(error)) {
    case 'VersionError':
      return newer();
    case 'QuotaExceededError':
      return full('Nothing could be opened');
    // The last is what Firefox says in a private window.
    case 'SecurityError':
    case 'NotAllowedError':
    case 'InvalidStateError':
      return denied(error);
    default:
      return asStorageFault(error, 'The browser’s storage cannot be opened');
  }
}

/** A fault of reading or writing; `what` begins its message: “The estimate “7” was not saved”. */
export function asStorageFault(error: unknown, what: string): StorageFault {
  if (error instanceof StorageFault) return error;
  if (nameOf(error) === 'QuotaExceededError') return full(what, error);
  const reason = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  return new StorageFault(
    'fault',
    `${what}. The browser says: ${reason}. Reload the page and try again; if it stays so, save the work as a file.`,
    { cause: error },
  );
}

/** The connection went away under the code, as on a phone that was asleep: worth one more try. */
export function isLostConnection(error: unknown): boolean {
  return ['InvalidStateError', 'UnknownError', 'AbortError'].includes(nameOf(error));
}

export function newer(): StorageFault {
  return new StorageFault(
    'newer',
    'A newer version of this page has taken over what is kept in this browser. Reload the page to go on with it; nothing was changed by this one.',
  );
}

function denied(cause?: unknown): StorageFault {
  return new StorageFault(
    'denied',
    'This browser lets the page keep nothing: it is a private window, or storage is blocked for this site. Allow it or use an ordinary window; until then, save the work as a file.',
    { cause },
  );
}

function full(what: string, cause?: unknown): StorageFault {
  return new StorageFault(
    'full',
    `${what}: there is no more room for this site in the browser. Save the work as a file, then remove what is not needed any more, or free space on this machine, and try again.`,
    { cause },
  );
}

function blockedByOlder(): StorageFault {
  return new StorageFault(
    'away',
    'Another tab has an older version of this page open and does not let go of what is kept. Close that tab, then try again.',
  );
}

function nameOf(error: unknown): string {
  return error instanceof Error || (typeof DOMException !== 'undefined' && error instanceof DOMException) ? error.name : '';
}
