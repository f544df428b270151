import { atob, btoa } from './platform.js';

/** Base64 with the alphabet that needs no escape in an address and without padding (RFC 4648 section 5). */
export function encodeBase64url(bytes: Uint8Array): string {
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
}

/**
 * The bytes of a base64url text, or null for anything that encoding would not have written exactly so: other
 * characters, padding, white space, a length that cannot be, bits left over at the end that are not zero.
 */
export function decodeBase64url(text: string): Uint8Array | null {
  if (!/^[A-Za-z0-9_-]*$/.test(text) || text.length % 4 === 1) return null;
  const binary = atob(text.replace(/-/g, '+').replace(/_/g, '/'));
  const bytes = Uint8Array.from(binary, (character) => character.charCodeAt(0));
  return encodeBase64url(bytes) === text ? bytes : null;
}
