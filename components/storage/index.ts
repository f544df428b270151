/** `baysheet/storage`: where documents are kept. The cluster is an entry of its own, `baysheet/storage/cluster`. */
export type { Kept, KeptChange, KeptEntry, KeptKind, KeptStore, PutResult, StorageFaultCode } from './port.js';
export { StorageFault } from './port.js';
export { type BrowserStore, type BrowserStoreOptions, openBrowserStore } from './browser-store.js';
export { Memory, openMemoryStore } from './memory-store.js';
export { openPresence, type Presence, type PresenceOptions, type PresenceState } from './presence.js';
export type { HttpStoreOptions } from './http-desk.js';
export { openHttpStore } from './http-store.js';
export type { KeptState, OfflineStanding, Whereabouts } from './offline-standing.js';
export { type KeptConflict, type OfflineStore, type OfflineStoreOptions, openOfflineStore } from './offline-store.js';
export { backupFile, type BackupEntry, type UnreadableEntry, writeBackup } from './backup.js';
export {
  type BackupProblem,
  compareBackup,
  type ReadBackup,
  readBackup,
  restoreBackup,
  type RestoreChoice,
  type Restored,
} from './restore.js';
