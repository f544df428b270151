/** The catalogue desk without a page: entries, rows, checks, needs. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { catalogueActions, usesOfRows } from '../../../components/rates/catalogue-actions.js';
import { checkDraft, type PlacedProblem } from '../../../components/rates/catalogue-checks.js';
import { editCatalogue } from '../../../components/rates/catalogue-edits.js';
import { CatalogueIndex } from '../../../components/rates/catalogue-index.js';
import { CATALOGUE_COLUMNS } from '../../../components/rates/catalogue-lists.js';
import { type NeedsPlan, planNeeds } from '../../../components/rates/catalogue-needs.js';
import { CatalogueRows } from '../../../components/rates/catalogue-rows.js';
import { rowFinder } from '../../../components/rates/catalogue-search.js';
import type { CatalogueView } from '../../../components/rates/catalogue-view.js';
import { type Catalogue, parseCatalogue } from '../../../src/documents/catalogue.js';
import { parseRates, type Rates } from '../../../src/documents/rates.js';
import { checkCatalogue } from '../../../src/overlap/check-catalogue.js';
import { type CatalogueList, type CatalogueRow, CatalogueStore, draftCatalogue } from '../../../src/store/catalogue-draft.js';
import { forAll, randomCatalogue } from '../../support/arbitraries.js';
import { aCatalogue, anOperation, aPart, aRateCard, aStep } from '../../support/builders.js';

function must<T>(parsed: { ok: boolean; value?: T; problems: readonly unknown[] }): T {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value!;
}
const demo = must<Catalogue>(parseCatalogue(readFileSync(new URL('../../../rates/catalogue.demo.json', import.meta.url), 'utf8')));
const card = must<Rates>(parseRates(aRateCard({ fees: [{ id: 'disposal', title: 'Disposal', amount: '3', per: 'unit' }] })));

/** Steps tray ← drain ← pump-out, and a step apart; all invented. */
const small = must<Catalogue>(
  parseCatalogue(
    aCatalogue({
      parts: [aPart('seal', '1', { title: 'Seal' })],
      steps: [
        aStep('tray', '0.2', { title: 'Undertray off' }),
        aStep('drain', '0.6', { needs: ['tray'] }),
        aStep('pump-out', '0.5', { needs: ['drain'] }),
        aStep('apart', '0.1'),
      ],
      operations: [
        anOperation('hose', '1.4', { title: 'Renew a hose', steps: ['drain'] }),
        anOperation('pump', '2', { steps: ['pump-out'] }),
        anOperation('plain', '1'),
      ],
      overlaps: [{ between: ['hose', 'plain'], hours: '0.5' }],
    }),
  ),
);

class Desk {
  readonly store: CatalogueStore;
  constructor(
    catalogue: Catalogue = small,
    readonly locale = 'en-US',
  ) {
    this.store = new CatalogueStore(catalogue);
  }
  get view(): CatalogueView {
    const state = this.store.getState();
    return { state, index: new CatalogueIndex(state.draft, card), locale: this.locale, faults: new Map() };
  }
  get catalogue(): Catalogue {
    return draftCatalogue(this.store.getState().draft);
  }
  /** Entries of one gesture; a row that is null is new. */
  edit(list: CatalogueList, ...edits: [row: string | null, column: string, text: string, extra?: number][]): readonly string[] {
    const gesture = editCatalogue(
      list,
      edits.map(([row, column, text, extra]) => ({
        row: row === null ? null : `${list}:${row}`,
        column,
        text,
        ...(row === null ? { extra: extra ?? 0 } : {}),
      })),
      this.view,
    );
    this.store.dispatch(gesture.commands, 'entry');
    return gesture.refused;
  }
  cell(list: CatalogueList, key: string, column: string) {
    return new CatalogueRows(list).of(this.view, null).find(({ id }) => id === `${list}:${key}`)!.cells[column]!;
  }
  problems(): PlacedProblem[] {
    return [...checkDraft(this.store.getState().draft, card)].flat();
  }
}

describe('entries', () => {
  it('reach every key that the format has', () => {
    interface Entry {
      readonly type?: string;
      readonly items?: { readonly properties?: Readonly<Record<string, unknown>> };
    }
    const schema = JSON.parse(readFileSync(new URL('../../../rates/schema/catalogue.schema.json', import.meta.url), 'utf8')) as {
      properties: Readonly<Record<string, Entry>>;
    };
    const lists = Object.entries(schema.properties).filter(([, { type }]) => type === 'array');
    expect(lists.map(([list]) => list).sort()).toEqual(Object.keys(CATALOGUE_COLUMNS).sort());
    for (const [list, { items }] of lists) {
      const columns = CATALOGUE_COLUMNS[list as CatalogueList].filter(({ enter }) => enter !== undefined).map(({ id }) => id);
      expect(columns, list).toEqual(expect.arrayContaining(Object.keys(items!.properties!)));
    }
  });

  it('make whole entries of every list', () => {
    const desk = new Desk();
    const enter = (list: CatalogueList, cells: Readonly<Record<string, string>>): void => {
      expect(desk.edit(list, ...Object.entries(cells).map(([column, text]): [null, string, string] => [null, column, text]))).toEqual([]);
    };
    const hot = { id: 'hot', text: 'Let it cool' };
    const radiator = { id: 'radiator', title: 'Radiator' };
    const cap = { id: 'cap', title: 'Cap', number: 'N 7', cost: '3.40', list: '7.95', core: '1', condition: 'used', supplier: 'next door' };
    const cowl = { id: 'cowl', title: 'Cowl', hours: '0.3', per: 'position', open: 'Take it off', close: 'Put it on' };
    const work = { ...radiator, system: 'cooling', labourClass: 'general', per: 'position', bookHours: '2', additionalHours: '0.5' };
    const limits = { unit: 'kPa', start: '100', minutes: '10', drop: '2', least: '-5', most: '110' };
    const test = { id: 'pressure', title: 'Pressure', ...limits, closing: 'plain', basis: 'invented' };
    enter('cautions', hot);
    enter('components', { ...radiator, positions: 'top; bottom' });
    enter('parts', cap);
    enter('steps', { ...cowl, needs: 'apart', parts: 'seal × 2', cautions: 'hot' });
    const links = { steps: 'cowl', includes: 'plain', parts: 'cap × 2 each', fees: 'disposal', cautions: 'hot' };
    enter('operations', { ...work, ...links, basis: 'invented' });
    enter('remedies', { component: 'radiator', fault: 'seeps', operations: 'radiator, hose', instead: 'pump, plain; hose' });
    enter('overlaps', { between: 'hose', and: 'pump', hours: '0.2' });
    enter('methods', { ...test, cautions: 'hot' });

    const { cautions, components, parts, steps, operations, remedies, overlaps, methods } = desk.catalogue;
    expect(cautions).toEqual([hot]);
    expect(components).toEqual([{ ...radiator, positions: ['top', 'bottom'] }]);
    expect(parts.at(-1)).toEqual(cap);
    expect(steps.at(-1)).toEqual({ ...cowl, needs: ['apart'], parts: [{ part: 'seal', qty: '2', each: false }], cautions: ['hot'] });
    const linked = { steps: ['cowl'], includes: ['plain'], parts: [{ part: 'cap', qty: '2', each: true }], fees: ['disposal'] };
    expect(operations.at(-1)).toEqual({ ...work, ...linked, cautions: ['hot'], basis: 'invented' });
    const ways = { operations: ['radiator', 'hose'], instead: [['pump', 'plain'], ['hose']] };
    expect(remedies).toEqual([{ component: 'radiator', fault: 'seeps', ...ways }]);
    expect(overlaps.at(-1)).toEqual({ between: ['hose', 'pump'], hours: '0.2' });
    expect(methods).toEqual([{ ...test, cautions: ['hot'] }]);
  });

  it('make rows with ids of their own', () => {
    const desk = new Desk();
    desk.edit(
      'operations',
      [null, 'title', 'Renew a hose'],
      [null, 'bookHours', '1.5'],
      [null, 'title', 'Renew a hose', 1],
      [null, 'bookHours', '2', 2],
    );
    expect(desk.catalogue.operations.slice(3).map(({ id, title, bookHours, labourClass }) => [id, title, bookHours, labourClass])).toEqual([
      ['renew-a-hose', 'Renew a hose', '1.5', 'general'],
      ['renew-a-hose-2', 'Renew a hose', '0', 'general'],
      ['new-operation', 'New operation', '2', 'general'],
    ]);
    desk.edit('parts', [null, 'id', 'clip'], [null, 'number', 'N 1']);
    expect(desk.catalogue.parts.at(-1)).toMatchObject({ id: 'clip', title: 'clip', number: 'N 1' });
    desk.edit('cautions', [null, 'text', 'Mind the fan']);
    expect(desk.catalogue.cautions).toEqual([{ id: 'mind-the-fan', text: 'Mind the fan' }]);
  });

  it('in an empty row that say nothing make none', () => {
    const desk = new Desk();
    expect(desk.edit('steps', [null, 'title', ' '], [null, 'hours', ''])).toEqual([]);
    expect(desk.catalogue).toEqual(small);
  });

  it('read figures as the locale writes them, and sums', () => {
    const desk = new Desk(small, 'de-DE');
    expect(
      desk.edit('steps', ['0', 'hours', '0,25'], ['1', 'hours', '=0,5+0,25'], ['2', 'hours', '-1'], ['3', 'hours', 'viel']),
    ).toHaveLength(2);
    expect(desk.catalogue.steps.map(({ hours }) => hours)).toEqual(['0.25', '0.75', '0.5', '0.1']);
    expect(desk.cell('steps', '3', 'hours')).toMatchObject({ text: 'viel', invalid: expect.stringContaining('not a figure') });
    expect(desk.cell('steps', '0', 'hours').text).toBe('0,25');
    desk.edit('steps', ['3', 'hours', '1']);
    expect(desk.cell('steps', '3', 'hours').invalid).toBeUndefined();
  });

  it('name others by id or by words; an id that leads nowhere is kept for the check', () => {
    const desk = new Desk();
    expect(desk.edit('operations', ['2', 'steps', 'undertray OFF, apart; drain, apart'])).toEqual([]);
    expect(desk.catalogue.operations[2]!.steps).toEqual(['tray', 'apart', 'drain']);
    desk.edit('operations', ['2', 'steps', 'gone']);
    expect(desk.problems().map(({ code, place }) => [code, place])).toEqual([
      ['unknown-reference', { list: 'operations', key: '2', column: 'steps' }],
    ]);
    expect(desk.edit('operations', ['2', 'steps', 'no such words'])[0]).toContain('not there');
    expect(desk.edit('operations', ['2', 'parts', 'seal × 2 each; clip'])).toEqual([]);
    expect(desk.catalogue.operations[2]!.parts).toEqual([
      { part: 'seal', qty: '2', each: true },
      { part: 'clip', qty: '1', each: false },
    ]);
  });

  it('of an id rename everywhere, within one gesture too, and never take one that is in use', () => {
    const desk = new Desk();
    desk.edit('steps', ['0', 'id', 'under'], ['1', 'needs', 'under, apart'], ['2', 'title', 'Pump out']);
    expect(desk.catalogue.steps.map(({ id, needs }) => [id, needs])).toEqual([
      ['under', []],
      ['drain', ['under', 'apart']],
      ['pump-out', ['drain']],
      ['apart', []],
    ]);
    expect(desk.edit('steps', ['0', 'id', 'a'], ['1', 'id', 'a'], ['2', 'id', 'drain'])).toHaveLength(2);
    expect(desk.catalogue.steps.map(({ id }) => id)).toEqual(['a', 'drain', 'pump-out', 'apart']);
    expect(desk.edit('steps', [null, 'id', 'apart'], [null, 'hours', '1'])).toHaveLength(1);
    expect(desk.catalogue.steps.at(-1)).toMatchObject({ id: 'apart-2', hours: '1' });
  });

  it('of two new rows with one id give it to the first; the other is told and has one of its own', () => {
    const desk = new Desk();
    expect(desk.edit('parts', [null, 'id', 'clip'], [null, 'id', 'clip', 1])).toHaveLength(1);
    expect(desk.catalogue.parts.slice(1).map(({ id }) => id)).toEqual(['clip', 'clip-2']);
  });

  it('of a whole pasted block are a few commands', () => {
    const desk = new Desk();
    const edits = Array.from({ length: 300 }, (_, i) =>
      ['title', 'bookHours', 'steps'].map((column) => ({
        row: null,
        extra: i,
        column,
        text: column === 'title' ? `Work ${i}` : column === 'steps' ? 'drain' : '1',
      })),
    ).flat();
    const { commands, refused } = editCatalogue('operations', edits, desk.view);
    expect([commands.length, refused]).toEqual([1, []]);
  });

  it('whatever is typed, the draft keeps its form and every refusal its text', () => {
    const texts = [
      '',
      'x',
      '1',
      '-1',
      '1.5',
      'a b',
      'hose',
      'drain, tray',
      '=1/0',
      'seal × 2',
      '; ,',
      'position',
      'new',
      '"',
      'q'.repeat(70),
    ];
    forAll(150, (d) => {
      const desk = new Desk(d.chance(30) ? demo : small);
      for (let i = 0; i < 12; i += 1) {
        const list = d.pick(['operations', 'steps', 'parts', 'remedies', 'components', 'cautions', 'overlaps', 'methods'] as const);
        const rows = desk.store.getState().draft[list] as readonly CatalogueRow[];
        const row = rows.length === 0 || d.chance(20) ? null : d.pick(rows).key;
        const before = desk.store.getState().pending.size;
        const text = d.pick(texts);
        const columns: readonly { id: string }[] = CATALOGUE_COLUMNS[list];
        const refused = desk.edit(list, [row, d.pick(columns).id, text]);
        if (refused.length > 0) expect([...desk.store.getState().pending.values()].some((entry) => entry.text === text)).toBe(true);
        expect(desk.store.getState().pending.size).toBeLessThanOrEqual(before + 1);
      }
      // Shape faults come only from rows that are not finished yet.
      const { draft } = desk.store.getState();
      const finished = draftCatalogue({
        ...draft,
        remedies: draft.remedies.filter(({ component, fault, operations }) => component && fault && operations.length),
        overlaps: draft.overlaps.filter(({ between }) => !between.includes('')),
      });
      const shape = new Set([
        'unknown-reference',
        'cycle',
        'position-step',
        'book-below-steps',
        'includes-longer',
        'overlap-with-itself',
        'duplicate',
        'method-limits',
      ]);
      const read = parseCatalogue(finished);
      expect(read.ok ? [] : read.problems.filter(({ code, severity }) => severity === 'error' && !shape.has(code))).toEqual([]);
    });
  });
});

describe('rows', () => {
  it('are the same objects while nothing that they show changes', () => {
    const desk = new Desk();
    const rows = new CatalogueRows('operations');
    const first = rows.of(desk.view, null);
    expect(rows.of(desk.view, null)[0]).toBe(first[0]);
    desk.edit('operations', ['1', 'title', 'Other']);
    const second = rows.of(desk.view, null);
    expect([second[0] === first[0], second[1] === first[1]]).toEqual([true, false]);
    // Own hours hang on the steps.
    desk.edit('steps', ['1', 'hours', '0.9']);
    expect(rows.of(desk.view, null)[0]!.cells['own']!.text).toBe('0.3');
  });

  it('show own hours, uses and what the last check found', () => {
    const desk = new Desk();
    expect([desk.cell('operations', '0', 'own').text, desk.cell('operations', '2', 'own').text]).toEqual(['0.6', '1']);
    expect([desk.cell('steps', '0', 'used').text, desk.cell('steps', '3', 'used').text]).toEqual(['1', '']);
    const faults = new Map([
      ['steps:0 hours', { words: 'Why', invalid: true }],
      ['steps:1 hours', { words: 'Look', invalid: false }],
    ]);
    const rows = new CatalogueRows('steps').of({ ...desk.view, faults }, null);
    expect([rows[0]!.cells['hours']!.invalid, rows[1]!.cells['hours']!.note]).toEqual(['Why', 'Look']);
  });

  it('are found by their words and ids', () => {
    const found = (typed: string): string[] =>
      (demo.operations as readonly object[] as readonly CatalogueRow[])
        .map((row, i) => ({ ...row, key: String(i) }))
        .filter(rowFinder(typed)!)
        .map((row) => ('id' in row ? row.id : ''));
    expect(found('heater hose').sort()).toEqual(expect.arrayContaining(['heater-hose-one', 'heater-hose-set']));
    expect(found('hose-one')).toContain('heater-hose-one');
    expect(found('nothing so called')).toEqual([]);
    expect(rowFinder('  ')).toBeNull();
  });
});

describe('checks', () => {
  it('say of a catalogue what checkCatalogue says', () => {
    forAll(100, (d) => {
      const catalogue = must<Catalogue>(parseCatalogue(randomCatalogue(d)));
      const codes = (problems: readonly { code: string; path: string }[]): string[] =>
        problems.map(({ code, path }) => `${code} ${path}`).sort();
      expect(codes([...checkDraft(new CatalogueStore(catalogue).getState().draft, null)].flat())).toEqual(codes(checkCatalogue(catalogue)));
    });
  });

  it('lead to the cell', () => {
    const desk = new Desk();
    desk.edit('operations', ['0', 'bookHours', '0.5']);
    desk.edit('overlaps', ['0', 'hours', '3']);
    expect(desk.problems().map(({ code, place }) => [code, place])).toEqual([
      ['book-below-steps', { list: 'operations', key: '0', column: 'bookHours' }],
    ]);
    desk.edit('operations', ['0', 'bookHours', '1.4']);
    expect(desk.problems()[0]).toMatchObject({ code: 'overlap-too-long', place: { list: 'overlaps', key: '0', column: 'hours' } });
    desk.edit('overlaps', ['0', 'and', 'nobody']);
    expect(desk.problems()[0]).toMatchObject({ code: 'unknown-reference', place: { list: 'overlaps', key: '0', column: 'and' } });
  });

  it('tell rows that are not finished, and check the rest', () => {
    const desk = new Desk();
    desk.edit('remedies', [null, 'fault', 'leaks']);
    desk.edit('overlaps', [null, 'between', 'hose']);
    desk.edit('operations', ['0', 'bookHours', '0.5']);
    const key = desk.store.getState().draft.remedies[0]!.key;
    expect(desk.problems().map(({ code, place }) => [code, place!.list, place!.column])).toEqual([
      ['unfinished', 'remedies', 'component'],
      ['unfinished', 'overlaps', 'and'],
      ['book-below-steps', 'operations', 'bookHours'],
    ]);
    expect(desk.problems()[0]!.place!.key).toBe(key);
  });

  it('name what the rate card lacks', () => {
    const desk = new Desk();
    desk.edit('operations', ['2', 'labourClass', 'paint'], ['2', 'fees', 'disposal, toll']);
    expect(desk.problems().map(({ severity, code, place }) => [severity, code, place!.column])).toEqual([
      ['warning', 'unknown-class', 'labourClass'],
      ['warning', 'unknown-fee', 'fees'],
    ]);
  });
});

describe('the row menu', () => {
  it('moves, copies and removes; rows that were searched for are not moved', () => {
    const desk = new Desk();
    const selection = (...keys: string[]) => ({
      row: `steps:${keys[0]}`,
      column: 'title',
      columns: ['title'],
      rows: keys.map((key) => `steps:${key}`),
    });
    const act = (id: string, found = false, ...keys: string[]) =>
      catalogueActions('steps', selection(...keys), desk.store.getState().draft, found).find((action) => action.id === id)!;
    desk.store.dispatch(act('down', false, '0').commands, 'move');
    expect(desk.catalogue.steps.map(({ id }) => id)).toEqual(['drain', 'tray', 'pump-out', 'apart']);
    expect([act('up', true, '0').disabled, act('up', false, '1').disabled]).toEqual([true, true]);
    desk.store.dispatch(act('copy', false, '0', '1').commands, 'copy');
    expect(desk.catalogue.steps.map(({ id }) => id)).toEqual(['drain', 'tray', 'drain-2', 'tray-2', 'pump-out', 'apart']);
    expect(act('remove', false, '3').ask).toBe('remove');
    const { draft } = desk.store.getState();
    expect(
      usesOfRows(
        'steps',
        draft.steps.filter(({ id }) => id === 'apart'),
        draft,
      ),
    ).toEqual([]);
    expect(catalogueActions('steps', selection('+'), draft, false)).toEqual([]);
  });
});

describe('the picture of the needs', () => {
  const plan = (catalogue: Catalogue, list: CatalogueList, id: string): NeedsPlan => {
    const { draft } = new CatalogueStore(catalogue).getState();
    const key = (draft[list] as readonly CatalogueRow[]).find((row) => 'id' in row && row.id === id)!.key;
    return planNeeds(new CatalogueIndex(draft, null), { list, key })!;
  };
  const columns = ({ nodes, columns: count }: NeedsPlan): string[] =>
    Array.from({ length: count }, (_, i) =>
      nodes
        .filter(({ column }) => column === i)
        .sort((a, b) => a.row - b.row)
        .map(({ id }) => id)
        .join(' '),
    );

  it('of an operation: all that must come off, first off at the left', () => {
    const drawn = plan(small, 'operations', 'pump');
    expect(columns(drawn)).toEqual(['tray', 'drain', 'pump-out', 'pump']);
    expect(drawn.edges.map(({ from, to }) => `${from.id} ${to.id}`)).toEqual(['tray drain', 'drain pump-out', 'pump-out pump']);
    expect(columns(plan(small, 'operations', 'plain'))).toEqual(['plain']);
  });

  it('of a step: what it needs, what needs it, and who uses it', () => {
    const drawn = plan(small, 'steps', 'drain');
    expect(columns(drawn).map((ids) => ids.split(' ').sort())).toEqual([['tray'], ['drain'], ['hose', 'pump-out'], ['pump']]);
    expect(drawn.nodes.filter(({ chosen }) => chosen).map(({ id }) => id)).toEqual(['drain']);
  });

  it('of all steps while they are few; of none while they are many', () => {
    const index = (count: number) =>
      new CatalogueIndex(
        new CatalogueStore(
          must<Catalogue>(parseCatalogue(aCatalogue({ steps: Array.from({ length: count }, (_, i) => aStep(`s${i}`, '1')) }))),
        ).getState().draft,
        null,
      );
    expect(planNeeds(index(40), null)!.nodes).toHaveLength(40);
    expect(planNeeds(index(41), null)).toBeNull();
    expect(planNeeds(index(0), null)).toBeNull();
  });

  it('of any row: every line goes right, no two boxes or lanes share a place, what is left out is said', () => {
    const { draft } = new CatalogueStore(demo).getState();
    const index = new CatalogueIndex(draft, null);
    for (const list of ['steps', 'operations'] as const) {
      for (const { key } of draft[list]) {
        const { nodes, edges, left, heights } = planNeeds(index, { list, key })!;
        for (const { from, to, lanes } of edges) {
          expect(lanes.map(({ column }) => column)).toEqual(
            Array.from({ length: to.column - from.column - 1 }, (_, i) => from.column + 1 + i),
          );
          expect(from.column).toBeLessThan(to.column);
        }
        const places = [...nodes, ...edges.flatMap(({ lanes }) => lanes)].map(({ column, row }) => `${column}/${row}`);
        expect(new Set(places).size).toBe(places.length);
        expect(heights.reduce((sum, height) => sum + height, 0)).toBe(places.length);
        expect(nodes.filter((node) => node.list === 'operations').length).toBeLessThanOrEqual(9);
        expect(left.operations).toBeGreaterThanOrEqual(0);
      }
    }
  });

  it('of steps in a ring, which the check complains of, ends', () => {
    const desk = new Desk();
    desk.edit('steps', ['0', 'needs', 'pump-out']);
    const { draft } = desk.store.getState();
    expect(desk.problems().map(({ code }) => code)).toContain('cycle');
    expect(planNeeds(new CatalogueIndex(draft, null), { list: 'steps', key: '0' })!.nodes.length).toBeGreaterThan(2);
  });
});
