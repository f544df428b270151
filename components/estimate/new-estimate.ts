import { type Estimate, parseEstimate } from '../../src/documents/estimate.js';

/** An estimate with nothing in it yet. */
export function newEstimate(now: Date): Estimate {
  const parsed = parseEstimate({
    format: 'baysheet-estimate',
    version: 1,
    id: `e-${now.getTime().toString(36)}`,
    createdAt: now.toISOString(),
    rounds: [{ n: 1 }],
  });
  if (!parsed.ok) throw new Error('A new estimate must be valid.');
  return parsed.value;
}
