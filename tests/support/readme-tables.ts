import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

interface Described {
  readonly name: string;
  readonly description?: string;
  readonly attribute?: string;
  readonly default?: string;
  readonly type?: { readonly text: string };
}
interface Declaration {
  readonly tagName?: string;
  readonly members?: readonly (Described & { readonly kind: string; readonly static?: boolean; readonly privacy?: string; readonly readonly?: boolean })[];
  readonly attributes?: readonly Described[];
  readonly events?: readonly Described[];
  readonly slots?: readonly Described[];
  readonly cssParts?: readonly Described[];
  readonly cssProperties?: readonly Described[];
}

/** The tables of the README, by tag, from the custom-elements manifest: made from the comments in the source. */
export function elementTables(): Map<string, string> {
  execFileSync('npx', ['cem', 'analyze', '--quiet', '--outdir', 'test-output/manifest'], { stdio: 'pipe' });
  const manifest = JSON.parse(readFileSync('test-output/manifest/custom-elements.json', 'utf8')) as {
    modules: { declarations?: Declaration[] }[];
  };
  const tables = new Map<string, string>();
  for (const { declarations = [] } of manifest.modules) {
    for (const declaration of declarations) if (declaration.tagName !== undefined) tables.set(declaration.tagName, tablesOf(declaration));
  }
  return tables;
}

function tablesOf(declaration: Declaration): string {
  const open = (declaration.members ?? []).filter((member) => member.static !== true && member.privacy === undefined && member.description !== undefined);
  const properties = open.filter((member) => member.kind === 'field' && member.attribute === undefined);
  const methods = open.filter((member) => member.kind === 'method');
  return [
    table('attribute', declaration.attributes ?? [], (entry) => entry.name),
    table('property', properties, (entry) => entry.name),
    table('method', methods, (entry) => `${entry.name}()`),
    table('event', declaration.events ?? [], (entry) => entry.name, (entry) => entry.type?.text ?? ''),
    table('slot', declaration.slots ?? [], (entry) => entry.name),
    table('part', declaration.cssParts ?? [], (entry) => entry.name),
    table('custom property', declaration.cssProperties ?? [], (entry) => entry.name),
  ]
    .filter((text) => text !== '')
    .join('\n\n');
}

function table(
  head: string,
  entries: readonly Described[],
  name: (entry: Described) => string,
  type: (entry: Described) => string = () => '',
): string {
  if (entries.length === 0) return '';
  const rows = entries.map((entry) => {
    const detail = type(entry) === '' ? '' : ` \`${type(entry)}\``;
    return `| \`${name(entry)}\` | ${(entry.description ?? '').replace(/\s+/g, ' ')}${detail} |`;
  });
  return [`| ${head} | |`, '|---|---|', ...rows].join('\n');
}

/** The pages of the demonstration whose code the README shows. */
const SHOWN = ['demo/hosts/react-sheet.tsx', 'demo/hosts/VueSheet.vue', 'demo/hosts/back-end.ts'];

/**
 * Code of the demonstration for the README, by file: what stands between its marks, or all of it, with the addresses that
 * somebody imports from who has Baysheet as a package.
 */
export function shownCode(): Map<string, string> {
  return new Map(
    SHOWN.map((path) => {
      const text = readFileSync(path, 'utf8');
      const shown = /\/\/ #region readme\n(.*?)\/\/ #endregion/s.exec(text)?.[1] ?? text;
      const code = shown.replaceAll('../../components/estimate/define.js', 'baysheet/estimate/define').replaceAll('../../src/index.js', 'baysheet/engine');
      return [path, `\`\`\`${path.split('.').at(-1)}\n${code.trim()}\n\`\`\``];
    }),
  );
}

/** A text with what stands between its marks for `name` exchanged. */
export function betweenMarks(text: string, name: string, content: string): string {
  const [open, close] = [`<!-- generated: ${name} -->`, '<!-- /generated -->'];
  const from = text.indexOf(open);
  const to = text.indexOf(close, from);
  if (from < 0 || to < 0) throw new Error(`The marks ${open} … ${close} are missing.`);
  return `${text.slice(0, from + open.length)}\n${content}\n${text.slice(to)}`;
}
