import { fileURLToPath } from 'node:url';

const file = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

/**
 * For `resolve.alias` of the build that puts `<baysheet-customer>` into one file: instead of two libraries that are far
 * larger than what the element uses of them, the same functions on what the browser brings. A phone on a slow network
 * waits for 16 KB less.
 */
export const lightLibraries = [
  { find: /^decimal\.js$/, replacement: file('./light-decimal.ts') },
  { find: /^jose$/, replacement: file('./light-jose.ts') },
];
