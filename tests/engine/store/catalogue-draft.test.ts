/** The catalogue as it is worked on: another id is taken everywhere, and what goes takes its uses along. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Catalogue, parseCatalogue } from '../../../src/documents/catalogue.js';
import { priceEstimate } from '../../../src/index.js';
import {
  CATALOGUE_LISTS,
  type CatalogueCommand,
  type CatalogueList,
  type CatalogueRow,
  CatalogueStore,
  draftCatalogue,
  freshKey,
  reduceCatalogue,
  stateOf,
} from '../../../src/store/catalogue-draft.js';
import { countUses, type LinkTarget, usesOf } from '../../../src/store/catalogue-links.js';
import { type Drawing, forAll, randomDocuments } from '../../support/arbitraries.js';
import { aCatalogue, anOperation, aPart, aStep, readDocuments } from '../../support/builders.js';

function read(json: unknown): Catalogue {
  const parsed = parseCatalogue(json);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
}
const demo = read(readFileSync(new URL('../../../rates/catalogue.demo.json', import.meta.url), 'utf8'));
const after = (catalogue: Catalogue, ...commands: CatalogueCommand[]): Catalogue =>
  draftCatalogue(commands.reduce(reduceCatalogue, stateOf(catalogue)).draft);
const ID_LISTS = ['operations', 'steps', 'parts', 'components', 'cautions', 'methods'] as const;

/** One entry of a list under another id. */
function renaming(catalogue: Catalogue, list: CatalogueList, at: number, id: string): CatalogueCommand {
  const row = stateOf(catalogue).draft[list][at] as CatalogueRow;
  return { do: 'put', list, entries: [{ ...row, id }] } as CatalogueCommand;
}

describe('a draft', () => {
  it('stands for the catalogue it was made from, and keeps what does not change', () => {
    expect(after(demo)).toEqual(demo);
    const state = stateOf(demo);
    const next = reduceCatalogue(state, { do: 'put', list: 'parts', entries: [{ ...state.draft.parts[0]!, title: 'Other' }] });
    expect(next.draft.operations).toBe(state.draft.operations);
    expect(draftCatalogue(next.draft).parts[1]).toBe(draftCatalogue(state.draft).parts[1]);
    expect(draftCatalogue(next.draft)).toBe(draftCatalogue(next.draft));
  });

  it('holds everything that a catalogue may say, lists without an id too', () => {
    forAll(100, (d) => {
      const { catalogue } = readDocuments(randomDocuments(d));
      expect(after(catalogue)).toEqual(catalogue);
    });
  });

  it('commands that change nothing leave the state as it was', () => {
    const state = stateOf(demo);
    const same: CatalogueCommand[] = [
      { do: 'put', list: 'steps', entries: [state.draft.steps[0]!] },
      { do: 'remove', list: 'steps', keys: ['none'] },
      { do: 'move', list: 'steps', keys: ['0'], before: '0' },
      { do: 'set', fields: { title: demo.title } },
      { do: 'follow', target: 'fees', from: 'none', to: 'other' },
      { do: 'pend', cells: new Map([['steps:0 id', null]]) },
    ];
    for (const command of same) expect(reduceCatalogue(state, command), command.do).toBe(state);
  });

  it('rows come, move and go, and one step of undo brings each back', () => {
    const store = new CatalogueStore(demo);
    const ids = (): string[] => store.getState().draft.steps.map(({ id }) => id);
    const first = ids();
    store.dispatch(
      [{ do: 'insert', list: 'steps', entries: [{ ...store.getState().draft.steps[0]!, key: freshKey(), id: 'new' }], before: '1' }],
      'entry',
    );
    expect(ids()).toEqual([first[0], 'new', ...first.slice(1)]);
    store.dispatch([{ do: 'move', list: 'steps', keys: ['1'], before: '0' }], 'move');
    expect(ids().slice(0, 3)).toEqual([first[1], first[0], 'new']);
    store.undo();
    store.undo();
    expect(ids()).toEqual(first);
    store.redo();
    expect(ids()[1]).toBe('new');
  });
});

describe('another id', () => {
  it('is taken everywhere in the demo catalogue, for every list', () => {
    for (const list of ID_LISTS) {
      const named = new Set([...(countUses(stateOf(demo).draft).get(list)?.keys() ?? [])]);
      const at = Math.max(
        0,
        (demo[list] ?? []).findIndex(({ id }) => named.has(id)),
      );
      const renamed = after(demo, renaming(demo, list, at, 'renamed'));
      expect(parseCatalogue(renamed).ok, list).toBe(true);
      const { id } = demo[list]![at]!;
      expect(usesOf(stateOf(renamed).draft, list as LinkTarget, new Set([id])), list).toEqual([]);
      expect(usesOf(stateOf(renamed).draft, list as LinkTarget, new Set(['renamed'])).length, list).toBe(
        usesOf(stateOf(demo).draft, list as LinkTarget, new Set([id])).length,
      );
    }
  });

  it('leaves a catalogue that reads and prices as before', () => {
    forAll(120, (d) => {
      const { estimate, catalogue, rates } = readDocuments(randomDocuments(d));
      const list = d.pick(['operations', 'steps', 'parts'] as const);
      if (catalogue[list].length === 0) return;
      const at = d.int(0, catalogue[list].length - 1);
      const from = catalogue[list][at]!.id;
      const renamed = after(catalogue, renaming(catalogue, list, at, 'renamed'));
      expect(parseCatalogue(renamed).ok).toBe(true);

      // Estimates name operations and parts by their ids, so they are told the new one too.
      const rename = (id: string): string => (id === from ? 'renamed' : id);
      const told = {
        ...estimate,
        lines: estimate.lines.map((line) =>
          line.kind !== 'operation'
            ? line
            : {
                ...line,
                operation: list === 'operations' ? rename(line.operation) : line.operation,
                parts: list === 'parts' ? line.parts.map((part) => ({ ...part, part: rename(part.part) })) : line.parts,
              },
        ),
      };
      expect(priceEstimate({ estimate: told, catalogue: renamed, rates }).totals).toEqual(
        priceEstimate({ estimate, catalogue, rates }).totals,
      );
    });
  });

  it('and back again is the catalogue as it was', () => {
    forAll(120, (d) => {
      const { catalogue } = readDocuments(randomDocuments(d));
      const list = d.pick(['operations', 'steps', 'parts'] as const);
      if (catalogue[list].length === 0) return;
      const at = d.int(0, catalogue[list].length - 1);
      const there = after(catalogue, renaming(catalogue, list, at, 'renamed'));
      expect(after(there, renaming(there, list, at, catalogue[list][at]!.id))).toEqual(catalogue);
    });
  });

  it('two that change places in one command do so everywhere', () => {
    const { steps } = stateOf(demo).draft;
    const swapped = after(demo, {
      do: 'put',
      list: 'steps',
      entries: [
        { ...steps[0]!, id: steps[1]!.id },
        { ...steps[1]!, id: steps[0]!.id },
      ],
    });
    const [a, b] = [steps[0]!.id, steps[1]!.id];
    const swap = (id: string): string => (id === a ? b : id === b ? a : id);
    expect(swapped.operations.map((operation) => operation.steps)).toEqual(demo.operations.map((operation) => operation.steps.map(swap)));
    expect(parseCatalogue(swapped).ok).toBe(true);
  });

  it('of a fee or a labour class in the rate card is followed', () => {
    const followed = after(
      demo,
      { do: 'follow', target: 'fees', from: 'coolant-disposal', to: 'disposal' },
      { do: 'follow', target: 'labourClasses', from: 'general', to: 'repair' },
    );
    expect(followed.operations.some(({ fees }) => fees.includes('coolant-disposal'))).toBe(false);
    expect(followed.operations.filter(({ fees }) => fees.includes('disposal')).length).toBe(
      demo.operations.filter(({ fees }) => fees.includes('coolant-disposal')).length,
    );
    expect(followed.operations.some(({ labourClass }) => labourClass === 'general')).toBe(false);
  });
});

describe('what is in use', () => {
  const catalogue = read(
    aCatalogue({
      cautions: [{ id: 'hot', text: 'Hot' }],
      components: [{ id: 'hose', title: 'Hose', positions: [] }],
      parts: [aPart('seal', '1')],
      steps: [aStep('tray', '0.2', { cautions: ['hot'] }), aStep('drain', '0.6', { needs: ['tray'], parts: [{ part: 'seal', qty: '1' }] })],
      operations: [
        anOperation('a', '1', { steps: ['drain'] }),
        anOperation('b', '2', { steps: ['drain', 'tray'], includes: ['a'], parts: [{ part: 'seal', qty: '2' }] }),
        anOperation('c', '1'),
      ],
      remedies: [
        { component: 'hose', fault: 'leaks', operations: ['a'], instead: [['b']] },
        { component: 'hose', fault: 'split', operations: ['a'], instead: [] },
        { component: 'hose', fault: 'soft', operations: ['b'], instead: [['a', 'c'], ['a']] },
      ],
      overlaps: [{ between: ['a', 'c'], hours: '0.5' }],
    }),
  );
  const uses = (target: LinkTarget, id: string): string[] =>
    usesOf(stateOf(catalogue).draft, target, new Set([id])).map(
      ({ list, key, field, goes }) => `${list}:${key} ${field}${goes ? ' goes' : ''}`,
    );

  it('says where', () => {
    expect(uses('steps', 'tray')).toEqual(['operations:1 steps', 'steps:1 needs']);
    expect(uses('steps', 'drain')).toEqual(['operations:0 steps', 'operations:1 steps']);
    expect(uses('parts', 'seal')).toEqual(['operations:1 parts', 'steps:1 parts']);
    expect(uses('cautions', 'hot')).toEqual(['steps:0 cautions']);
    expect(uses('components', 'hose')).toEqual(['remedies:0 component goes', 'remedies:1 component goes', 'remedies:2 component goes']);
    expect(uses('operations', 'a')).toEqual([
      'operations:1 includes',
      'remedies:0 operations',
      'remedies:1 operations goes',
      'remedies:2 instead',
      'overlaps:0 between goes',
    ]);
    expect(uses('operations', 'c')).toEqual(['remedies:2 instead', 'overlaps:0 between goes']);
  });

  it('does not count rows that go too', () => {
    const { draft } = stateOf(catalogue);
    expect(usesOf(draft, 'operations', new Set(['a']), new Set(['1'])).some(({ list }) => list === 'operations')).toBe(false);
  });

  it('is counted as it is listed', () => {
    forAll(80, (d) => {
      const { draft } = stateOf(readDocuments(randomDocuments(d)).catalogue);
      const counts = countUses(draft);
      for (const list of ['operations', 'steps', 'parts'] as const) {
        for (const { id } of draft[list]) expect(counts.get(list)!.get(id) ?? 0).toBe(usesOf(draft, list, new Set([id])).length);
      }
    });
  });

  it('goes with every use: what says nothing without it goes, the next way takes the place of the first', () => {
    const left = after(catalogue, { do: 'remove', list: 'operations', keys: ['0'] });
    expect(left.operations.map(({ id, includes }) => [id, includes])).toEqual([
      ['b', []],
      ['c', []],
    ]);
    expect(left.remedies).toEqual([
      { component: 'hose', fault: 'leaks', operations: ['b'], instead: [] },
      { component: 'hose', fault: 'soft', operations: ['b'], instead: [['c']] },
    ]);
    expect(left.overlaps).toEqual([]);
  });

  it('leaves no link to nowhere, whatever goes', () => {
    const remove = (d: Drawing, of: Catalogue): CatalogueCommand => {
      const list = d.pick(CATALOGUE_LISTS);
      return {
        do: 'remove',
        list,
        keys: stateOf(of)
          .draft[list].filter(() => d.chance(40))
          .map(({ key }) => key),
      };
    };
    forAll(150, (d) => {
      const from = d.chance(30) ? demo : readDocuments(randomDocuments(d)).catalogue;
      const left = after(from, remove(d, from));
      expect(parseCatalogue(left).problems.filter(({ code }) => code === 'unknown-reference')).toEqual([]);
    });
  });

  it('takes along what stood in the cells of rows that are gone', () => {
    const pending = new Map([
      ['operations:0 bookHours', { text: 'x', reason: 'no' }],
      ['remedies:1 fault', { text: '', reason: 'no' }],
      ['operations:2 id', { text: 'y z', reason: 'no' }],
    ]);
    const state = reduceCatalogue(reduceCatalogue(stateOf(catalogue), { do: 'pend', cells: pending }), {
      do: 'remove',
      list: 'operations',
      keys: ['0'],
    });
    expect([...state.pending.keys()]).toEqual(['operations:2 id']);
  });
});
