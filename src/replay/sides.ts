import { type Catalogue, parseCatalogue } from '../documents/catalogue.js';
import { error, inDocument, type Problem } from '../documents/problem.js';
import { parseRates, type Rates } from '../documents/rates.js';
import { type CatalogueIndex, indexCatalogue } from '../overlap/catalogue-index.js';
import { indexRates, type RateIndex } from '../pricing/rate-index.js';

/** What one side of a replay is priced with: a rate card, or a rate card and a catalogue of its own. */
export type ReplaySide = Rates | { readonly rates: Rates; readonly catalogue?: Catalogue | null };

/** A side, checked and prepared. */
export interface IndexedSide {
  readonly index: CatalogueIndex;
  readonly rates: RateIndex;
}

export interface IndexedSides {
  readonly before: IndexedSide;
  readonly after: IndexedSide;
}

/**
 * Checks what two sides are priced with.
 *
 * @returns problems whose paths begin with `catalogue`, `before` or `after`; two currencies cannot be compared
 */
export function indexSides(
  catalogue: Catalogue,
  before: ReplaySide,
  after: ReplaySide,
): { readonly ok: true; readonly sides: IndexedSides } | { readonly ok: false; readonly problems: Problem[] } {
  const common = parseCatalogue(catalogue);
  const shared = common.ok ? indexCatalogue(common.value) : null;
  const problems = common.ok ? [] : inDocument('catalogue', common.problems);
  const sides = { before: indexSide('before', before, shared, problems), after: indexSide('after', after, shared, problems) };
  if (sides.before === null || sides.after === null || problems.length > 0) return { ok: false, problems };
  const [from, to] = [sides.before.rates.rates.currency, sides.after.rates.rates.currency];
  if (from !== to) {
    const message = `The card before is in ${from}, the card after in ${to}: their figures cannot be compared.`;
    return { ok: false, problems: [error('other-currency', 'after.currency', message, 'Choose two cards of one currency.')] };
  }
  return { ok: true, sides: { before: sides.before, after: sides.after } };
}

function indexSide(name: 'before' | 'after', side: ReplaySide, shared: CatalogueIndex | null, problems: Problem[]): IndexedSide | null {
  const own = side !== null && typeof side === 'object' && 'rates' in side ? side : { rates: side };
  const rates = parseRates(own.rates);
  if (!rates.ok) problems.push(...inDocument(name, rates.problems));
  const catalogue = own.catalogue == null ? null : parseCatalogue(own.catalogue);
  if (catalogue !== null && !catalogue.ok) problems.push(...inDocument(`${name}.catalogue`, catalogue.problems));
  const index = catalogue === null ? shared : catalogue.ok ? indexCatalogue(catalogue.value) : null;
  return rates.ok && index !== null ? { index, rates: indexRates(rates.value) } : null;
}
