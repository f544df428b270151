import type { Estimate } from '../../src/documents/estimate.js';
import type { Line } from '../../src/documents/lines.js';
import type { SheetChoice } from '../grid/sheet.js';
import { formatFigure, formatHours } from '../look/format.js';
import type { Reference } from './context.js';
import { lastOfSeveral, texts } from './finding-choices.js';
import { CONDITION_WORDS, KIND_WORDS } from './kinds.js';
import type { LineColumn, RowOfLines } from './line-columns.js';
import { search } from './search.js';

const CHARGE_KINDS = ['labour', 'part', 'core', 'sublet', 'fee', 'supplies'];

/** Choices for a cell of the lines grid while `typed` stands in it. */
export function lineChoices(column: LineColumn, typed: string, row: RowOfLines, estimate: Estimate, reference: Reference): SheetChoice[] {
  const line = 'line' in row ? (estimate.lines.find(({ id }) => id === row.line) ?? null) : null;
  switch (column) {
    case 'work':
      return row.of === 'spare' || line?.kind === 'operation' ? operationChoices(typed, reference) : [];
    case 'kind':
      return texts(typed, row.of === 'part' ? CONDITION_WORDS : KIND_WORDS);
    case 'where':
      return row.of === 'discount' ? lastOfSeveral(typed, CHARGE_KINDS, ',') : lastOfSeveral(typed, positionsFor(line, reference), ',');
    case 'rate':
      return classChoices(typed, reference);
    case 'tax':
      return lastOfSeveral(typed, [...reference.rates.rates.taxes.map(({ id }) => id), ...(typed.includes(',') ? [] : ['none'])], ',');
    case 'decision':
      return texts(typed, ['proposed', 'approved', 'declined', 'deferred']);
    default:
      return [];
  }
}

function operationChoices(typed: string, { catalogue, locale }: Reference): SheetChoice[] {
  const operations = catalogue.catalogue.operations.map((operation) => ({
    item: {
      text: operation.title,
      hint: `${formatHours(operation.bookHours, locale)}${operation.system === '' ? '' : `, ${operation.system}`}`,
    },
    text: `${operation.title} ${operation.system}`,
  }));
  return search(typed, operations);
}

/** Positions of the components that ask for the operation; for others, all that the catalogue knows. */
function positionsFor(line: Line | null, { catalogue }: Reference): string[] {
  const { components, remedies } = catalogue.catalogue;
  const asking = new Set(
    remedies
      .filter((remedy) => line?.kind === 'operation' && [remedy.operations, ...remedy.instead].some((way) => way.includes(line.operation)))
      .map((remedy) => remedy.component),
  );
  const near = components.filter((component) => asking.has(component.id)).flatMap((component) => component.positions);
  return [...new Set(near.length > 0 ? near : components.flatMap((component) => component.positions))];
}

function classChoices(typed: string, { rates, locale }: Reference): SheetChoice[] {
  const classes = rates.rates.labourClasses.map(({ id, title, rate }) => ({
    item: { text: title || id, hint: formatFigure(rate, locale) },
    text: `${title} ${id}`,
  }));
  return search(typed, classes);
}
