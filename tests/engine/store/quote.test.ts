/** What an estimate is priced under is changed on purpose only, and is a change of price like any other. */
import { describe, expect, it } from 'vitest';
import { appendHistory } from '../../../src/consent/history.js';
import type { Estimate } from '../../../src/documents/estimate.js';
import type { Command } from '../../../src/store/commands.js';
import { EstimateStore } from '../../../src/store/estimate-store.js';
import { guarded } from '../../../src/store/guarded.js';
import { aCatalogue, anEstimate, aRateCard, labourLine, readDocuments } from '../../support/builders.js';

const AT = '2026-03-02T14:05:00Z';
const quote = (digit: string): Command => ({ do: 'quote', quoted: { rates: digit.repeat(64), catalogue: 'c'.repeat(64) } });

function read(): Estimate {
  return readDocuments({ estimate: anEstimate([labourLine('a', '1')]), catalogue: aCatalogue(), rates: aRateCard() }).estimate;
}

const sent = (estimate: Estimate): Estimate => appendHistory(estimate, { at: AT, what: 'shared', by: '', total: '100.00' });

describe('the command quote', () => {
  it('is one step of undo, and none where nothing changes', () => {
    const store = new EstimateStore(read());
    store.dispatch([quote('a')], 'quotation');
    store.dispatch([quote('a')], 'the same again');
    expect(store.labels().undo).toBe('quotation');
    store.dispatch([quote('b')], 'pricing again');
    expect(store.getState().estimate.quoted!.rates).toBe('b'.repeat(64));
    store.undo();
    expect(store.getState().estimate.quoted!.rates).toBe('a'.repeat(64));
    store.undo();
    expect(store.getState().estimate).toEqual(read());
  });

  it('makes the next revision of an estimate that was sent out under other terms', () => {
    const estimate = sent({ ...read(), quoted: { rates: 'a'.repeat(64), catalogue: 'c'.repeat(64) } });
    const state = { estimate, pending: new Map() };
    expect(guarded([quote('b')], state, AT).map((command) => command.do)).toEqual(['revise', 'quote']);
  });

  it('makes none where it only writes down what the estimate was priced under all along', () => {
    const state = { estimate: sent(read()), pending: new Map() };
    expect(guarded([quote('a')], state, AT).map((command) => command.do)).toEqual(['quote']);
  });
});
