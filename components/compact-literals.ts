import type { Plugin } from 'vite';

/** What is read of a syntax tree (ESTree). */
interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly tag?: { readonly name?: string };
  readonly quasi?: { readonly quasis: readonly Node[] };
}

const SHORTEN: Readonly<Record<string, (text: string) => string>> = { html: compactHtml, svg: compactHtml, css: compactCss };

/** Takes out of `html`, `svg` and `css` templates what only a person who edits them needs: no minifier looks into a text. */
export function compactLiterals(): Plugin {
  return {
    name: 'compact-literals',
    apply: 'build',
    transform: {
      filter: { id: /\/components\/.*\.ts$/, code: /\b(html|svg|css)`/ },
      handler(code) {
        const pieces: string[] = [];
        let at = 0;
        for (const { start, end, shorten } of texts(this.parse(code))) {
          pieces.push(code.slice(at, start), shorten(code.slice(start, end)));
          at = end;
        }
        return { code: pieces.join('') + code.slice(at), map: null };
      },
    },
  };
}

interface Text {
  readonly start: number;
  readonly end: number;
  readonly shorten: (text: string) => string;
}

/** The texts of all templates with one of the tags, in the order of the file: one template may stand inside another. */
function texts(tree: unknown): Text[] {
  const found: Text[] = [];
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    const { type, tag, quasi } = value as Node;
    const shorten = type === 'TaggedTemplateExpression' ? SHORTEN[tag!.name ?? ''] : undefined;
    if (shorten !== undefined) found.push(...quasi!.quasis.map(({ start, end }) => ({ start, end, shorten })));
    Object.values(value).forEach(visit);
  };
  visit(tree);
  return found.sort((a, b) => a.start - b.start);
}

/** White space of any length is one space on the screen, too, where a style does not say otherwise; a single word needs no quotes. */
export function compactHtml(text: string): string {
  return text.replace(/\s+/g, ' ').replace(/( [\w-]+)="([\w-]+)"(?=[ >])/g, '$1=$2');
}

/** Without comments, and without white space and figures that change nothing. */
export function compactCss(text: string): string {
  return text
    .replace(/\/\*.*?\*\//gs, '')
    .replace(/\s+/g, ' ')
    .replace(/ ?([{};,]) ?/g, '$1')
    .replace(/: /g, ':')
    .replace(/ > /g, '>')
    .replace(/ !important/g, '!important')
    .replace(/='([a-z]+)'\]/g, '=$1]')
    .replace(/;\}/g, '}')
    .replace(/(?<![\w.])0\.(?=\d)/g, '.')
    .replace(/#([0-9a-f])\1([0-9a-f])\2([0-9a-f])\3\b/gi, '#$1$2$3');
}
