/**
 * How texts lie in the bucket, so that of two puts on one version exactly one is kept.
 *
 * - `v.KIND.ID.N` is version N of a text: its words, where its bytes are, or that it was removed. A version is made once
 *   and never changed, and to make N + 1 one must have seen N. That a key is made by exactly one is the one promise of the
 *   servers that is needed: Debian's version keeps it, while of two updates of one key it may keep both.
 * - `KIND.ID` is a copy of the last version, for lists and watches. Whoever puts writes it afterwards, so it may lag: to
 *   know the last version, look whether another follows.
 * - `text.TOKEN.N` are the bytes, in pieces that fit into a message.
 */
import { JetStreamApiError } from '@nats-io/jetstream';
import type { Bucket } from './cluster-connection.js';
import { allMessages } from './cluster-messages.js';
import { named } from './keepable.js';
import { type KeptEntry, type KeptKind, StorageFault } from './port.js';

export interface Version {
  readonly n: number;
  /** Drawn anew for every put, so that a put whose answer was lost is known again. */
  readonly token: string;
  readonly about: string;
  /** ISO 8601, by the clock of whoever put it. */
  readonly savedAt: string;
  /** Null: removed. */
  readonly text: { readonly pieces: number; readonly bytes: number } | null;
  /** Tokens of the versions before whose texts are still kept, the newest first. */
  readonly earlier: readonly string[];
}

const FORMAT = 1;
/** Of one piece; a message has room for a megabyte, unless the servers are told otherwise. */
const LARGEST_PIECE = 512 * 1024;

/** Before the first version. */
export const NOTHING: Version = { n: 0, token: '', about: '', savedAt: '', text: null, earlier: [] };

/** A point separates the parts of a key, so that of an id is written `=`, which no id has. */
export function keyOf(kind: KeptKind, id: string): string {
  return `${kind}.${id.replaceAll('.', '=')}`;
}

export function idOf(key: string): string {
  return key.slice(key.indexOf('.') + 1).replaceAll('=', '.');
}

export function versionKey(kind: KeptKind, id: string, n: number | '*'): string {
  return `v.${keyOf(kind, id)}.${n}`;
}

export function revisionOf({ n, token, text }: Version): string | null {
  return text === null ? null : `${n}-${token}`;
}

export function entryFrom(kind: KeptKind, id: string, version: Version): KeptEntry {
  return { kind, id, revision: revisionOf(version) ?? '', about: version.about, savedAt: version.savedAt };
}

export function printVersion(version: Version): string {
  return JSON.stringify({ v: FORMAT, ...version });
}

/** @throws StorageFault `corrupt` or `newer` */
export function parseVersion(kind: KeptKind, id: string, json: string): Version {
  let parsed: Partial<Version> & { v?: unknown };
  try {
    parsed = JSON.parse(json) as typeof parsed;
  } catch {
    throw corrupt(kind, id, 'its entry is no JSON');
  }
  if (typeof parsed?.v === 'number' && parsed.v > FORMAT) {
    throw new StorageFault(
      'newer',
      `The ${named(kind, id)} was saved by a newer version of this page. Reload the page to get it; nothing was changed.`,
    );
  }
  const { n, token, about, savedAt, text, earlier } = parsed ?? {};
  const isText = text === null || (typeof text === 'object' && typeof text.pieces === 'number' && typeof text.bytes === 'number');
  const isWhole =
    typeof n === 'number' && [token, about, savedAt].every((value) => typeof value === 'string') && isText && Array.isArray(earlier);
  if (!isWhole) throw corrupt(kind, id, 'its entry is not of the shape that it was written in');
  return { n, token, about, savedAt, text, earlier } as Version;
}

/** One that cannot be read, with what is needed to follow it by another. */
function unreadable(n: number): Version {
  return { ...NOTHING, n, token: 'unreadable', text: { pieces: 0, bytes: 0 } };
}

/**
 * The last version; `NOTHING` where there has been none. `toReplace`: one that cannot be read counts as one without a
 * text, so that it can be followed by another.
 */
export async function lastVersion(bucket: Bucket, kind: KeptKind, id: string, toReplace = false): Promise<Version> {
  const copy = await bucket.kv.get(keyOf(kind, id));
  let last: Version = NOTHING;
  try {
    if (copy !== null) last = parseVersion(kind, id, copy.string());
  } catch (fault) {
    if (isNewer(fault)) throw fault;
    last = await firstFound(bucket, kind, id);
  }
  for (let n = last.n + 1; ; n += 1) {
    const next = await bucket.kv.get(versionKey(kind, id, n));
    if (next === null) return last;
    last = readVersion(kind, id, n, next.string(), toReplace);
  }
}

/** From its copy, for lists and watches: also what `get` will not give, with the revision that it can be replaced or removed by. */
export async function readCopy(bucket: Bucket, kind: KeptKind, id: string, json: string): Promise<Version> {
  try {
    return parseVersion(kind, id, json);
  } catch {
    return lastVersion(bucket, kind, id, true).catch(() => unreadable(0));
  }
}

function readVersion(kind: KeptKind, id: string, n: number, json: string, toReplace: boolean): Version {
  try {
    return parseVersion(kind, id, json);
  } catch (fault) {
    if (isNewer(fault) || !toReplace) throw fault;
    return unreadable(n);
  }
}

/** Where the copy cannot be read: a version from which those that follow can be looked for. */
async function firstFound(bucket: Bucket, kind: KeptKind, id: string): Promise<Version> {
  const [first] = await allMessages(bucket, versionKey(kind, id, '*'));
  return { ...NOTHING, n: first === undefined ? 0 : numberOf(first.key) - 1 };
}

function numberOf(key: string): number {
  return Number(key.slice(key.lastIndexOf('.') + 1));
}

function isNewer(fault: unknown): boolean {
  return fault instanceof StorageFault && fault.code === 'newer';
}

/** Makes a version, if nobody else has made it. */
export async function makeVersion({ kv }: Bucket, kind: KeptKind, id: string, version: Version): Promise<boolean> {
  try {
    await kv.put(versionKey(kind, id, version.n), printVersion(version), { previousSeq: 0 });
    return true;
  } catch (error) {
    if (isOvertaken(error)) return false;
    throw error;
  }
}

/** Writes the copy that lists and watches read, unless it is of a later version. */
export async function copyVersion({ kv }: Bucket, kind: KeptKind, id: string, version: Version): Promise<void> {
  for (;;) {
    const copy = await kv.get(keyOf(kind, id));
    if (copy !== null && copyNumber(kind, id, copy.string()) >= version.n) return;
    try {
      await kv.put(keyOf(kind, id), printVersion(version), { previousSeq: copy?.revision ?? 0 });
      return;
    } catch (error) {
      if (!isOvertaken(error)) throw error;
    }
  }
}

function copyNumber(kind: KeptKind, id: string, json: string): number {
  try {
    return parseVersion(kind, id, json).n;
  } catch {
    return 0;
  }
}

/** JetStream's codes for a sequence that is not the one that was expected. */
function isOvertaken(error: unknown): boolean {
  return error instanceof JetStreamApiError && [10071, 10164].includes(error.code);
}

/** Puts a text in pieces; nobody sees it until a version names it. */
export async function writeText({ kv, maxPayload }: Bucket, token: string, text: string): Promise<{ pieces: number; bytes: number }> {
  const bytes = new TextEncoder().encode(text);
  // Room for the headers of a message.
  const size = Math.min(LARGEST_PIECE, maxPayload - 4096);
  const pieces = Math.ceil(bytes.length / size);
  for (let i = 0; i < pieces; i += 1) await kv.put(pieceKey(token, i), bytes.subarray(i * size, (i + 1) * size));
  return { pieces, bytes: bytes.length };
}

/** The text of a version; null where it is gone, because others have followed. */
export async function readText({ kv }: Bucket, kind: KeptKind, id: string, { token, text }: Version): Promise<string | null> {
  if (text === null) return null;
  const found = await Promise.all(Array.from({ length: text.pieces }, (_, i) => kv.get(pieceKey(token, i))));
  const pieces = found.filter((entry) => entry !== null).map(({ value }) => value);
  if (pieces.length < text.pieces) return null;
  const bytes = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let filled = 0;
  for (const piece of pieces) {
    bytes.set(piece, filled);
    filled += piece.length;
  }
  if (bytes.length !== text.bytes) throw corrupt(kind, id, `its text has ${bytes.length} bytes of ${text.bytes}`);
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw corrupt(kind, id, 'what is kept as its text is no text');
  }
}

/** Lets go of texts that nothing names any more, without a mark left behind. What fails here only takes up room. */
export function dropTexts(bucket: Bucket, tokens: readonly string[]): void {
  for (const token of tokens) drop(bucket, `text.${token}.>`);
}

/**
 * Lets go of old versions, now and then. Those of the last hour stay: a put that has seen version 7 and was held up must
 * not be able to make version 8 once that was made and has gone.
 */
export async function dropVersions(bucket: Bucket, kind: KeptKind, id: string, last: number, kept: number): Promise<void> {
  if (last % kept !== 0) return;
  const before = Date.now() - HELD_UP;
  for (const { key, time } of await allMessages(bucket, versionKey(kind, id, '*'))) {
    if (numberOf(key) <= last - kept && time.getTime() < before) drop(bucket, key);
  }
}

/** Longest time that a put may be held up, in milliseconds. */
export const HELD_UP = 3_600_000;

function drop({ manager, name }: Bucket, keys: string): void {
  manager.streams.purge(`KV_${name}`, { filter: `$KV.${name}.${keys}` }).catch(() => undefined);
}

function pieceKey(token: string, i: number): string {
  return `text.${token}.${i}`;
}

export function corrupt(kind: KeptKind, id: string, why: string): StorageFault {
  return new StorageFault(
    'corrupt',
    `The ${named(kind, id)} cannot be read: ${why}. Everything else is untouched. Restore it from a backup, or remove it.`,
  );
}
