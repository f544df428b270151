import { type Estimate, parseEstimate } from '../../src/documents/estimate.js';
import { LIMITS } from '../../src/documents/limits.js';
import { error, type Parsed } from '../../src/documents/problem.js';

/** With photos, some hundreds of them. */
const MOST_CHARACTERS = 300_000_000;

/** Reads an estimate from a file that a person chose. */
export async function readEstimateFile(file: File): Promise<Parsed<Estimate>> {
  try {
    return parseEstimate(withPhotosAside(await file.text()));
  } catch (fault) {
    const reason = fault instanceof Error ? fault.message : String(fault);
    return { ok: false, problems: [error('unreadable', '', `${file.name} cannot be read (${reason}).`, 'Choose the file again.')] };
  }
}

/** The photos in a file make it far longer than what a person types; the limit is meant for that, so it is not the text that is measured. */
function withPhotosAside(text: string): unknown {
  if (text.length <= LIMITS.characters || text.length > MOST_CHARACTERS) return text;
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}
