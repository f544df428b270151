/** The grids of the rate card without a page: entries in, commands out, rows back. */
import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, it } from 'vitest';
import { listActions } from '../../../components/rates/card-actions.js';
import { LIST_GRIDS } from '../../../components/rates/card-grids.js';
import { editList, listRows } from '../../../components/rates/card-lists.js';
import { pendingPlace, problemPlace } from '../../../components/rates/card-places.js';
import { RULE_PRESETS, TAX_PRESETS } from '../../../components/rates/card-presets.js';
import { editSettings, settingRows } from '../../../components/rates/card-setting-rows.js';
import { SETTINGS, type SettingsName } from '../../../components/rates/card-settings.js';
import { CardGesture, CardModel } from '../../../components/rates/card-view.js';
import { parseCatalogue, parseRates, type Rates } from '../../../src/index.js';
import { type CardList, CardStore } from '../../../src/store/card-draft.js';

const text = (path: string): string => readFileSync(path, 'utf8');
const catalogue = (() => {
  const read = parseCatalogue(text('rates/catalogue.demo.json'));
  if (!read.ok) throw new Error('the demo catalogue does not read');
  return read.value;
})();

let model: CardModel;
const view = () => model.view(catalogue);
const now = (): Rates => view().rates;

beforeEach(() => {
  const read = parseRates(text('rates/card.demo.json'));
  if (!read.ok) throw new Error('the demo card does not read');
  model = new CardModel(new CardStore(read.value));
});

/** One gesture in a list, `below 0` being the first row under the last; gives the reasons why entries were refused. */
function type(list: CardList, ...edits: readonly (readonly [row: string, column: string, text: string])[]): readonly string[] {
  const gesture = new CardGesture(view().state);
  const sheetEdits = edits.map(([row, column, entry]) =>
    row.startsWith('below ')
      ? { row: null, extra: Number(row.slice(6)), column, text: entry }
      : { row: `${list}:${row}`, column, text: entry },
  );
  editList(LIST_GRIDS[list], sheetEdits, gesture, view());
  model.store.dispatch(gesture.commands, 'test');
  return gesture.refused;
}

function set(grid: SettingsName, id: string, entry: string): readonly string[] {
  const gesture = new CardGesture(view().state);
  editSettings(SETTINGS[grid], [{ row: `fields:${id}`, column: 'value', text: entry }], gesture, view());
  model.store.dispatch(gesture.commands, 'test');
  return gesture.refused;
}

function act(list: CardList, id: string, ...keys: readonly string[]): void {
  const rows = keys.map((key) => `${list}:${key}`);
  const found = listActions(LIST_GRIDS[list], { row: rows[0]!, column: '', rows, columns: [] }, view()).find((action) => action.id === id)!;
  expect(found.disabled ?? false).toBe(false);
  model.store.dispatch(found.commands, found.label);
}

const tiers = (): string =>
  now()
    .parts.tiers.map(({ upTo, percent }) => `${upTo ?? 'rest'} ${percent}`)
    .join(', ');

describe('lists', () => {
  it('an entry in the empty row makes one, with an id of its title', () => {
    expect(type('labourClasses', ['+', 'title', 'Hybrid & EV'], ['+', 'rate', '$181.50'])).toEqual([]);
    expect(now().labourClasses.at(-1)).toEqual({ id: 'hybrid-ev', title: 'Hybrid & EV', rate: '181.50' });
    type('labourClasses', ['+', 'title', 'Hybrid, EV']);
    expect(now().labourClasses.at(-1)!.id).toBe('hybrid-ev-2');
    expect(type('fees', ['+', 'amount', '4'])).toEqual([]);
    expect(now().fees.at(-1)).toEqual({ id: 'fee', title: 'Fee', amount: '4', per: 'estimate', taxes: null });
  });

  it('a pasted block over the end makes a row for each line', () => {
    type('taxes', ['+', 'title', 'City'], ['+', 'percent', '1.2'], ['below 0', 'title', 'County'], ['below 0', 'percent', '0.3']);
    expect(
      now()
        .taxes.slice(2)
        .map(({ id, title, percent }) => [id, title, percent]),
    ).toEqual([
      ['city', 'City', '1.2'],
      ['county', 'County', '0.3'],
    ]);
  });

  it('what cannot be used stays in its cell with the reason, and the card as it was', () => {
    const before = now();
    expect(type('labourClasses', ['0', 'rate', '-5'])).toEqual(['"-5" is below zero, which nothing on a rate card may be.']);
    type('labourClasses', ['1', 'id', 'general']);
    type('fees', ['0', 'title', ' ']);
    type('taxes', ['0', 'on', 'parts, labor']);
    type('taxes', ['1', 'after', 'city']);
    expect(now()).toEqual(before);
    const cells = listRows(LIST_GRIDS.labourClasses, view()).map((row) => row.cells);
    expect([cells[0]!['rate']!.text, cells[0]!['rate']!.invalid]).toEqual([
      '-5',
      '"-5" is below zero, which nothing on a rate card may be.',
    ]);
    expect(cells[1]!['id']!.invalid).toContain('There is another "general"');
    expect([...view().state.pending.values()].map(({ reason }) => reason).slice(2)).toEqual([
      'A fee needs words that a customer can read.',
      '"labor" is not one of the kinds here. Write some of labour, part, core, sublet, fee, supplies; or all.',
      'The card has no tax "city". Write some of state.',
    ]);
    expect(pendingPlace('taxes:0 on')).toEqual({ grid: 'taxes', row: 'taxes:0', column: 'on' });
    type('taxes', ['0', 'on', 'all']);
    expect(now().taxes[0]!.on).toHaveLength(6);
    expect(view().state.pending.has('taxes:0 on')).toBe(false);
  });

  it('a new limit goes to its place and moves no price; rows are inserted, moved, sorted, removed', () => {
    type('tiers', ['+', 'upTo', '100']);
    expect(tiers()).toBe('10.00 100, 50.00 70, 100 45, 200.00 45, rest 30');
    act('tiers', 'up', '2');
    expect(tiers()).toBe('10.00 100, 50.00 70, 200.00 45, 100 45, rest 30');
    expect(view().usable).toBeNull();
    act('tiers', 'sort', '2');
    expect(tiers()).toBe('10.00 100, 50.00 70, 100 45, 200.00 45, rest 30');
    act('tiers', 'remove', '0', '1');
    expect(tiers()).toBe('100 45, 200.00 45, rest 30');
    act('labourClasses', 'insert', '1');
    expect(now().labourClasses.map(({ id }) => id)).toEqual(['general', 'class', 'electrical', 'diagnosis']);
  });

  it('the last tier cannot be removed', () => {
    const rows = view().state.draft.tiers.map(({ key }) => `tiers:${key}`);
    const remove = listActions(LIST_GRIDS.tiers, { row: rows[0]!, column: '', rows, columns: [] }, view()).find(
      ({ id }) => id === 'remove',
    );
    expect(remove!.disabled).toBe(true);
  });
});

describe('settings', () => {
  it('take words by their beginning, and say what the choices are', () => {
    set('parts', 'parts.mode', 'wh');
    set('rounding', 'rounding', 'to even');
    set('rounding', 'pricesIncludeTax', 'yes');
    expect([now().parts.mode, now().rounding, now().pricesIncludeTax]).toEqual(['whole', 'half-even', true]);
    expect(set('rounding', 'taxRounding', 'never')).toEqual([
      '"never" is none of the choices. Write once for each tax, or for each charge.',
    ]);
  });

  it('a currency, a day, a language that do not exist are refused by the check of the document itself', () => {
    expect(set('card', 'currency', 'usx')[0]).toContain('"USX" is not a currency of ISO 4217.');
    expect(set('card', 'effectiveFrom', '2026-02-30')[0]).toContain('is not a day');
    expect(set('card', 'locale', 'english')[0]).toContain('is not a language tag');
    expect(set('card', 'effectiveFrom', '2026-02-28')).toEqual([]);
    expect(now().effectiveFrom).toBe('2026-02-28');
  });

  it('supplies and the rule come with their first figure and go with their last', () => {
    set('supplies', 'supplies.percent', '');
    expect(now().supplies).toBeNull();
    set('supplies', 'supplies.minimum', '');
    expect(now().supplies).toBeNull();
    set('supplies', 'supplies.maximum', '30');
    expect(now().supplies).toEqual({ title: 'Shop supplies', percent: '0', of: ['labour'], minimum: null, maximum: '30', taxes: null });
    set('authorisation', 'authorisation.amount', '');
    expect(now().authorisation).toMatchObject({ percent: '10', amount: null });
    set('authorisation', 'authorisation.percent', '');
    expect(now().authorisation).toBeNull();
    expect(set('rounding', 'cashStep', '0')).toEqual(['A cash step must be above zero. Empty the cell to have none.']);
  });

  it('every one shows a value for the demo card and takes its own value back', () => {
    for (const [name, grid] of Object.entries(SETTINGS) as [SettingsName, (typeof SETTINGS)[SettingsName]][]) {
      for (const row of settingRows(grid, view())) {
        const before = now();
        const cell = row.cells['value']!;
        expect(set(name, row.id.slice('fields:'.length), cell.edit ?? cell.text), row.id).toEqual([]);
        expect(now(), row.id).toEqual(before);
      }
    }
  });
});

describe('problems', () => {
  it('each leads to a cell that is there', () => {
    type('tiers', ['1', 'upTo', '5'], ['2', 'upTo', '5']);
    type('taxes', ['0', 'on', ''], ['0', 'after', 'local'], ['1', 'after', 'state']);
    set('rounding', 'cashStep', '0.007');
    const places = view().problems.map((problem) => [problem.code, problemPlace(problem, view())] as const);
    expect(places.map(([code]) => code).sort()).toEqual(['cash-step', 'cycle', 'tier-order', 'tier-order']);
    for (const [code, place] of places) {
      const rows =
        place!.grid in LIST_GRIDS
          ? listRows(LIST_GRIDS[place!.grid as CardList], view())
          : settingRows(SETTINGS[place!.grid as SettingsName], view());
      const row = rows.find(({ id }) => id === place!.row);
      expect(row?.cells[place!.column]?.editor ?? 'none', code).not.toBe('none');
    }
  });

  it('a class that the card lacks leads to the row that waits for it', () => {
    act('labourClasses', 'remove', '2');
    const problem = view().problems.find(({ code }) => code === 'missing-labour-class')!;
    expect(problemPlace(problem, view())).toEqual({ grid: 'labourClasses', row: 'labourClasses:+', column: 'title' });
  });
});

describe('presets', () => {
  it('every one makes a card that can be used, with its sources told', () => {
    for (const preset of [...RULE_PRESETS, ...TAX_PRESETS]) {
      const before = model.store.getState();
      model.store.dispatch(preset.commands(view()), preset.id);
      const wrong = view().problems.filter(({ severity }) => severity === 'error');
      expect(wrong, preset.id).toEqual([]);
      expect(
        preset.sources.every(({ seen }) => /read|memory/.test(seen)),
        preset.id,
      ).toBe(true);
      model.store.undo();
      expect(model.store.getState()).toBe(before);
    }
    expect(RULE_PRESETS.length).toBeGreaterThan(20);
    expect(TAX_PRESETS.map(({ id }) => id)).toEqual([
      'us-parts-tax',
      'canada-quebec',
      'canada-ontario',
      'uk',
      'germany',
      'australia',
      'new-zealand',
      'japan',
    ]);
  });
});
