/** The invented demo job as the engine reads it. */
import { readFileSync } from 'node:fs';
import { parseCatalogue, parseEstimate, parseRates } from '../../../src/index.js';
import type { Documents } from '../../../src/pricing/documents.js';

function text(path: string): string {
  return readFileSync(new URL(`../../../${path}`, import.meta.url), 'utf8');
}

function value<T>(parsed: { ok: true; value: T } | { ok: false; problems: unknown }): T {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
}

export function demoDocuments(): Documents {
  return {
    estimate: value(parseEstimate(text('demo/van.estimate.json'))),
    catalogue: value(parseCatalogue(text('rates/catalogue.demo.json'))),
    rates: value(parseRates(text('rates/card.demo.json'))),
  };
}
