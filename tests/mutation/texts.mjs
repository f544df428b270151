/**
 * Leaves sentences for people out of mutation: tests ask for the code and the path of a problem, not for its words, so a
 * sentence that is exchanged for another text would survive without telling anything. What a program reads is never a
 * sentence here: identifiers, codes, paths, reasons of two or three words are mutated.
 */
export const strykerPlugins = [{ kind: 'Ignore', name: 'texts', value: { shouldIgnore } }];

/** @param {{ node: any }} path */
function shouldIgnore({ node }) {
  const text = textOf(node);
  if (text === null) return undefined;
  const words = text.match(/[\p{L}\p{N}’']+/gu) ?? [];
  const isSentence = words.length > 3 || (words.length > 1 && /^\p{Lu}.*\.$/u.test(text));
  return isSentence ? 'a sentence for people' : undefined;
}

/**
 * What stands in a string or a template; null for any other node.
 *
 * @param {any} node
 */
function textOf(node) {
  if (node.type === 'StringLiteral') return node.value;
  if (node.type === 'TemplateLiteral') return node.quasis.map((/** @type {any} */ quasi) => quasi.value.raw).join(' X ');
  return null;
}
