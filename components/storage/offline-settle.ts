/** One text, here and there: brings them together, or finds that a person must. */
import { fingerprint, type FoundNote, isWaiting, type Note, type Notes } from './offline-notes.js';
import type { Kept, KeptKind, KeptStore } from './port.js';

export interface Places {
  readonly local: KeptStore;
  readonly remote: KeptStore;
  readonly notes: Notes;
}

/**
 * Settles one text: what waits here is put there; what is new there is put here; where both have changed, what is there is
 * noted beside what is here and nothing else happens. Every step is a put that compares, so that another tab or a person who
 * goes on typing meanwhile only makes it look again.
 *
 * @throws StorageFault of either place; nothing is lost by it
 */
export async function settle(places: Places, kind: KeptKind, id: string): Promise<void> {
  while (!(await step(places, kind, id)));
}

/** True when there is nothing more to do. */
async function step(places: Places, kind: KeptKind, id: string): Promise<boolean> {
  const { local, notes } = places;
  const found = await notes.find(kind, id);
  const here = await local.get(kind, id);
  if (found.note.conflict !== null) return lookAgain(places, kind, id, found, here);
  return isWaiting(here, found.note) ? send(places, kind, id, found, here) : fetch(places, kind, id, found, here);
}

async function send({ local, remote, notes }: Places, kind: KeptKind, id: string, found: FoundNote, here: Kept | null): Promise<boolean> {
  const { note } = found;
  const mark = fingerprint(here);
  if (!note.sent.includes(mark)) {
    await notes.save(kind, id, { ...note, sent: [...note.sent, mark] }, found);
    return false;
  }
  const result = await remote.put(kind, id, here?.text ?? null, note.there, here?.about);
  if (result.ok) {
    const isNoted = await notes.save(kind, id, agreed(here, here === null ? null : result.revision), found);
    // A person may have gone on meanwhile.
    return isNoted && ((await local.get(kind, id))?.revision ?? null) === (here?.revision ?? null);
  }
  const { current } = result;
  // What is there was sent from here, and only its answer was lost: what was typed since goes on from there.
  const isOwn = note.sent.includes(fingerprint(current));
  const next: Note = isOwn ? { ...note, there: current?.revision ?? null } : { ...note, conflict: { there: current } };
  return (await notes.save(kind, id, next, found)) && !isOwn;
}

async function fetch({ local, remote, notes }: Places, kind: KeptKind, id: string, found: FoundNote, here: Kept | null): Promise<boolean> {
  const there = await remote.get(kind, id);
  if ((there?.revision ?? null) === found.note.there && (there === null) === (here === null)) return true;
  const result = await local.put(kind, id, there?.text ?? null, here?.revision ?? null, there?.about);
  if (!result.ok) return false;
  const copy = there === null ? null : { revision: result.revision };
  return notes.save(kind, id, agreed(copy, there?.revision ?? null), found);
}

/** A conflict stays until a person resolves it, or both sides come to the same by themselves. */
async function lookAgain({ remote, notes }: Places, kind: KeptKind, id: string, found: FoundNote, here: Kept | null): Promise<boolean> {
  const there = await remote.get(kind, id);
  if (fingerprint(there) === fingerprint(here)) return notes.save(kind, id, agreed(here, there?.revision ?? null), found);
  const known = found.note.conflict!.there;
  if ((known?.revision ?? null) === (there?.revision ?? null)) return true;
  return notes.save(kind, id, { ...found.note, conflict: { there } }, found);
}

/** The note of a text that is the same here and there. */
function agreed(here: { readonly revision: string } | null, there: string | null): Note {
  return { here: here?.revision ?? null, there, isRemoved: false, sent: [], conflict: null };
}
