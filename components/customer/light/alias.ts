import { fileURLToPath } from 'node:url';

const file = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

/**
 * For `resolve.alias` of the builds that put `<baysheet-customer>` on a phone: in the place of libraries that are far
 * larger than what the element uses of them, the same functions on what the browser brings; and in the place of modules
 * of the engine that serve whoever makes an estimate, what is left of them for whoever only opens one. Everything that
 * makes a figure is the engine's own. `tests/engine/components/customer-light.test.ts` holds each against what it stands
 * in for.
 */
export const lightLibraries = [
  { find: /^decimal\.js$/, replacement: file('./light-decimal.ts') },
  { find: /^jose$/, replacement: file('./light-jose.ts') },
  { find: /^uqr$/, replacement: file('./light-qr.ts') },
  { find: /^lit\/decorators\.js$/, replacement: file('./light-decorators.ts') },
  { find: /^\.\/css-tag\.js$/, replacement: file('./light-css-tag.ts') },
  { find: /^\.\.\/documents\/(estimate|catalogue|rates)\.js$/, replacement: file('./light-documents.ts') },
  { find: /^\.\/currency-digits\.js$/, replacement: file('./light-currency-digits.ts') },
  { find: /^\.\.\/\.\.\/src\/share\/reply-text\.js$/, replacement: file('./light-reply-text.ts') },
  { find: /^\.\/open-words\.js$/, replacement: file('./light-open-words.ts') },
  { find: /^(?:\.|(?:\.\.\/)+(?:src\/)?pricing)\/pricer\.js$/, replacement: file('./light-pricer.ts') },
  { find: /^\.\/discounted\.js$/, replacement: file('./light-discounted.ts') },
  { find: /^\.\/line-problems\.js$/, replacement: file('./light-line-problems.ts') },
];

/** Beside `lightLibraries`, for the build of one file. */
export const everythingAtOnce = [{ find: /^\.\.?\/later\.js$/, replacement: file('./at-once.ts') }];
