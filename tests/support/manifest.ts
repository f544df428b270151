import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

export interface Described {
  readonly name: string;
  readonly description?: string;
  readonly attribute?: string;
  readonly default?: string;
  readonly type?: { readonly text: string };
}

export interface Declaration {
  readonly tagName?: string;
  readonly members?: readonly (Described & {
    readonly kind: string;
    readonly static?: boolean;
    readonly privacy?: string;
    readonly readonly?: boolean;
  })[];
  readonly attributes?: readonly (Described & { readonly fieldName?: string })[];
  readonly events?: readonly Described[];
  readonly slots?: readonly Described[];
  readonly cssParts?: readonly Described[];
  readonly cssStates?: readonly Described[];
  readonly cssProperties?: readonly Described[];
}

/** What the comments in the source say of the elements, by tag: the custom-elements manifest, made anew in `outdir`. */
export function readManifest(outdir: string): Map<string, Declaration> {
  execFileSync('npx', ['cem', 'analyze', '--quiet', '--outdir', outdir], { stdio: 'pipe' });
  const { modules } = JSON.parse(readFileSync(`${outdir}/custom-elements.json`, 'utf8')) as { modules: { declarations?: Declaration[] }[] };
  const all = modules.flatMap(({ declarations = [] }) => declarations);
  return new Map(all.flatMap((declaration) => (declaration.tagName === undefined ? [] : [[declaration.tagName, declaration]])));
}
