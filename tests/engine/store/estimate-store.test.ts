/** One history over findings, lines and the job's head. */
import { describe, expect, it, vi } from 'vitest';
import type { Estimate } from '../../../src/documents/estimate.js';
import type { Line } from '../../../src/documents/lines.js';
import type { Command } from '../../../src/store/commands.js';
import { EstimateStore } from '../../../src/store/estimate-store.js';
import { aCatalogue, anEstimate, aRateCard, labourLine, readDocuments } from '../../support/builders.js';

function read(): Estimate {
  const finding = { id: 'f1', round: 1, component: '', position: '', fault: '', seen: [], urgency: 'now', text: '' };
  const estimate = anEstimate([labourLine('a', '1'), labourLine('b', '2')], { findings: [finding] });
  return readDocuments({ estimate, catalogue: aCatalogue(), rates: aRateCard() }).estimate;
}
const hours = (store: EstimateStore): string =>
  store
    .getState()
    .estimate.lines.map((line) => (line.kind === 'labour' ? line.hours : '?'))
    .join(' ');
const setHours = (store: EstimateStore, id: string, to: string): Command => {
  const line = store.getState().estimate.lines.find((each) => each.id === id)!;
  return { do: 'put', list: 'lines', entry: { ...line, hours: to } as Line };
};
const setText = (store: EstimateStore, text: string): Command => ({
  do: 'put',
  list: 'findings',
  entry: { ...store.getState().estimate.findings[0]!, text },
});

describe('undo and redo', () => {
  it('go back and forth through edits of both grids and the head as one history', () => {
    const store = new EstimateStore(read());
    store.dispatch([setHours(store, 'a', '5')], 'hours');
    store.dispatch([setText(store, 'leaks')], 'finding');
    store.dispatch([{ do: 'set-job', fields: { number: 'B-2' } }], 'number');
    const shown = (): string[] => [hours(store), store.getState().estimate.findings[0]!.text, store.getState().estimate.number];

    expect(shown()).toEqual(['5 2', 'leaks', 'B-2']);
    expect([store.undo(), shown()]).toEqual([true, ['5 2', 'leaks', '1']]);
    expect([store.undo(), shown()]).toEqual([true, ['5 2', '', '1']]);
    expect([store.undo(), shown()]).toEqual([true, ['1 2', '', '1']]);
    expect([store.undo(), shown()]).toEqual([false, ['1 2', '', '1']]);
    expect([store.redo(), shown()]).toEqual([true, ['5 2', '', '1']]);
    expect([store.redo(), shown()]).toEqual([true, ['5 2', 'leaks', '1']]);
    expect([store.redo(), shown()]).toEqual([true, ['5 2', 'leaks', 'B-2']]);
    expect([store.redo(), shown()]).toEqual([false, ['5 2', 'leaks', 'B-2']]);
  });

  it('a gesture of many commands is one step', () => {
    const store = new EstimateStore(read());
    store.dispatch([setHours(store, 'a', '7'), setHours(store, 'b', '8'), setText(store, 'x')], 'paste');
    expect(hours(store)).toBe('7 8');
    store.undo();
    expect([hours(store), store.getState().estimate.findings[0]!.text]).toEqual(['1 2', '']);
  });

  it('bring the very objects back, so that nothing need be priced again', () => {
    const store = new EstimateStore(read());
    const before = store.getState();
    store.dispatch([setHours(store, 'a', '5')], 'hours');
    const after = store.getState();
    store.undo();
    expect(store.getState()).toBe(before);
    store.redo();
    expect(store.getState()).toBe(after);
  });

  it('bring back what was removed, in its place, with what hung on it', () => {
    const store = new EstimateStore(read());
    store.dispatch([{ do: 'pend', key: 'lines:a hours', entry: { text: 'x', reason: 'y' } }], 'entry');
    store.dispatch([{ do: 'remove', list: 'lines', ids: ['a'] }], 'remove');
    expect([hours(store), store.getState().pending.size]).toEqual(['2', 0]);
    store.undo();
    expect([hours(store), store.getState().pending.size]).toEqual(['1 2', 1]);
  });

  it('a new edit after undo ends what could be done again', () => {
    const store = new EstimateStore(read());
    store.dispatch([setHours(store, 'a', '5')], 'first');
    store.undo();
    store.dispatch([setHours(store, 'b', '9')], 'second');
    expect(store.redo()).toBe(false);
    expect(hours(store)).toBe('1 9');
    store.undo();
    expect(hours(store)).toBe('1 2');
  });

  it('another estimate can be taken back like an edit when it is a gesture of the sheet', () => {
    const store = new EstimateStore(read());
    store.dispatch([{ do: 'set-estimate', estimate: { ...read(), lines: [] } }], 'open a file');
    expect(hours(store)).toBe('');
    store.undo();
    expect(hours(store)).toBe('1 2');
  });
});

describe('labels', () => {
  it('say what undo and redo would do', () => {
    const store = new EstimateStore(read());
    expect(store.labels()).toEqual({ undo: null, redo: null });
    store.dispatch([setHours(store, 'a', '5')], 'hours');
    store.dispatch([setText(store, 'x')], 'finding');
    expect(store.labels()).toEqual({ undo: 'finding', redo: null });
    store.undo();
    expect(store.labels()).toEqual({ undo: 'hours', redo: 'finding' });
    store.undo();
    expect(store.labels()).toEqual({ undo: null, redo: 'hours' });
  });
});

describe('a dispatch that changes nothing', () => {
  it('makes no step, calls nobody, and what could be done again stays', () => {
    const store = new EstimateStore(read());
    store.dispatch([setHours(store, 'a', '5')], 'hours');
    store.undo();
    const listener = vi.fn();
    store.subscribe(listener);
    store.dispatch([], 'nothing');
    store.dispatch([{ do: 'remove', list: 'lines', ids: ['gone'] }], 'remove');
    store.dispatch([{ do: 'pend', key: 'lines:a hours', entry: null }], 'entry');
    expect(store.labels()).toEqual({ undo: null, redo: 'hours' });
    expect(listener).not.toHaveBeenCalled();
  });
});

describe('listeners', () => {
  it('are told the new state once for each dispatch, undo, redo and replacement', () => {
    const store = new EstimateStore(read());
    const listener = vi.fn();
    store.subscribe(listener);
    store.dispatch([setHours(store, 'a', '5'), setHours(store, 'b', '6')], 'hours');
    expect(listener).toHaveBeenCalledTimes(1);
    expect(listener).toHaveBeenLastCalledWith(store.getState());
    store.undo();
    store.redo();
    store.replace(read());
    expect(listener).toHaveBeenCalledTimes(4);
    store.undo();
    store.redo();
    expect(listener).toHaveBeenCalledTimes(4);
  });

  it('are told no more once they have left, even while others are being told', () => {
    const store = new EstimateStore(read());
    const told: string[] = [];
    const leave = store.subscribe(() => {
      told.push('first');
      leave();
    });
    store.subscribe(() => told.push('second'));
    store.dispatch([setHours(store, 'a', '5')], 'hours');
    store.dispatch([setHours(store, 'a', '6')], 'hours');
    expect(told).toEqual(['first', 'second', 'second']);
  });
});

it('a replacement from outside begins a new history', () => {
  const store = new EstimateStore(read());
  store.dispatch([setHours(store, 'a', '5')], 'hours');
  store.undo();
  store.dispatch([{ do: 'pend', key: 'lines:a hours', entry: { text: 'x', reason: 'y' } }], 'entry');
  const other = { ...read(), id: 'other' };
  store.replace(other);
  expect(store.getState().estimate).toBe(other);
  expect(store.getState().pending.size).toBe(0);
  expect([store.undo(), store.redo(), store.labels()]).toEqual([false, false, { undo: null, redo: null }]);
});

it('five hundred steps can be taken back, the older ones are let go', () => {
  const store = new EstimateStore(read());
  for (let n = 1; n <= 600; n += 1) store.dispatch([setHours(store, 'a', String(n))], `edit ${n}`);
  let steps = 0;
  while (store.undo()) steps += 1;
  expect(steps).toBe(500);
  expect(hours(store)).toBe('100 2');
});
