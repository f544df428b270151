/** The demonstration van with lines approved, for what the workshop's papers say of it. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Documents, parseCatalogue, parseEstimate, parseRates, type Parsed } from '../../../src/index.js';

function read<T>(path: string, parse: (text: string) => Parsed<T>): T {
  const parsed = parse(readFileSync(fileURLToPath(new URL(`../../../${path}`, import.meta.url)), 'utf8'));
  if (!parsed.ok) throw new Error(`${path} must be valid`);
  return parsed.value;
}

/** @param approved ids of the lines that are approved; all that were proposed without it */
export function van(approved?: readonly string[]): Documents {
  const estimate = read('demo/van.estimate.json', parseEstimate);
  const lines = estimate.lines.map((line) => {
    const takes = line.kind !== 'note' && (approved === undefined ? line.decision === 'proposed' : approved.includes(line.id));
    return takes ? { ...line, decision: 'approved' as const } : line;
  });
  return {
    estimate: { ...estimate, lines },
    catalogue: read('rates/catalogue.demo.json', parseCatalogue),
    rates: read('rates/card.demo.json', parseRates),
  };
}
