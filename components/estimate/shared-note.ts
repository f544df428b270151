import { decimal } from '../../src/number/decimal.js';
import type { PricedLine } from '../../src/pricing/priced-estimate.js';
import { formatFigure } from '../look/format.js';
import type { SheetView } from './context.js';

/** Who pays for the hours that a line shares, in words: what its shared cell says on hover and to a screen reader. */
export function sharedNote(line: PricedLine, view: SheetView): string {
  const title = (id: string): string => view.priced.lines.find((other) => other.id === id)?.title ?? id;
  if (line.includedIn !== null) return `Done as part of “${title(line.includedIn)}”, which carries all of it`;

  const steps = new Map(view.priced.overlap.steps.map((step) => [`${step.step}@${step.position ?? ''}`, step]));
  const notes = line.uses.flatMap((use) => {
    if (use.carriedBy === line.id) return [];
    const step = steps.get(`${use.step}@${use.position ?? ''}`);
    if (step === undefined || decimal(step.hours).isZero()) return [];
    const where = step.position === null ? '' : `, ${step.position}`;
    return [`${step.title}${where}: ${formatFigure(step.hours, view.locale)} h, carried by “${title(use.carriedBy)}”`];
  });
  const pairs = view.priced.overlap.pairs
    .filter((pair) => pair.between[1] === line.id)
    .map((pair) => `Declared overlap: ${formatFigure(pair.hours, view.locale)} h, done with “${title(pair.between[0])}”`);
  const carried = view.priced.overlap.steps.filter((step) => step.carriedBy === line.id && step.lines.length > 1);
  const carries = carried.map((step) => `Carries “${step.title}” (${formatFigure(step.hours, view.locale)} h) also for ${step.lines.filter((id) => id !== line.id).map(title).join(', ')}`);
  return [...notes, ...pairs, ...carries].join('; ');
}
