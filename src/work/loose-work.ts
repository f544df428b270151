import type { Estimate } from '../documents/estimate.js';
import type { Line } from '../documents/lines.js';
import { decimal } from '../number/decimal.js';
import { type ApprovedWork, lineWords } from './approved.js';

/** An approved line that names no access step. */
export interface LooseWork {
  readonly line: string;
  readonly title: string;
  /** What sort of thing it is, in words: "sent out", "2 × HV-2043-40, to fit". Empty where the title says it all. */
  readonly what: string;
  readonly note: string;
}

/** Labour, parts and sublet work, and operations that the catalogue lacks: nothing that was approved is left out. */
export function looseWork({ estimate, index, priced }: ApprovedWork): LooseWork[] {
  const priceable = new Set(priced.lines.filter((line) => line.priced).map((line) => line.id));
  return estimate.lines.flatMap((line) => {
    if (line.decision !== 'approved' || line.kind === 'fee' || line.kind === 'note') return [];
    if (line.kind === 'operation' && priceable.has(line.id)) return [];
    return [{ line: line.id, title: lineWords(line, index), what: whatOf(line), note: line.note }];
  });
}

function whatOf(line: Line): string {
  switch (line.kind) {
    case 'part': {
      const condition = line.condition === 'new' ? '' : `${line.condition}, `;
      const count = `${line.qty} × ${line.number || 'part'}`;
      return decimal(line.qty).lt(0) ? 'goes back' : `${count}, ${condition}to fit`;
    }
    case 'sublet':
      return 'sent out';
    case 'operation':
      return 'not worked out: ask first';
    default:
      return '';
  }
}

/** What the advisor has noted beside the work. */
export function notesOf(estimate: Estimate): string[] {
  return estimate.lines.flatMap((line) =>
    line.kind === 'note' && line.decision !== 'declined' && line.decision !== 'deferred' && line.text.trim() !== '' ? [line.text] : [],
  );
}
