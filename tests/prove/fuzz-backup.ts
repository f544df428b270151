/** Hostile backup files: entries or problems, never a throw, and nothing that no store could keep. */
import { writeBackup } from '../../components/storage/backup.js';
import { openMemoryStore } from '../../components/storage/memory-store.js';
import { readBackup, restoreBackup } from '../../components/storage/restore.js';
import type { Drawing } from '../support/arbitraries.js';
import { harm, PROTOTYPE_IDS, spoiltText } from '../support/hostile.js';
import type { Count, Proof, Timed } from './proof.js';
import { assertUntouched, printed, textOf } from './untouched.js';

/** Characters. Great depth in each of thousands of entries makes some hundred millions of them, and `JSON.parse` alone takes minutes for such. */
const LONGEST = 4_000_000;
const KINDS = ['estimate', 'rates', 'catalogue', 'photo'] as const;
const TEXTS = ['', '{}', '{"format":"baysheet-estimate"', 'é😀', '\u0000', '{"__proto__":{"polluted":true}}', 'data:image/png;base64,AAAA'];

function wholeFile(d: Drawing): object {
  const entries = Array.from({ length: d.int(0, 6) }, (_, i) => ({
    kind: d.pick(KINDS),
    id: d.chance(30) ? d.pick(PROTOTYPE_IDS) : `id-${i}`,
    about: d.pick(['', 'words', 'x'.repeat(1000)]),
    text: d.pick(TEXTS),
  }));
  return {
    format: 'baysheet-backup',
    version: 1,
    entries,
    unreadable: d.chance(20) ? [{ kind: 'estimate', id: 'e', why: 'no', raw: null }] : [],
  };
}

async function written(store: ReturnType<typeof openMemoryStore>): Promise<string> {
  let text = '';
  for await (const piece of writeBackup(store)) text += piece;
  return text;
}

async function tryBackup(d: Drawing, count: Count, timed: Timed): Promise<void> {
  const file = wholeFile(d);
  let text = JSON.stringify(file);
  if (d.chance(40)) {
    count('a spoilt text');
    text = spoiltText(d, text);
  } else {
    for (const what of harm(d, file)) count(what);
    text = textOf(file).slice(0, LONGEST);
  }
  try {
    const read = timed('reading', () => readBackup(text));
    count(read.entries.length > 0 ? '(something read)' : '(nothing read)');
    if (read.problems.some(({ message }) => message.trim() === '')) throw new Error('a problem without words');
    const store = openMemoryStore();
    const { failed, added, same } = await restoreBackup(store, read.entries);
    if (failed.length > 0) throw new Error(`an entry that was read cannot be kept: ${failed[0]!.fault.message}`);
    if (added.length + same.length !== read.entries.length) throw new Error('an entry was lost on the way');
    const again = readBackup(await written(store));
    if (again.problems.length > 0 || again.entries.length !== added.length)
      throw new Error(`what was put back does not come out again: ${printed(again.problems)}`);
    assertUntouched();
  } catch (fault) {
    throw new Error(`${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}\n${printed(text)}`, { cause: fault });
  }
}

export const fuzzBackups: Proof = {
  name: 'fuzz-backups',
  what: 'hostile backup files',
  cases: 50_000,
  few: 500,
  reach: new Map([
    ['(something read)', 15],
    ['(nothing read)', 15],
  ]),
  try: tryBackup,
};
