import { type Estimate, parseEstimate } from '../../src/documents/estimate.js';
import { error, type Parsed } from '../../src/documents/problem.js';

/** Reads an estimate from a file that a person chose. */
export async function readEstimateFile(file: File): Promise<Parsed<Estimate>> {
  try {
    return parseEstimate(await file.text());
  } catch (fault) {
    const reason = fault instanceof Error ? fault.message : String(fault);
    return { ok: false, problems: [error('unreadable', '', `${file.name} cannot be read (${reason}).`, 'Choose the file again.')] };
  }
}

/** Offers an estimate as a JSON file. */
export function downloadEstimate(estimate: Estimate, document: Document): void {
  const blob = new Blob([`${JSON.stringify(estimate, null, 2)}\n`], { type: 'application/json' });
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = `${estimate.number || estimate.id}.estimate.json`.replace(/[^\w.-]+/g, '-');
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href));
}
