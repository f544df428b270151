import type { PartNeed } from '../documents/catalogue.js';
import type { CatalogueDraft, CatalogueList, CatalogueLists, CatalogueRow } from './catalogue-draft.js';

/** What entries of a catalogue name by id: its own lists, and two of the rate card. */
export type LinkTarget = 'operations' | 'steps' | 'parts' | 'components' | 'cautions' | 'methods' | 'fees' | 'labourClasses';

/** Another id for a link, the same one, or null to drop it. */
export type LinkChange = (id: string) => string | null;

/**
 * An entry with its links to `target` changed; the same object where none changes, null where the entry says nothing
 * without the one that was dropped: a remedy without its component or any operation, an overlap without one of its two.
 */
export function changeLinks<T extends CatalogueRow>(list: CatalogueList, row: T, target: LinkTarget, change: LinkChange): T | null {
  const changed = changers[list](row as never, target, change);
  return changed as T | null;
}

/** Where an entry is named, and what becomes of that place when the entry goes. */
export interface Use {
  readonly list: CatalogueList;
  readonly key: string;
  readonly row: CatalogueRow;
  /** The field that names it. */
  readonly field: string;
  /** True where the whole entry would go with it, not only the mention. */
  readonly goes: boolean;
}

/** Every place that names one of `ids`, entries of `target`. `except`: rows of that list which are about to go themselves. */
export function usesOf(
  draft: CatalogueDraft,
  target: LinkTarget,
  ids: ReadonlySet<string>,
  except: ReadonlySet<string> = new Set(),
): Use[] {
  const drop: LinkChange = (id) => (ids.has(id) ? null : id);
  const mark: LinkChange = (id) => (ids.has(id) ? `${id} ` : id);
  return (Object.keys(changers) as CatalogueList[]).flatMap((list) =>
    (draft[list] as readonly CatalogueRow[]).flatMap((row): Use[] => {
      if (list === target && except.has(row.key)) return [];
      const marked = changeLinks(list, row, target, mark);
      if (marked === row || marked === null) return [];
      const field = Object.keys(row).find((key) => row[key as keyof CatalogueRow] !== marked[key as keyof CatalogueRow])!;
      return [{ list, key: row.key, row, field, goes: changeLinks(list, row, target, drop) === null }];
    }),
  );
}

/** How many entries name each id, by target: one pass over the whole catalogue. */
export function countUses(draft: CatalogueDraft): ReadonlyMap<LinkTarget, ReadonlyMap<string, number>> {
  const counts = new Map<LinkTarget, Map<string, number>>(TARGETS.map((target) => [target, new Map()]));
  for (const list of Object.keys(changers) as CatalogueList[]) {
    for (const row of draft[list] as readonly CatalogueRow[]) {
      for (const [target, id] of linksOf(list, row)) {
        const count = counts.get(target)!;
        count.set(id, (count.get(id) ?? 0) + 1);
      }
    }
  }
  return counts;
}

type Link = readonly [target: LinkTarget, id: string];
const knownLinks = new WeakMap<CatalogueRow, readonly Link[]>();

/** What an entry names, each once. */
function linksOf(list: CatalogueList, row: CatalogueRow): readonly Link[] {
  const known = knownLinks.get(row);
  if (known !== undefined) return known;
  const found = TARGETS_OF[list].flatMap((target) => {
    const ids = new Set<string>();
    changeLinks(list, row, target, (id) => {
      ids.add(id);
      return id;
    });
    return [...ids].map((id): Link => [target, id]);
  });
  knownLinks.set(row, found);
  return found;
}

/** The one table of what names what. */
const TARGETS_OF: Readonly<Record<CatalogueList, readonly LinkTarget[]>> = {
  operations: ['labourClasses', 'steps', 'operations', 'parts', 'fees', 'cautions'],
  steps: ['steps', 'parts', 'cautions'],
  parts: [],
  remedies: ['components', 'operations'],
  components: [],
  cautions: [],
  overlaps: ['operations'],
  methods: ['cautions', 'operations'],
};
const TARGETS: readonly LinkTarget[] = ['operations', 'steps', 'parts', 'components', 'cautions', 'methods', 'fees', 'labourClasses'];

type Changers = {
  readonly [L in CatalogueList]: (entry: CatalogueLists[L], target: LinkTarget, change: LinkChange) => CatalogueLists[L] | null;
};

const changers: Changers = {
  operations(operation, target, change) {
    switch (target) {
      case 'labourClasses':
        return withField(operation, 'labourClass', change(operation.labourClass) ?? operation.labourClass);
      case 'steps':
        return withField(operation, 'steps', links(operation.steps, change));
      case 'operations':
        return withField(operation, 'includes', links(operation.includes, change));
      case 'parts':
        return withField(operation, 'parts', needs(operation.parts, change));
      case 'fees':
        return withField(operation, 'fees', links(operation.fees, change));
      case 'cautions':
        return withField(operation, 'cautions', links(operation.cautions, change));
      default:
        return operation;
    }
  },
  steps(step, target, change) {
    switch (target) {
      case 'steps':
        return withField(step, 'needs', links(step.needs, change));
      case 'parts':
        return withField(step, 'parts', needs(step.parts, change));
      case 'cautions':
        return withField(step, 'cautions', links(step.cautions, change));
      default:
        return step;
    }
  },
  parts: (part) => part,
  remedies(remedy, target, change) {
    if (target === 'components') {
      const component = change(remedy.component);
      return component === null ? null : withField(remedy, 'component', component);
    }
    if (target !== 'operations') return remedy;
    const ways = [remedy.operations, ...remedy.instead];
    const changed = ways.map((way) => links(way, change));
    if (changed.every((way, i) => way === ways[i])) return remedy;
    // A way that has lost its last operation is none; the next one takes the place of the first.
    const [operations, ...instead] = changed.filter((way, i) => way.length > 0 || ways[i]!.length === 0);
    return operations === undefined ? null : { ...withField(remedy, 'operations', operations), instead };
  },
  components: (component) => component,
  cautions: (caution) => caution,
  overlaps(overlap, target, change) {
    if (target !== 'operations') return overlap;
    const [a, b] = overlap.between.map(change) as [string | null, string | null];
    if (a === null || b === null) return null;
    return a === overlap.between[0] && b === overlap.between[1] ? overlap : { ...overlap, between: [a, b] };
  },
  methods(method, target, change) {
    if (target === 'cautions') return withField(method, 'cautions', links(method.cautions, change));
    if (target !== 'operations' || method.closing === null) return method;
    return withField(method, 'closing', change(method.closing));
  },
};

function withField<T extends object, K extends keyof T>(entry: T, field: K, value: T[K]): T {
  return entry[field] === value ? entry : { ...entry, [field]: value };
}

/** The same list where nothing changes; what a change makes equal stands once. */
function links(ids: string[], change: LinkChange): string[] {
  const changed = ids.flatMap((id) => change(id) ?? []);
  return changed.length === ids.length && changed.every((id, i) => id === ids[i]) ? ids : [...new Set(changed)];
}

function needs(parts: PartNeed[], change: LinkChange): PartNeed[] {
  const changed = parts.flatMap((need) => {
    const part = change(need.part);
    return part === null ? [] : part === need.part ? need : { ...need, part };
  });
  return changed.length === parts.length && changed.every((need, i) => need === parts[i]) ? parts : changed;
}
