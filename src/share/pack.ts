import { parseCatalogue } from '../documents/catalogue.js';
import { parseEstimate } from '../documents/estimate.js';
import { parseRates } from '../documents/rates.js';
import { inflate } from './deflate.js';
import { DICTIONARY_2 } from './dictionary.js';
import { ShareFault } from './fault.js';
import { type Sealable, layout } from './layout.js';
import { fromUtf8, utf8 } from './platform.js';
import { printRow, Row, RowFault, splitRow } from './slots.js';
import { packText, unpackTextInTurns } from './text-coder.js';

/** What is let in: so many bytes packed; so many of the row in form 1 and in form 2. */
export const PACK_LIMITS = { packed: 16_384, inflated: 262_144, unpacked: 65_535 } as const;

/** Why packed bytes cannot be opened, or what is in them. */
export type Unpacked = { readonly ok: true; readonly value: Sealable } | { readonly ok: false; readonly code: Fault };
type Fault = 'version' | 'damaged' | 'too-large';

/** What marks forms from 2 on, in the lowest bits of the first byte: a kind of block that DEFLATE does not have (RFC 1951, 3.2.3). */
const MARK = 0b110;
const FORM = 2;

/**
 * A customer's copy in few bytes: values in a row without their names, one to a slot, defaults left out; this text is
 * packed by how well a model that has read the dictionary guesses it. In front stand a byte with mark and form, and
 * two with the length of the text.
 *
 * @throws ShareFault for a copy that `customerCopy` has not made, and for one that is too long for any link
 */
export function packCopy(sealable: Sealable): Uint8Array {
  const row: string[] = [];
  layout.write(sealable, row);
  const text = utf8(printRow(row));
  if (text.length > PACK_LIMITS.unpacked) throw tooLong(text.length, PACK_LIMITS.unpacked);
  const packed = packText(text, utf8(DICTIONARY_2));
  if (3 + packed.length > PACK_LIMITS.packed) throw tooLong(3 + packed.length, PACK_LIMITS.packed);
  return Uint8Array.of((FORM << 3) | MARK, text.length >>> 8, text.length & 255, ...packed);
}

function tooLong(length: number, most: number): ShareFault {
  return new ShareFault('too-long', `The estimate is too long for a link (${length} bytes; ${most} is the most). Send the file instead.`);
}

/** The other way, with every document checked as if it came from a stranger. Never throws for what is in the bytes. */
export async function unpackCopy(bytes: Uint8Array): Promise<Unpacked> {
  if (bytes.length > PACK_LIMITS.packed) return { ok: false, code: 'too-large' };
  try {
    const slots = (bytes[0]! & 0b110) === MARK ? await unpackedSlots(bytes) : await inflatedSlots(bytes);
    if (typeof slots === 'string') return { ok: false, code: slots };
    const row = new Row(slots);
    const value = layout.read(row);
    return row.left === 0 && isSound(value) ? { ok: true, value } : { ok: false, code: 'damaged' };
  } catch (fault) {
    if (fault instanceof RowFault || fault instanceof TypeError) return { ok: false, code: 'damaged' };
    throw fault;
  }
}

/** Form 2. */
async function unpackedSlots(bytes: Uint8Array): Promise<string[] | Fault> {
  if (bytes[0] !== ((FORM << 3) | MARK)) return 'version';
  if (bytes.length < 3) return 'damaged';
  const text = await unpackTextInTurns(bytes.subarray(3), bytes[1]! * 256 + bytes[2]!, utf8(DICTIONARY_2));
  return text === null ? 'damaged' : splitRow(fromUtf8(text));
}

/** Form 1: raw DEFLATE, with the number of the form in the first slot. */
async function inflatedSlots(bytes: Uint8Array): Promise<string[] | Fault> {
  const text = await inflate(bytes, PACK_LIMITS.inflated);
  if (text === null) return 'damaged';
  const [form, ...slots] = splitRow(fromUtf8(text));
  return form === '1' ? slots : 'version';
}

function isSound({ sealedAt, copy }: Sealable): boolean {
  const isTime = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/.test(sealedAt) && !Number.isNaN(Date.parse(sealedAt));
  return isTime && parseEstimate(copy.estimate).ok && parseCatalogue(copy.catalogue).ok && parseRates(copy.rates).ok;
}
