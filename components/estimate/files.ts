import type { Estimate } from '../../src/documents/estimate.js';

/** Offers an estimate as a JSON file. */
export function downloadEstimate(estimate: Estimate, document: Document): void {
  downloadText(`${JSON.stringify(estimate, null, 2)}\n`, 'application/json', `${estimate.number || estimate.id}.estimate.json`, document);
}

/** Offers a text as a file. */
export function downloadText(text: string, type: string, name: string, document: Document): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name.replace(/[^\w.-]+/g, '-');
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href));
}
