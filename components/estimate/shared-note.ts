import { decimal } from '../../src/number/decimal.js';
import type { PricedLine, PricedStep } from '../../src/pricing/priced-estimate.js';
import { formatFigure } from '../look/format.js';
import type { SheetView } from './context.js';

/**
 * Who pays for the hours that a line shares, and for whom it pays, in words: what its shared cell says on hover and to a
 * screen reader. Looks the estimate through once, for the notes of all lines.
 */
export function sharedNotes({ priced, locale }: SheetView): (line: PricedLine) => string {
  const titles = new Map(priced.lines.map((line) => [line.id, line.title]));
  const title = (id: string): string => `“${titles.get(id) ?? id}”`;
  const hours = (text: string): string => `${formatFigure(text, locale)} h`;
  const named = (step: PricedStep): string => (step.position === null ? step.title : `${step.title}, ${step.position}`);

  const steps = new Map(priced.overlap.steps.map((step) => [stepKey(step), step]));
  const pairs = new Map(priced.overlap.pairs.map((pair) => [pair.between[1], pair]));

  return (line) => {
    if (line.includedIn !== null) return `Done as part of ${title(line.includedIn)}, which carries all of it`;
    const notes = line.uses.flatMap((use) => {
      const step = steps.get(stepKey(use));
      if (step === undefined || step.lines.length < 2 || decimal(step.hours).isZero()) return [];
      if (use.carriedBy !== line.id) return [`${named(step)}: ${hours(step.hours)}, carried by ${title(use.carriedBy)}`];
      const others = step.lines.filter((id) => id !== line.id);
      return [`Carries ${hours(step.hours)} of “${named(step)}”, also for ${listed(others.map(title))}`];
    });
    const pair = pairs.get(line.id);
    if (pair !== undefined) notes.push(`Declared overlap: ${hours(pair.hours)}, done with ${title(pair.between[0])}`);
    return notes.join('; ');
  };
}

/** A list that stays readable however long it is. */
function listed(all: readonly string[]): string {
  const most = 4;
  return all.length <= most ? all.join(', ') : `${all.slice(0, most - 1).join(', ')} and ${all.length - most + 1} more`;
}

function stepKey({ step, position }: { readonly step: string; readonly position: string | null }): string {
  return `${step}@${position ?? ''}`;
}
