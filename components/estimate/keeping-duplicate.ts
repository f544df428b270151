import type { Estimate } from '../../src/documents/estimate.js';

/** An id that no estimate has, here or on another machine. */
function freshId(now = new Date()): string {
  const drawn = Array.from(crypto.getRandomValues(new Uint8Array(4)), (byte) => byte.toString(16).padStart(2, '0')).join('');
  return `e-${now.getTime().toString(36)}-${drawn}`;
}

/** The estimate under another id, with all that was agreed. */
export function copyOf(estimate: Estimate): Estimate {
  return { ...estimate, id: freshId(), number: copyNumber(estimate) };
}

function copyNumber({ number }: Estimate): string {
  return number === '' ? '' : `${number} (copy)`;
}

/**
 * A new job with the same findings and lines: nothing of it is decided or agreed to yet, and it is priced under the card
 * in force.
 */
export function duplicate(estimate: Estimate, now = new Date()): Estimate {
  const { quoted: _, partsRun: __, ...rest } = estimate;
  return {
    ...rest,
    id: freshId(now),
    number: copyNumber(estimate),
    revision: 1,
    createdAt: now.toISOString(),
    lines: estimate.lines.map((line) => ({ ...line, decision: 'proposed' })),
    consents: [],
    history: [],
  };
}
