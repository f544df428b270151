import { encodeBase64url } from './base64url.js';
import { crc32 } from './crc32.js';
import { deflate } from './deflate.js';
import { utf8 } from './platform.js';
import { printRow } from './slots.js';

/** Stands before every answer, so that one is found in the middle of a message; the digit is the version. */
export const MARK = 'baysheet1.';

/** The slots of an answer as one text with mark and checksum. */
export async function frameReply(row: readonly string[]): Promise<string> {
  const body = encodeBase64url(await deflate(utf8(printRow(row))));
  return `${MARK}${body}.${checksum(body)}`;
}

/** Six characters. */
export function checksum(body: string): string {
  const crc = crc32(utf8(body));
  return encodeBase64url(Uint8Array.of(crc >>> 24, crc >>> 16, crc >>> 8, crc));
}
