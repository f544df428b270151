import { expect, test } from 'vitest';
import { priceEstimate, proposeLines } from '../../../src/index.js';
import { operationLine } from '../../support/builders.js';
import { Desk } from './desk.js';

test('the view is the same object until the state changes', () => {
  const desk = new Desk([operationLine('l1', 'pump')]);
  const first = desk.view;
  expect(desk.view).toBe(first);
  desk.type('lines:l1', 'decision', 'approved');
  expect(desk.view).not.toBe(first);
});

test('it shows what the engine says', () => {
  const desk = new Desk([operationLine('l1', 'pump'), operationLine('l2', 'hose-one', { positions: ['feed', 'return'] })], {
    findings: [{ id: 'f1', round: 1, component: 'hose', position: 'feed', fault: 'split', seen: [], urgency: 'now', text: '' }],
  });
  const { estimate, model, view } = desk;
  expect(view.priced).toEqual(priceEstimate({ estimate, catalogue: model.catalogue, rates: model.rates }));
  expect(view.proposal.unanswered).toEqual([{ finding: 'f1', reason: 'not-proposed' }]);
  // It tells what could be proposed without proposing it.
  expect(view.proposal.lines).toEqual(estimate.lines);
  expect(proposeLines(estimate, model.catalogue).lines).toHaveLength(2);
});

test('an entry that cannot be used prices nothing anew', () => {
  const desk = new Desk([operationLine('l1', 'pump')]);
  const before = desk.view;
  desk.type('lines:l1', 'book', 'two');
  expect(desk.view).not.toBe(before);
  expect(desk.view.priced).toBe(before.priced);
  expect(desk.view.proposal).toBe(before.proposal);
});

test('undo brings the old view back in all its figures', () => {
  const desk = new Desk([operationLine('l1', 'pump'), operationLine('l2', 'hose-one')]);
  const before = structuredClone(desk.view.priced);
  desk.type('lines:l2', 'decision', 'declined');
  expect(desk.view.priced.totals.total).not.toBe(before.totals.total);
  desk.store.undo();
  expect(desk.view.priced).toEqual(before);
});
