import type { Catalogue } from '../../src/documents/catalogue.js';
import type { Rates } from '../../src/documents/rates.js';
import { canonicalJson } from '../../src/versions/canonical-json.js';

/** Whether a document says something else than what is saved. */
export function isUnsaved(now: Rates | Catalogue | null, saved: Rates | Catalogue | null): boolean {
  return now !== null && saved !== null && now !== saved && textOf(now) !== textOf(saved);
}

const texts = new WeakMap<object, string>();

/** What a document says, made once for each: nothing changes one in place. */
function textOf(document: Rates | Catalogue): string {
  const known = texts.get(document) ?? canonicalJson(document);
  texts.set(document, known);
  return known;
}
