import { readFileSync } from 'node:fs';
import { type Declaration, type Described, readManifest } from './manifest.js';

/** The tables of the README, by tag, from the custom-elements manifest: made from the comments in the source. */
export function elementTables(): Map<string, string> {
  const tables = new Map<string, string>();
  for (const [tag, declaration] of readManifest('test-output/manifest')) tables.set(tag, tablesOf(declaration));
  return tables;
}

function tablesOf(declaration: Declaration): string {
  const open = (declaration.members ?? []).filter(
    (member) => member.static !== true && member.privacy === undefined && member.description !== undefined,
  );
  const properties = open.filter((member) => member.kind === 'field' && member.attribute === undefined);
  const methods = open.filter((member) => member.kind === 'method');
  return [
    table('attribute', declaration.attributes ?? [], (entry) => entry.name),
    table('property', properties, (entry) => entry.name),
    table('method', methods, (entry) => `${entry.name}()`),
    table(
      'event',
      declaration.events ?? [],
      (entry) => entry.name,
      (entry) => entry.type?.text ?? '',
    ),
    table('slot', declaration.slots ?? [], (entry) => entry.name),
    table('part', declaration.cssParts ?? [], (entry) => entry.name),
    table('state', declaration.cssStates ?? [], (entry) => `:state(${entry.name})`),
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
      const code = shown
        .replaceAll('../../components/estimate/define.js', 'baysheet/estimate/define')
        .replaceAll('../../src/index.js', 'baysheet/engine');
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
