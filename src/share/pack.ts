import { parseCatalogue } from '../documents/catalogue.js';
import { parseEstimate } from '../documents/estimate.js';
import { parseRates } from '../documents/rates.js';
import { deflate, inflate } from './deflate.js';
import { type Sealable, layout } from './layout.js';
import { fromUtf8, utf8 } from './platform.js';
import { printRow, Row, RowFault, splitRow } from './slots.js';

/** The form of the packed bytes; it stands in the first slot. */
const VERSION = '1';

/** What is let in: so many bytes packed, so many unpacked. */
export const PACK_LIMITS = { packed: 16_384, unpacked: 262_144 } as const;

/** Why packed bytes cannot be opened, or what is in them. */
export type Unpacked = { readonly ok: true; readonly value: Sealable } | { readonly ok: false; readonly code: 'version' | 'damaged' | 'too-large' };

/**
 * A customer's copy in few bytes: values in a row without their names, one to a slot, defaults left out, then raw
 * DEFLATE.
 *
 * @throws ShareFault for a copy that `customerCopy` has not made
 */
export async function packCopy(sealable: Sealable): Promise<Uint8Array> {
  const row: string[] = [VERSION];
  layout.write(sealable, row);
  return deflate(utf8(printRow(row)));
}

/** The other way, with every document checked as if it came from a stranger. Never throws for what is in the bytes. */
export async function unpackCopy(bytes: Uint8Array): Promise<Unpacked> {
  if (bytes.length > PACK_LIMITS.packed) return { ok: false, code: 'too-large' };
  const inflated = await inflate(bytes, PACK_LIMITS.unpacked);
  if (inflated === null) return { ok: false, code: 'damaged' };
  try {
    const [version, ...slots] = splitRow(fromUtf8(inflated));
    if (version !== VERSION) return { ok: false, code: 'version' };
    const row = new Row(slots);
    const value = layout.read(row);
    return row.left === 0 && isSound(value) ? { ok: true, value } : { ok: false, code: 'damaged' };
  } catch (fault) {
    if (fault instanceof RowFault || fault instanceof TypeError) return { ok: false, code: 'damaged' };
    throw fault;
  }
}

function isSound({ sealedAt, copy }: Sealable): boolean {
  const isTime = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/.test(sealedAt) && !Number.isNaN(Date.parse(sealedAt));
  return isTime && parseEstimate(copy.estimate).ok && parseCatalogue(copy.catalogue).ok && parseRates(copy.rates).ok;
}
