import { minify } from 'terser';
import type { Plugin } from 'vite';
import { INNER_NAMES } from './inner-names.js';

/** Most frequent first, so that what is packed afterwards finds the same few letters everywhere. */
const LETTERS = [...'etnrisouaflchpdvmgybwESxTNCkLAOMDPHBjFIqRUzWXVJKQGYZ'];
const SHORT = [...LETTERS, ...LETTERS.flatMap((first) => LETTERS.map((second) => first + second))];

const ONCE_MORE = { passes: 3, ecma: 2020, pure_getters: true, keep_fargs: false, unsafe_arrows: true, unsafe_methods: true } as const;

/** Gives members of `INNER_NAMES` short names, the same in all files of a build, and says the rest in fewer characters. */
export function shortNames(): Plugin {
  const regex = new RegExp(`^(${INNER_NAMES.join('|')})$`);
  return {
    name: 'short-names',
    apply: 'build',
    enforce: 'post',
    // It takes seconds, as it should.
    config: () => ({ build: { rolldownOptions: { checks: { bundlerTimings: false } } } }),
    async generateBundle(_, bundle) {
      const chunks = Object.values(bundle).filter((file) => file.type === 'chunk');
      const names = shortened(chunks.map(({ code }) => code).join('\n'));
      for (const chunk of chunks) {
        const nameCache = { props: { props: { ...names } }, vars: {} };
        const { code } = await minify(chunk.code, {
          module: true,
          ecma: 2020,
          compress: ONCE_MORE,
          mangle: { properties: { regex } },
          nameCache,
        });
        chunk.code = code!;
      }
    },
  };
}

/** A short name for each (keys as terser wants them), the shortest for those that are met most; none that a member has already. */
function shortened(code: string): Record<string, string> {
  const met = new Map<string, number>();
  for (const [name] of code.matchAll(/[\w$]+/g)) met.set(name, (met.get(name) ?? 0) + 1);
  const taken = new Set(Array.from(code.matchAll(/[.{,(]\s*([\w$]+)/g), ([, name]) => name));
  const free = SHORT.filter((name) => !taken.has(name));
  const named = INNER_NAMES.filter((name) => met.has(name)).sort((a, b) => met.get(b)! - met.get(a)! || (a < b ? -1 : 1));
  return Object.fromEntries(named.map((name, i) => [`$${name}`, free[i]!]));
}
