import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { canonicalJson } from './canonical-json.js';

/**
 * The content hash of a document: SHA-256, in hexadecimal, of its canonical JSON text. Two documents have the same hash
 * when they say the same, however their keys are ordered and their text is spaced.
 */
export function contentHash(document: object): string {
  return bytesToHex(sha256(utf8ToBytes(canonicalJson(document))));
}
