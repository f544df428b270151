/** From round to round without a page: what each press in the rounds pane does, and that it can be taken back. */
import { describe, expect, test } from 'vitest';
import { lineActions } from '../../../components/estimate/actions.js';
import {
  chooseMethod,
  describeRound,
  markClean,
  missingClosing,
  plug,
  proposeClosing,
  readRound,
  removeRound,
  startRound,
} from '../../../components/estimate/rounds-edits.js';
import type { PaneEdit } from '../../../components/estimate/pane-edit.js';
import { SheetModel } from '../../../components/estimate/sheet-model.js';
import { listComplete, proposeLines } from '../../../src/index.js';
import { EstimateStore } from '../../../src/store/estimate-store.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, readDocuments } from '../../support/builders.js';

const CATALOGUE = {
  ...aCatalogue({
    components: [{ id: 'hose', title: 'Hose', positions: [] }],
    operations: ['hose', 'retest'].map((id) => anOperation(id, '1')),
    remedies: [{ component: 'hose', fault: 'leaks', operations: ['hose'], instead: [] }],
  }),
  methods: [
    { id: 'pressure', title: 'Pressure test', unit: 'kPa', start: '100', minutes: '15', drop: '2', closing: 'retest' },
    { id: 'smoke', title: 'Smoke test' },
  ],
};
const finding = (id: string, round: number) => ({
  id,
  round,
  component: 'hose',
  position: '',
  fault: 'leaks',
  seen: [],
  urgency: 'now',
  text: '',
});

function desk(more: object = {}) {
  const { estimate, catalogue, rates } = readDocuments({
    estimate: anEstimate([], more),
    catalogue: CATALOGUE,
    rates: aRateCard(),
  });
  const store = new EstimateStore(estimate);
  return {
    store,
    catalogue,
    model: new SheetModel(store, catalogue, rates),
    get estimate() {
      return store.getState().estimate;
    },
    run({ commands, what }: PaneEdit): void {
      store.dispatch(commands, what);
    },
  };
}

test('from the first round to a clean one', () => {
  const sheet = desk();
  const atFirst = sheet.estimate;
  sheet.run(startRound(sheet.estimate, sheet.catalogue));
  sheet.run(chooseMethod(sheet.estimate, 1, 'pressure', sheet.catalogue));
  expect(sheet.estimate.rounds).toEqual([{ n: 1, method: 'Pressure test', clean: false, note: '', methodId: 'pressure' }]);
  sheet.run(readRound(sheet.estimate, 1, ' 100 kPa to 38 kPa in 2 min '));
  sheet.run(describeRound(sheet.estimate, 1, 'note', 'cold'));
  sheet.store.dispatch([{ do: 'insert', list: 'findings', entry: finding('f1', 1) as never, before: null }], 'entry');
  sheet.run(plug(sheet.estimate.findings[0]!, 'test bung'));
  sheet.run(startRound(sheet.estimate, sheet.catalogue));
  expect(sheet.estimate.rounds[1]).toEqual({ n: 2, method: 'Pressure test', clean: false, note: '', methodId: 'pressure' });
  expect(listComplete(sheet.estimate)).toBe(false);
  sheet.run(markClean(sheet.estimate, 2, true));
  expect(listComplete(sheet.estimate)).toBe(true);
  expect(sheet.estimate.findings[0]!.plugged).toBe('test bung');
  expect(sheet.store.labels().undo).toBe('round 2 clean');
  for (let i = 0; i < 8; i += 1) expect(sheet.store.undo()).toBe(true);
  expect(sheet.store.undo()).toBe(false);
  expect(sheet.estimate).toEqual(atFirst);
});

describe('a round', () => {
  test('keeps words of its own when its method changes, and follows where they only named the method', () => {
    const sheet = desk({
      rounds: [
        { n: 1, method: 'with dye' },
        { n: 2, method: 'pressure TEST', methodId: 'pressure' },
      ],
    });
    sheet.run(chooseMethod(sheet.estimate, 1, 'pressure', sheet.catalogue));
    sheet.run(chooseMethod(sheet.estimate, 2, 'smoke', sheet.catalogue));
    expect(sheet.estimate.rounds.map(({ method, methodId }) => [method, methodId])).toEqual([
      ['with dye', 'pressure'],
      ['Smoke test', 'smoke'],
    ]);
    sheet.run(chooseMethod(sheet.estimate, 2, '', sheet.catalogue));
    expect('methodId' in sheet.estimate.rounds[1]!).toBe(false);
  });

  test('that was emptied has no key that says nothing', () => {
    const sheet = desk({ rounds: [{ n: 1, reading: '5 V' }], findings: [{ ...finding('f1', 1), plugged: 'clamp' }] });
    sheet.run(readRound(sheet.estimate, 1, ' '));
    sheet.run(plug(sheet.estimate.findings[0]!, ''));
    expect('reading' in sheet.estimate.rounds[0]!).toBe(false);
    expect('plugged' in sheet.estimate.findings[0]!).toBe(false);
  });

  test('that was begun by mistake goes; the next has the next number', () => {
    const sheet = desk({ rounds: [{ n: 1 }, { n: 4 }] });
    sheet.run(startRound(sheet.estimate, sheet.catalogue));
    expect(sheet.estimate.rounds.map(({ n }) => n)).toEqual([1, 4, 5]);
    sheet.run(removeRound(sheet.estimate, 5));
    expect(sheet.estimate.rounds.map(({ n }) => n)).toEqual([1, 4]);
  });
});

test('a closing test that is removed in the grid is not proposed again, but can be added by hand', () => {
  const sheet = desk({ rounds: [{ n: 1, methodId: 'pressure' }], findings: [finding('f1', 1)] });
  sheet.store.dispatch([{ do: 'set-lines', lines: proposeLines(sheet.estimate, sheet.catalogue).lines }], 'proposal');
  const operations = () => sheet.estimate.lines.map((line) => line.kind === 'operation' && line.operation);
  expect(operations()).toEqual(['hose', 'retest']);
  expect(missingClosing(sheet.estimate, sheet.catalogue)).toEqual([]);

  const selection = { row: 'lines:l2', column: 'work', rows: ['lines:l2'], columns: ['work'] };
  const remove = lineActions(selection, sheet.model.view()).find(({ id }) => id === 'remove')!;
  sheet.store.dispatch(remove.commands, remove.label);
  expect(operations()).toEqual(['hose']);
  expect(proposeLines(sheet.estimate, sheet.catalogue).lines).toEqual(sheet.estimate.lines);
  expect(missingClosing(sheet.estimate, sheet.catalogue).map(({ id }) => id)).toEqual(['pressure']);

  sheet.run(proposeClosing(sheet.estimate, missingClosing(sheet.estimate, sheet.catalogue)[0]!));
  expect(operations()).toEqual(['hose', 'retest']);
  expect('closing' in sheet.estimate.rounds[0]!).toBe(false);
  sheet.store.undo();
  sheet.store.undo();
  expect(operations()).toEqual(['hose', 'retest']);
  expect('closing' in sheet.estimate.rounds[0]!).toBe(false);
});
