import { minifySync } from 'rolldown/utils';
import type { Plugin } from 'vite';
import { INNER_NAMES } from './inner-names.js';

/** Most frequent first, so that what is packed afterwards finds the same few letters everywhere. */
const LETTERS = [...'etnrisouaflchpdvmgybwESxTNCkLAOMDPHBjFIqRUzWXVJKQGYZ'];
const SHORT = [...LETTERS, ...LETTERS.flatMap((first) => LETTERS.map((second) => first + second))];

/** Gives members of `INNER_NAMES` short names, the same in all files of a build. */
export function shortNames(): Plugin {
  const include = new RegExp(`^(${INNER_NAMES.join('|')})$`);
  return {
    name: 'short-names',
    apply: 'build',
    enforce: 'post',
    generateBundle(_, bundle) {
      const chunks = Object.values(bundle).filter((file) => file.type === 'chunk');
      const cache = shortened(chunks.map(({ code }) => code).join('\n'));
      for (const chunk of chunks) {
        const { code, errors } = minifySync(chunk.fileName, chunk.code, { module: true, mangleProps: { include, cache } });
        if (errors.length > 0) this.error(errors[0]!.message);
        chunk.code = code;
      }
    },
  };
}

/** A short name for each, the shortest for those that are met most; none that a member has already. */
function shortened(code: string): Record<string, string> {
  const met = new Map<string, number>();
  for (const [name] of code.matchAll(/[\w$]+/g)) met.set(name, (met.get(name) ?? 0) + 1);
  const taken = new Set(Array.from(code.matchAll(/[.{,(]\s*([\w$]+)/g), ([, name]) => name));
  const free = SHORT.filter((name) => !taken.has(name));
  const named = INNER_NAMES.filter((name) => met.has(name)).sort((a, b) => met.get(b)! - met.get(a)! || (a < b ? -1 : 1));
  return Object.fromEntries(named.map((name, i) => [name, free[i]!]));
}
