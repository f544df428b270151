import { type Answer, ANSWERS, type Answers } from './answers.js';

/** What a customer has done so far: a page that is loaded again, or was put away by the phone, begins where it was left. */
export interface Kept {
  readonly answers: Answers;
  readonly name: string;
  readonly phone: string;
  readonly email: string;
  /** The most to spend, as it was typed. */
  readonly ceiling: string;
}

const FIELDS = ['name', 'phone', 'email', 'ceiling'] as const;

/**
 * Keeps it for one sealed copy in this tab: names and numbers are not left behind on a phone that others use too. A
 * browser that denies its storage keeps nothing, and the page works all the same.
 */
export function keep(hash: string, kept: Kept): void {
  attempt((storage) => storage.setItem(key(hash), JSON.stringify(kept)));
}

/** What was kept for a copy; of what is no answer to one of its lines, or no text, nothing is taken over. */
export function recall(hash: string, lines: readonly string[]): Kept | null {
  const text = attempt((storage) => storage.getItem(key(hash)));
  if (typeof text !== 'string') return null;
  try {
    const found = Object(JSON.parse(text)) as Record<string, unknown>;
    const given = Object(found['answers']) as Record<string, unknown>;
    const answered = lines.filter((id) => Object.hasOwn(given, id) && ANSWERS.includes(given[id] as Answer));
    const [name, phone, email, ceiling] = FIELDS.map((field) => (typeof found[field] === 'string' ? found[field].slice(0, 120) : ''));
    return {
      answers: Object.fromEntries(answered.map((id) => [id, given[id] as Answer])),
      name: name!,
      phone: phone!,
      email: email!,
      ceiling: ceiling!,
    };
  } catch {
    return null;
  }
}

/** Once the answer is on its way there is nothing left to keep. */
export function forget(hash: string): void {
  attempt((storage) => storage.removeItem(key(hash)));
}

function key(hash: string): string {
  return `baysheet-answer-${hash}`;
}

function attempt<T>(use: (storage: Storage) => T): T | undefined {
  try {
    return use(sessionStorage);
  } catch {
    return undefined;
  }
}
