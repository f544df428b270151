import type { Catalogue } from '../../src/documents/catalogue.js';
import type { Estimate, Finding } from '../../src/documents/estimate.js';
import type { SheetChoice } from '../grid/sheet.js';
import type { Reference } from './context.js';
import type { FindingColumn } from './finding-columns.js';
import { waysFor } from './remedies.js';
import { type Findable, search } from './search.js';

/** What a choice for the component column stands for. */
export interface Found {
  readonly component: string;
  readonly position: string;
  readonly fault: string;
}

/** Stands between component, position and fault where one entry names all. */
const BETWEEN = ' · ';

/** Ways of seeing that any workshop has; those that the estimate's rounds and findings use come first. */
const WAYS_OF_SEEING = ['by eye', 'by hand', 'by ear', 'dye trace', 'pressure drop', 'gauge', 'test meter', 'road test'];

/** Choices for a cell of the findings grid while `typed` stands in it. */
export function findingChoices(
  column: FindingColumn,
  typed: string,
  finding: Finding | null,
  estimate: Estimate,
  reference: Reference,
): SheetChoice[] {
  const { catalogue } = reference.catalogue;
  switch (column) {
    case 'component':
      return search(typed, componentChoices(catalogue));
    case 'position':
      return texts(typed, componentOf(finding, catalogue)?.positions ?? []);
    case 'fault':
      return texts(typed, faultsOf(finding, catalogue));
    case 'seen':
      return lastOfSeveral(typed, [
        ...new Set([...estimate.findings.flatMap((other) => other.seen.map((evidence) => evidence.how)), ...WAYS_OF_SEEING]),
      ]);
    case 'urgency':
      return texts(typed, ['unsafe', 'now', 'soon', 'watch']);
    case 'remedy':
      return remedyChoices(typed, finding, reference);
    case 'round':
    case 'text':
      return [];
  }
}

/** Components alone, then each with its faults and positions, so that one entry can say all. */
function componentChoices(catalogue: Catalogue): Findable<SheetChoice>[] {
  const alone = catalogue.components.map(({ title }) => ({ item: { text: title }, text: title }));
  const whole = foundChoices(catalogue).map(({ text }) => ({ item: { text }, text }));
  return [...alone, ...whole];
}

/** Every component with every fault, with and without a position, and how each is written. */
export function foundChoices(catalogue: Catalogue): (Found & { readonly text: string })[] {
  return catalogue.components.flatMap(({ id, title, positions }) => {
    const faults = catalogue.remedies.filter((remedy) => remedy.component === id).map((remedy) => remedy.fault);
    return faults.flatMap((fault) =>
      ['', ...positions].map((position) => ({
        component: id,
        position,
        fault,
        text: [title, position, fault].filter((part) => part !== '').join(BETWEEN),
      })),
    );
  });
}

function componentOf(finding: Finding | null, catalogue: Catalogue): Catalogue['components'][number] | undefined {
  return catalogue.components.find((component) => component.id === finding?.component);
}

function faultsOf(finding: Finding | null, catalogue: Catalogue): string[] {
  const remedies = catalogue.remedies.filter(
    (remedy) => finding === null || finding.component === '' || remedy.component === finding.component,
  );
  return [...new Set(remedies.map((remedy) => remedy.fault))];
}

function remedyChoices(typed: string, finding: Finding | null, { catalogue }: Reference): SheetChoice[] {
  const ways =
    finding === null ? [] : waysFor(finding, catalogue).map((way, i) => ({ text: way.text, hint: i === 0 ? 'remedy' : 'instead' }));
  const operations = catalogue.catalogue.operations.map((operation) => ({ text: operation.title, hint: operation.system }));
  return search(
    typed,
    [...ways, ...operations].map((item) => ({ item, text: item.text })),
  );
}

export function texts(typed: string, all: readonly string[]): SheetChoice[] {
  return search(
    typed,
    all.filter((text) => text !== '').map((text) => ({ item: { text }, text })),
  );
}

/** Choices for the last of several entries with a mark between them; those before it stay. */
export function lastOfSeveral(typed: string, all: readonly string[], mark = ';'): SheetChoice[] {
  const at = typed.lastIndexOf(mark);
  const before = at < 0 ? '' : `${typed.slice(0, at + 1).trim()} `;
  const there = new Set(typed.split(mark).map((part) => part.trim()));
  return texts(
    typed.slice(at + 1),
    all.filter((text) => !there.has(text)),
  ).map(({ text }) => ({ text: `${before}${text}` }));
}
