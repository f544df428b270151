import { type Kept, type KeptEntry, type KeptKind, StorageFault } from './port.js';

/** Every kind, in the order in which one needs the other. */
export const KEPT_KINDS: readonly KeptKind[] = ['catalogue', 'rates', 'photo', 'estimate'];

/** They travel in a header of HTTP. */
const LONGEST_ABOUT = 1000;

/** Throws a `StorageFault` where an id or a text is none that every store can keep exactly. */
export function checkKeepable(kind: KeptKind, id: string, text: string | null = null, about = ''): void {
  if (!KEPT_KINDS.includes(kind)) throw new StorageFault('fault', `Stores keep ${KEPT_KINDS.join(', ')}, not “${String(kind)}”.`);
  if (!/^[A-Za-z0-9._-]{1,64}$/.test(id)) {
    throw new StorageFault('fault', `“${id}” cannot name ${aThing(kind)}. Use 1 to 64 letters, digits, points, hyphens or underlines.`);
  }
  if (about.length > LONGEST_ABOUT) {
    throw new StorageFault(
      'fault',
      `The words to list the ${named(kind, id)} by are too long: ${about.length} characters of at most ${LONGEST_ABOUT}.`,
    );
  }
  for (const words of [text ?? '', about]) {
    if (!isWellFormed(words)) {
      throw new StorageFault(
        'fault',
        `The ${named(kind, id)} holds half a character (a lone surrogate), which cannot be kept exactly. Write it as JSON, or take it out.`,
      );
    }
  }
}

/** No half of a surrogate pair: what UTF-8 can hold. */
export function isWellFormed(text: string): boolean {
  return !/\p{Surrogate}/u.test(text);
}

/** “estimate “e-1”” in messages. */
export function named(kind: KeptKind, id: string): string {
  return `${words[kind]} “${id}”`;
}

function aThing(kind: KeptKind): string {
  return kind === 'estimate' ? 'an estimate' : `a ${words[kind]}`;
}

const words: Readonly<Record<KeptKind, string>> = { estimate: 'estimate', rates: 'rate card', catalogue: 'catalogue', photo: 'photo' };

/** The order of a list; what was saved in one moment goes by id. */
export function lastSavedFirst<E extends KeptEntry>(entries: E[]): E[] {
  const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
  return entries.sort((a, b) => compare(b.savedAt, a.savedAt) || compare(a.id, b.id));
}

/** The entry without its text. */
export function entryOf({ kind, id, revision, about, savedAt }: Kept): KeptEntry {
  return { kind, id, revision, about, savedAt };
}

/** A name that nobody else draws: 24 characters, 120 bits. Works on plain http too, unlike `randomUUID`. */
export function drawName(): string {
  const alphabet = 'abcdefghijklmnopqrstuvwxyz234567';
  return Array.from(crypto.getRandomValues(new Uint8Array(24)), (byte) => alphabet[byte & 31]).join('');
}
