import { fileURLToPath } from 'node:url';

const nothing = fileURLToPath(new URL('./nothing.ts', import.meta.url));

/**
 * For `resolve.alias` of a Vite configuration: the modules that the grid library imports and we leave out. The
 * last is a set of global polyfills, which every browser of today has, and which a component may not install.
 */
export const absentModules: Readonly<Record<string, string>> = {
  moment: nothing,
  pikaday: nothing,
  numbro: nothing,
  '@babel/polyfill/lib/noConflict': nothing,
};
