/** Notes of the parts run: a step of undo that makes no revision, kept in the document and only there when used. */
import { expect, it } from 'vitest';
import { parseEstimate, type Estimate } from '../../../src/index.js';
import { recordConsent } from '../../../src/consent/record.js';
import type { PartNote } from '../../../src/documents/parts-run.js';
import type { Command } from '../../../src/store/commands.js';
import { EstimateStore } from '../../../src/store/estimate-store.js';
import { guarded } from '../../../src/store/guarded.js';
import { aCatalogue, anEstimate, aRateCard, partLine, priceDocuments, readDocuments } from '../../support/builders.js';

const documents = { estimate: anEstimate([partLine('a', '1', '5.00', { number: 'N-1' })]), catalogue: aCatalogue(), rates: aRateCard() };
const estimate = (): Estimate => readDocuments(documents).estimate;
const note: PartNote = { part: null, number: 'N-1', title: 'Part a', condition: 'new', state: 'ordered', qty: '1' };
const set = (notes: readonly PartNote[]): Command => ({ do: 'set-parts-run', notes });

it('is undone and done again', () => {
  const store = new EstimateStore(estimate());
  store.dispatch([set([note])], 'note');
  expect(store.getState().estimate.partsRun).toEqual([note]);
  store.undo();
  expect(store.getState().estimate).not.toHaveProperty('partsRun');
  store.redo();
  expect(store.getState().estimate.partsRun).toEqual([note]);
});

it('without notes there is no list in the document', () => {
  const store = new EstimateStore(estimate());
  store.dispatch([set([])], 'nothing');
  expect(store.undo()).toBe(false);
  store.dispatch([set([note])], 'note');
  store.dispatch([set([])], 'take it back');
  expect(store.getState().estimate).not.toHaveProperty('partsRun');
});

it('leaves an estimate that was authorised at its revision', () => {
  const consent = recordConsent(estimate(), priceDocuments(documents), null, {
    at: '2026-03-03T09:00:00Z',
    by: 'Invented Name',
    takenBy: 'Nobody',
    how: 'in person',
    contact: '',
    work: '',
    sentence: '',
  } as never);
  if (!consent.ok) throw new Error(JSON.stringify(consent.problems));
  const state = { estimate: consent.estimate, pending: new Map() };
  expect(guarded([set([note])], state, '2026-03-03T10:00:00Z')).toEqual([set([note])]);
});

it('comes back from the document as it was written', () => {
  const whole = { ...note, supplier: 'Corner shop', note: 'by noon' };
  const read = parseEstimate(JSON.stringify({ ...estimate(), partsRun: [note, whole] }));
  expect(read).toMatchObject({ ok: true, value: { partsRun: [note, whole] } });
  expect(read.ok && Object.keys(read.value.partsRun![0]!)).not.toContain('supplier');
});

it('a state that is none is refused with its place', () => {
  const read = parseEstimate({ ...estimate(), partsRun: [{ ...note, state: 'lost' }] });
  expect(read).toMatchObject({ ok: false, problems: [{ path: 'partsRun[0].state', code: 'choice' }] });
});
