import { parseCatalogue } from '../documents/catalogue.js';
import type { Problem } from '../documents/problem.js';
import { parseRates } from '../documents/rates.js';
import { checkCard } from './check-card.js';

/**
 * What the owner of a rate card should know: whatever `parseRates` finds (gaps and disorder between tiers among it),
 * mark-up cliffs, kinds of charge that no tax names, taxes and supplies that touch nothing; with a catalogue also labour
 * classes and fees that operations name and the card lacks.
 *
 * @param json a rate card as JSON text, as a parsed value, or as `parseRates` returned it
 * @param catalogue the catalogue that it is used with, in the same forms; one that cannot be read is passed over here
 */
export function checkRates(json: unknown, catalogue?: unknown): Problem[] {
  const read = parseRates(json);
  if (!read.ok) return [...read.problems];
  const other = catalogue === undefined || catalogue === null ? null : parseCatalogue(catalogue);
  return [...read.problems, ...checkCard(read.value, other?.ok ? other.value : null)];
}
