import type { Plugin } from 'vite';

/** What is read of a syntax tree (ESTree). */
interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly key?: { readonly name?: string };
  readonly callee?: { readonly name?: string };
  readonly arguments?: readonly Node[];
}

/**
 * Links are written and read by one description (`src/share/slots.ts`, `layout.ts`), so that the two cannot part. For a page
 * that only opens them this takes out what writes: in these files every property of an object that is called `write`; and
 * English words of faults: those of a `RowFault` never leave the folder, and what a browser lacks the element says itself.
 */
export function withoutWriters(): Plugin {
  return {
    name: 'without-writers',
    apply: 'build',
    transform: {
      filter: { id: /\/src\/share\/(slots|layout|layout-lines|platform)\.ts$/ },
      handler(code) {
        let left = code;
        for (const { start, end } of notNeeded(this.parse(code)).reverse())
          left = left.slice(0, start) + left.slice(end).replace(/^\s*,/, '');
        return { code: left, map: null };
      },
    },
  };
}

/** In the order of the file; one that stands in another goes with it. */
function notNeeded(tree: unknown): Node[] {
  const found: Node[] = [];
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    const node = value as Node;
    if (node.type === 'Property' && node.key?.name === 'write') found.push(node);
    else if (node.type === 'NewExpression' && node.callee?.name === 'RowFault') found.push(...node.arguments!);
    else if (node.type === 'NewExpression' && node.callee?.name === 'ShareFault') found.push(node.arguments![1]!);
    else Object.values(value).forEach(visit);
  };
  visit(tree);
  return found.sort((a, b) => a.start - b.start);
}
