/** Hostile links and answers: bytes in both packed forms as a stranger would make them, also where the signature is right. */
import { replyRefusal, withDecisions } from '../../src/consent/reply.js';
import { encodeBase64url } from '../../src/share/base64url.js';
import { crc32 } from '../../src/share/crc32.js';
import { deflate } from '../../src/share/deflate.js';
import { DICTIONARY_2 } from '../../src/share/dictionary.js';
import { signCompact } from '../../src/share/jws.js';
import { layout } from '../../src/share/layout.js';
import { unpackCopy } from '../../src/share/pack.js';
import { printRow } from '../../src/share/slots.js';
import { packText } from '../../src/share/text-coder.js';
import { customerCopy, openEstimate, openReply, priceEstimate, type Reply, sealReply, ShareFault } from '../../src/index.js';
import type { Drawing } from '../support/arbitraries.js';
import { aCatalogue, anEstimate, aRateCard, labourLine, readDocuments } from '../support/builders.js';
import { fullDocuments } from '../support/full-documents.js';
import { noise, PROTOTYPE_IDS, spoiltText } from '../support/hostile.js';
import { newKey, type TestKey } from '../engine/share/sealed.js';
import type { Count, Proof, Timed } from './proof.js';
import { assertUntouched, printed } from './untouched.js';

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const DICTIONARY = utf8(DICTIONARY_2);
const SLOTS = [
  '',
  '0',
  '1',
  '-1',
  '2',
  '9',
  '999999',
  '1000000',
  '+',
  '?',
  '-',
  ',',
  ',,',
  '+,+',
  '0,1',
  '0:2e',
  '0:0',
  'lpcsfu',
  'x',
  'olpsfn',
  'nnnnnnnn',
  'NaN',
  '12.50',
  '999999999999',
  '\\',
  '\\n',
  '\u0000',
  '\ud83d\ude00',
  '2026-03-02T14:05:00Z',
  '2026-99-99T99:99:99Z',
  'USD',
  ...PROTOTYPE_IDS,
];

let key: Promise<TestKey> | null = null;

/** The row of slots of a small estimate's copy; null where it cannot be made. */
function copyRow(d: Drawing): string[] | null {
  const documents = fullDocuments(d);
  const lines = documents.estimate.lines.slice(0, d.int(1, 3));
  try {
    const copy = customerCopy(readDocuments({ ...documents, estimate: { ...documents.estimate, lines } }));
    const row: string[] = [];
    layout.write({ copy, sealedAt: '2026-03-02T14:05:00Z' }, row);
    return row;
  } catch (fault) {
    if (fault instanceof ShareFault) return null;
    throw fault;
  }
}

function spoiltRow(d: Drawing, row: readonly string[]): string[] {
  const spoilt = [...row];
  for (let times = d.pick([1, 1, 1, 2, 4]); times > 0 && spoilt.length > 0; times -= 1) {
    const at = d.int(0, spoilt.length - 1);
    switch (d.pick(['slot', 'slot', 'slot', 'another', 'out', 'in', 'cut', 'many'])) {
      case 'slot':
        spoilt[at] = d.pick(SLOTS);
        break;
      case 'another':
        spoilt[at] = d.pick(spoilt);
        break;
      case 'out':
        spoilt.splice(at, 1);
        break;
      case 'in':
        spoilt.splice(at, 0, d.pick(SLOTS));
        break;
      case 'cut':
        spoilt.length = at;
        break;
      default:
        spoilt[at] = d.pick(SLOTS).repeat(300);
    }
  }
  return spoilt;
}

type Form = 'form 1' | 'form 2';

async function packed(form: Form, text: string): Promise<Uint8Array> {
  if (form === 'form 1') return deflate(utf8(`1\n${text}`));
  const bytes = utf8(text).subarray(0, 65_535);
  return Uint8Array.of(0b10110, bytes.length >>> 8, bytes.length & 255, ...packText(bytes, DICTIONARY));
}

function spoiltBytes(d: Drawing, bytes: Uint8Array): Uint8Array {
  const spoilt = Uint8Array.from(bytes);
  for (let times = d.int(1, 3); times > 0 && spoilt.length > 0; times -= 1) spoilt[d.int(0, spoilt.length - 1)] = d.int(0, 255);
  return d.chance(30) ? spoilt.subarray(0, d.int(0, spoilt.length)) : spoilt;
}

/** Bytes of a link, and what was done to them. */
async function hostileBytes(d: Drawing, count: Count): Promise<Uint8Array> {
  const form: Form = d.chance(80) ? 'form 1' : 'form 2';
  count(`(${form})`);
  if (d.chance(25)) {
    count('noise');
    const bytes = noise(d, d.pick([0, 1, 2, 3, 10, 100, 1_000, 1_000, 17_000]));
    if (form === 'form 2' && bytes.length > 3) bytes.set([0b10110, ...(d.chance(90) ? [0, d.int(0, 255)] : [])]);
    return bytes;
  }
  const row = copyRow(d);
  if (row === null) return new Uint8Array();
  if (d.chance(75)) {
    count('slots exchanged');
    return packed(form, printRow(spoiltRow(d, row)));
  }
  if (d.chance(50)) {
    count('text spoilt');
    return packed(form, spoiltText(d, printRow(row)));
  }
  count('bytes exchanged');
  return spoiltBytes(d, await packed(form, printRow(row)));
}

async function tryLink(d: Drawing, count: Count, timed: Timed): Promise<void> {
  const bytes = await hostileBytes(d, count);
  try {
    const unpacked = await timed('unpacking', () => unpackCopy(bytes));
    count(unpacked.ok ? '(opened)' : '(refused)');
    if (unpacked.ok) priceEstimate(unpacked.value.copy);
    if (d.chance(10)) {
      const signer = await (key ??= newKey());
      const opened = await openEstimate(await signCompact(bytes, signer), [signer.publicJwk]);
      count('signed with the shop’s own key');
      if (opened.ok && !unpacked.ok) throw new Error(`opened though it cannot be unpacked (${unpacked.code})`);
    }
    assertUntouched();
  } catch (fault) {
    throw new Error(
      `${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}\n${Buffer.from(bytes).toString('base64url')}`,
      { cause: fault },
    );
  }
}

export const fuzzLinks: Proof = {
  name: 'fuzz-links',
  what: 'hostile bytes of a link, in both forms',
  cases: 50_000,
  few: 250,
  reach: new Map([
    ['(opened)', 2],
    ['(refused)', 20],
    ['(form 1)', 20],
    ['(form 2)', 10],
  ]),
  try: tryLink,
};

const REPLY: Reply = {
  estimate: 'e-1',
  revision: 1,
  hash: 'A'.repeat(43),
  at: '2026-03-02T15:00:00Z',
  name: 'Orla Finchley-Dane',
  contact: { kind: 'phone', value: '+1 303 555 0142' },
  decisions: { l1: 'approved', l2: 'declined' },
  total: '123.45',
  currency: 'USD',
  locale: 'en-US',
  consent: 'I agree.',
};

async function sealedRow(row: readonly string[] | string): Promise<string> {
  const body = encodeBase64url(await deflate(utf8(typeof row === 'string' ? row : printRow(row))));
  const crc = crc32(utf8(body));
  return `baysheet1.${body}.${encodeBase64url(Uint8Array.of(crc >>> 24, crc >>> 16, crc >>> 8, crc))}`;
}

const REPLY_ROW = [
  'e-1',
  '',
  'A'.repeat(43),
  '2026-03-02T15:00:00Z',
  'Orla',
  '1',
  '+1 303',
  'l1,l3',
  'l2',
  '',
  '123.45',
  'USD',
  'en-US',
  'I agree.',
];

async function hostileReply(d: Drawing, count: Count): Promise<string> {
  const decisions = Object.fromEntries(
    d.some(['l1', 'l2', ...PROTOTYPE_IDS], 50).map((line) => [line, d.pick(['approved', 'declined', 'deferred'] as const)]),
  );
  switch (d.pick(['row', 'row', 'row', 'text', 'spoilt', 'noise', 'reply'])) {
    case 'row':
      count('slots exchanged');
      return sealedRow(spoiltRow(d, REPLY_ROW));
    case 'text':
      count('text spoilt');
      return sealedRow(spoiltText(d, printRow(REPLY_ROW)));
    case 'spoilt':
      count('answer spoilt on the way');
      return spoiltText(d, `Hello!\n${await sealedRow(REPLY_ROW)}\nBye`);
    case 'noise':
      count('noise');
      return `baysheet1.${d.chance(50) ? encodeBase64url(noise(d, d.int(0, 300))) : d.pick(SLOTS).repeat(d.pick([1, 100, 20_000]))}.${d.pick(SLOTS)}`;
    default:
      count('ids of every prototype');
      return Object.keys(decisions).length === 0 ? '' : sealReply({ ...REPLY, decisions });
  }
}

async function tryReply(d: Drawing, count: Count, timed: Timed): Promise<void> {
  const text = await hostileReply(d, count);
  try {
    const opened = await timed('opening', () => openReply(text));
    count(opened.ok ? '(opened)' : '(refused)');
    if (opened.ok) await askReply(opened.reply);
    assertUntouched();
  } catch (fault) {
    throw new Error(`${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}\n${printed(text)}`, { cause: fault });
  }
}

/** An answer that was let in can be sealed again, and taken or refused by an estimate with lines of any name. */
async function askReply(reply: Reply): Promise<void> {
  await sealReply(reply);
  const lines = [...Object.keys(reply.decisions), 'l9', ...PROTOTYPE_IDS].filter((id, i, all) => all.indexOf(id) === i);
  takeReply(reply, lines);
}

function takeReply(reply: Reply, ids: readonly string[]): void {
  const lines = ids.map((id) => labourLine(id, '1'));
  const documents = readDocuments({ estimate: anEstimate(lines, { id: reply.estimate }), catalogue: aCatalogue(), rates: aRateCard() });
  const { estimate } = documents;
  const decided = withDecisions(estimate, reply);
  const told = new Map(Object.entries(reply.decisions));
  for (const line of decided.lines) {
    if (line.decision !== (told.get(line.id) ?? 'proposed'))
      throw new Error(`line ${line.id} is ${printed(line.decision)} after the answer`);
  }
  replyRefusal(estimate, reply, priceEstimate(documents), priceEstimate({ ...documents, estimate: decided }));
}

export const fuzzReplies: Proof = {
  name: 'fuzz-replies',
  what: 'hostile answers of customers',
  cases: 50_000,
  few: 500,
  reach: new Map([
    ['(opened)', 10],
    ['(refused)', 20],
  ]),
  try: tryReply,
};
