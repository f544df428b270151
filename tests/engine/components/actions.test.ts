import { describe, expect, test } from 'vitest';
import { findingActions, lineActions, type RowAction } from '../../../components/estimate/actions.js';
import type { SheetSelection } from '../../../components/grid/sheet.js';
import { labourLine, operationLine } from '../../support/builders.js';
import { Desk } from './desk.js';

const selection = (...rows: string[]): SheetSelection => ({ row: rows[0]!, column: 'work', rows, columns: ['work'] });
const ids = (actions: readonly RowAction[]): string[] => actions.map(({ id }) => id);

function act(desk: Desk, id: string, ...rows: string[]): void {
  const actions = (rows[0]!.startsWith('findings') ? findingActions : lineActions)(selection(...rows), desk.view);
  const found = actions.find((action) => action.id === id);
  if (found === undefined) throw new Error(`There is no action ${id} among ${ids(actions).join(', ')}.`);
  desk.store.dispatch(found.commands, found.label);
}

const three = () =>
  new Desk([operationLine('l1', 'hose-one'), labourLine('l2', '1'), { id: 'l3', kind: 'note', text: 'Words' }], {
    discounts: [{ id: 'd1', title: 'First visit', percent: '10', amount: null, on: ['labour'], lines: ['l2'] }],
  });
const order = (desk: Desk): string => desk.estimate.lines.map(({ id }) => id).join(' ');

describe('for lines', () => {
  test('only what can be done with the row is offered', () => {
    const { view } = three();
    expect(ids(lineActions(selection('lines:l1'), view))).toEqual([
      'extra',
      'note',
      'approved',
      'declined',
      'deferred',
      'up',
      'down',
      'remove',
    ]);
    expect(ids(lineActions(selection('lines:l2'), view))).not.toContain('extra');
    expect(ids(lineActions(selection('lines:l3'), view))).toEqual(['up', 'down', 'remove']);
    expect(ids(lineActions(selection('lines:l1/part/tube'), view))[0]).toBe('omit');
    expect(ids(lineActions(selection('discounts:d1'), view))).toEqual(['remove']);
    expect(lineActions(selection('lines:+'), view)).toEqual([]);
  });

  test('moving goes one place, several together, and not beyond the ends', () => {
    const desk = three();
    act(desk, 'up', 'lines:l3');
    expect(order(desk)).toBe('l1 l3 l2');
    act(desk, 'down', 'lines:l1', 'lines:l3');
    expect(order(desk)).toBe('l2 l1 l3');
    const ends = lineActions(selection('lines:l2'), desk.view);
    expect(ends.find(({ id }) => id === 'up')).toMatchObject({ disabled: true, commands: [] });
    expect(ends.find(({ id }) => id === 'down')).toMatchObject({ disabled: false });
  });

  test('removing takes lines and discounts, and leaves a discount that has nothing else as it was', () => {
    const desk = three();
    const [remove] = lineActions(selection('lines:l1', 'lines:l1/part/tube', 'lines:l2', 'discounts:d1'), desk.view).slice(-1);
    expect(remove!.title).toBe('Remove 3 lines');
    act(desk, 'remove', 'lines:l1', 'lines:l2', 'discounts:d1');
    expect(order(desk)).toBe('l3');
    expect(desk.estimate.discounts).toEqual([]);
    desk.store.undo();
    expect(order(desk)).toBe('l1 l2 l3');
    expect(desk.estimate.discounts).toHaveLength(1);
  });

  test('decisions for all selected lines at once, not for notes', () => {
    const desk = three();
    act(desk, 'declined', 'lines:l1', 'lines:l2', 'lines:l3');
    expect(desk.estimate.lines.map(({ decision }) => decision)).toEqual(['declined', 'declined', 'proposed']);
    expect(ids(lineActions(selection('lines:l1'), desk.view))).toContain('proposed');
    expect(ids(lineActions(selection('lines:l1'), desk.view))).not.toContain('declined');
  });

  test('a part is left out and taken in again', () => {
    const desk = three();
    const { total } = desk.view.priced.totals;
    act(desk, 'omit', 'lines:l1/part/tube');
    expect(desk.view.priced.totals.part).toBe('0.00');
    act(desk, 'omit', 'lines:l1/part/tube');
    expect(desk.estimate.lines[0]).toMatchObject({ parts: [] });
    expect(desk.view.priced.totals.total).toBe(total);
  });

  test('extra hours and a note are begun once', () => {
    const desk = three();
    act(desk, 'extra', 'lines:l1');
    act(desk, 'note', 'lines:l1');
    expect(desk.lines().map(({ id }) => id)).toEqual(expect.arrayContaining(['lines:l1/extra', 'lines:l1/note']));
    const offered = ids(lineActions(selection('lines:l1'), desk.view));
    expect(offered).not.toContain('extra');
    expect(offered).not.toContain('note');
  });
});

describe('for findings', () => {
  const finding = (id: string, component: string, fault: string) => ({
    id,
    round: 1,
    component,
    position: '',
    fault,
    seen: [],
    urgency: 'now',
    text: '',
  });
  const found = () =>
    new Desk([operationLine('l1', 'hose-one', { findings: ['f1'] })], {
      findings: [finding('f1', 'hose', 'seeps at the joint'), finding('f2', 'pump', 'weeps'), finding('f3', 'box', 'hinge broken')],
    });

  test('the other ways of one that is answered, a proposal for one that is not', () => {
    const { view } = found();
    expect(findingActions(selection('findings:f1'), view).map(({ title }) => title)).toEqual([
      'Instead: Replace the heater hose set',
      'Evidence and photos …',
      'Move up',
      'Move down',
      'Remove the finding',
    ]);
    expect(findingActions(selection('findings:f2'), view).map(({ title }) => title)).toEqual([
      'Propose lines',
      'Evidence and photos …',
      'Move up',
      'Move down',
      'Remove the finding',
    ]);
    expect(ids(findingActions(selection('findings:f3'), view))).toEqual(['evidence', 'up', 'down', 'remove']);
    expect(findingActions(selection('findings:f1', 'findings:f2'), view).map(({ id }) => id)).not.toContain('evidence');
    expect(findingActions(selection('findings:+'), view)).toEqual([]);
  });

  test('a way is taken, and the first one is offered then', () => {
    const desk = found();
    act(desk, 'way 0', 'findings:f1');
    expect(desk.estimate.lines).toMatchObject([{ operation: 'hose-set', findings: ['f1'] }]);
    expect(findingActions(selection('findings:f1'), desk.view)[0]!.title).toBe('Instead: Replace a heater hose');
  });

  test('proposing is for the selected findings alone', () => {
    const desk = found();
    desk.store.dispatch([{ do: 'set-lines', lines: [] }], 'test');
    act(desk, 'propose', 'findings:f2', 'findings:f3');
    expect(desk.estimate.lines).toMatchObject([{ operation: 'pump', findings: ['f2'] }]);
  });

  test('a finding that is removed is forgotten by the lines; the work stays', () => {
    const desk = found();
    act(desk, 'remove', 'findings:f1', 'findings:f3');
    expect(desk.estimate.findings.map(({ id }) => id)).toEqual(['f2']);
    expect(desk.estimate.lines).toMatchObject([{ operation: 'hose-one', findings: [] }]);
  });
});
