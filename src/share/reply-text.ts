import { decodeBase64url } from './base64url.js';
import { inflate } from './deflate.js';
import { ShareFault } from './fault.js';
import { fromUtf8 } from './platform.js';
import { checkReply, type Reply } from './reply.js';
import { checksum, frameReply, MARK } from './reply-frame.js';
import { choice, count, record, Row, RowFault, type Slot, splitRow, text } from './slots.js';

const CHECKSUM = 6;
const LIMITS = { text: 100_000, packed: 6_000, unpacked: 65_536 } as const;

const answers = ['approved', 'declined', 'deferred'] as const;

/** Line ids one after the other, for each answer. */
const decisions: Slot<Reply['decisions']> = {
  write: (value, row) => {
    for (const answer of answers) {
      row.push(
        Object.entries(value)
          .flatMap(([line, given]) => (given === answer ? [line] : []))
          .join(','),
      );
    }
  },
  read: (row) => {
    const given = answers.flatMap((answer) => {
      const lines = row.next();
      return lines === '' ? [] : lines.split(',').map((line) => [line, answer] as const);
    });
    const byLine = new Map(given);
    if (byLine.size !== given.length) throw new RowFault('a line is answered twice');
    return Object.fromEntries(byLine);
  },
};

const layout = record<Reply>({
  estimate: text,
  revision: count(1),
  hash: text,
  at: text,
  name: text,
  contact: record<Reply['contact']>({ kind: choice(['', 'phone', 'email']), value: text }),
  decisions,
  total: text,
  currency: text,
  locale: text,
  consent: text,
});

/**
 * A customer's answer as a short text for a message, a mail or a QR code.
 *
 * It is not signed, for a customer has no key. What it proves: its checksum, that it arrived whole; its hash, that it
 * speaks of one sealed copy and no other, so that an answer to an older revision cannot pass for one to the newest. What it
 * does not prove: who wrote it. Anyone who has the link can answer it, as anyone can sign a paper estimate; that is
 * why it names a person and how to reach them, and why the shop records how it came.
 *
 * @throws ShareFault that says what is missing
 */
export async function sealReply(reply: Reply): Promise<string> {
  const checked = checkReply(reply);
  if (!checked.ok) {
    throw new ShareFault('reply', `The answer cannot be made: "${checked.path}" is missing, too long, or not what it should be.`);
  }
  const row: string[] = [];
  layout.write(checked.reply, row);
  return frameReply(row);
}

export type ReplyFault = 'empty' | 'no-reply' | 'cut-off' | 'checksum' | 'version' | 'damaged' | 'old-browser';

export type OpenedReply =
  { readonly ok: true; readonly reply: Reply } | { readonly ok: false; readonly code: ReplyFault; readonly message: string };

const AGAIN = 'Copy the whole message of the customer and paste it again.';

const MESSAGES: Readonly<Record<Exclude<ReplyFault, 'old-browser'>, string>> = {
  empty: 'There is nothing to open. Paste the message of the customer.',
  'no-reply': `There is no answer to an estimate in this text. It begins with "${MARK}". ${AGAIN}`,
  'cut-off': `The end of the answer is missing. ${AGAIN}`,
  checksum: `Something in the answer is missing or has been changed on the way. ${AGAIN}`,
  version: 'This answer was made by another version of this page. Load the page again.',
  damaged: 'This answer arrived whole, but it is not one that the customer page makes. Ask the customer, and record the answer by hand.',
};

/**
 * Finds and reads an answer in a text as it was pasted: there may be words around it, and line breaks that a mail
 * program has put in. Never throws. Needs no `crypto.subtle`, so it works on a shop's page that is served over http.
 */
export async function openReply(pasted: string): Promise<OpenedReply> {
  try {
    return await open(String(pasted).trim());
  } catch (fault) {
    if (fault instanceof ShareFault) return { ok: false, code: 'old-browser', message: fault.message };
    return refused('damaged');
  }
}

async function open(pasted: string): Promise<OpenedReply> {
  if (pasted === '') return refused('empty');
  if (pasted.length > LIMITS.text) return refused('no-reply');
  const start = pasted.lastIndexOf(MARK);
  if (start < 0) return refused(/baysheet\d+\./.test(pasted) ? 'version' : 'no-reply');

  const body = /^[A-Za-z0-9_\-\s]*/.exec(pasted.slice(start + MARK.length))![0];
  const rest = pasted.slice(start + MARK.length + body.length).replace(/\s/g, '');
  const packed = body.replace(/\s/g, '');
  const given = rest.slice(1, 1 + CHECKSUM);
  if (rest[0] !== '.' || given.length < CHECKSUM) return refused('cut-off');
  if (packed.length > LIMITS.packed || given !== checksum(packed)) return refused('checksum');

  const bytes = decodeBase64url(packed);
  const inflated = bytes === null ? null : await inflate(bytes, LIMITS.unpacked);
  return inflated === null ? refused('damaged') : read(inflated);
}

function read(bytes: Uint8Array): OpenedReply {
  const row = new Row(splitRow(fromUtf8(bytes)));
  const checked = checkReply(layout.read(row));
  return checked.ok && row.left === 0 ? { ok: true, reply: checked.reply } : refused('damaged');
}

function refused(code: keyof typeof MESSAGES): OpenedReply {
  return { ok: false, code, message: MESSAGES[code] };
}
