import { describe, expect, it } from 'vitest';
import { parseRates, type Rates } from '../../../src/index.js';
import { type CardLists, CardStore, draftRates, freeKey, sortedTiers } from '../../../src/store/card-draft.js';
import { aRateCard, aTax } from '../../support/builders.js';

function card(parts: Parameters<typeof aRateCard>[0] = {}): Rates {
  const read = parseRates(aRateCard(parts));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

const full = card({
  labourClasses: [
    { id: 'a', title: 'A', rate: '100.00' },
    { id: 'b', title: 'B', rate: '110.00' },
    { id: 'c', title: 'C', rate: '120.00' },
  ],
  parts: { basis: 'list', mode: 'whole', tiers: [{ upTo: '10', percent: '50' }, { percent: '40' }] },
  fees: [{ id: 'f', title: 'F', amount: '4', per: 'unit', taxes: ['t', 'u'] }],
  supplies: { title: 'S', percent: '5', of: ['labour'], minimum: null, maximum: null, taxes: ['t'] },
  taxes: [aTax('t', '5'), aTax('u', '2', { after: ['t'] })],
});
const now = (store: CardStore): Rates => draftRates(store.getState().draft);
const entry = <L extends keyof CardLists>(store: CardStore, list: L, i: number): CardLists[L] =>
  store.getState().draft[list][i]! as unknown as CardLists[L];

describe('a draft', () => {
  it('of a card that nobody touched is that card', () => {
    expect(now(new CardStore(full))).toEqual(full);
  });

  it('is the same object while nothing changes', () => {
    const store = new CardStore(full);
    expect(now(store)).toBe(now(store));
    const before = store.getState();
    store.dispatch(
      [
        { do: 'set', fields: { title: full.title } },
        { do: 'put', list: 'taxes', entry: entry(store, 'taxes', 0) },
      ],
      'nothing',
    );
    expect(store.getState()).toBe(before);
    expect(store.labels().undo).toBeNull();
  });
});

describe('commands', () => {
  it('insert, put, move and remove entries, each one step of undo', () => {
    const store = new CardStore(full);
    const rates = (): string =>
      now(store)
        .labourClasses.map(({ id, rate }) => `${id} ${rate}`)
        .join(', ');
    store.dispatch([{ do: 'put', list: 'labourClasses', entry: { ...entry(store, 'labourClasses', 0), rate: '105.00' } }], 'rate');
    const key = freeKey(store.getState().draft.labourClasses);
    store.dispatch(
      [
        {
          do: 'insert',
          list: 'labourClasses',
          entry: { key, id: 'd', title: 'D', rate: '1' },
          before: entry(store, 'labourClasses', 1).key,
        },
      ],
      'new',
    );
    expect(rates()).toBe('a 105.00, d 1, b 110.00, c 120.00');
    store.dispatch(
      [{ do: 'move', list: 'labourClasses', keys: [entry(store, 'labourClasses', 3).key], before: entry(store, 'labourClasses', 0).key }],
      'move',
    );
    expect(rates()).toBe('c 120.00, a 105.00, d 1, b 110.00');
    store.dispatch([{ do: 'remove', list: 'labourClasses', keys: [key] }], 'remove');
    expect(rates()).toBe('c 120.00, a 105.00, b 110.00');
    for (let i = 0; i < 4; i += 1) expect(store.undo()).toBe(true);
    expect(now(store)).toEqual(full);
    expect(store.undo()).toBe(false);
  });

  it('a tax with another id has it wherever the card names it', () => {
    const store = new CardStore(full);
    store.dispatch([{ do: 'put', list: 'taxes', entry: { ...entry(store, 'taxes', 0), id: 'vat' } }], 'id');
    const { fees, supplies, taxes } = now(store);
    expect([fees[0]!.taxes, supplies!.taxes, taxes[1]!.after]).toEqual([['vat', 'u'], ['vat'], ['vat']]);
    expect(parseRates(now(store)).ok).toBe(true);
  });

  it('a tax that goes is named nowhere any more, and comes back everywhere with undo', () => {
    const store = new CardStore(full);
    store.dispatch([{ do: 'remove', list: 'taxes', keys: [entry(store, 'taxes', 0).key] }], 'remove');
    const { fees, supplies, taxes } = now(store);
    expect([fees[0]!.taxes, supplies!.taxes, taxes.map(({ after }) => after)]).toEqual([['u'], [], [[]]]);
    store.undo();
    expect(now(store)).toEqual(full);
  });

  it('pending entries go with their row, and with other mark-up', () => {
    const store = new CardStore(full);
    const reason = { text: 'x', reason: 'no figure' };
    store.dispatch(
      [
        { do: 'pend', key: 'labourClasses:0 rate', entry: reason },
        { do: 'pend', key: 'tiers:0 percent', entry: reason },
      ],
      'entries',
    );
    store.dispatch([{ do: 'remove', list: 'labourClasses', keys: ['0'] }], 'remove');
    expect([...store.getState().pending.keys()]).toEqual(['tiers:0 percent']);
    store.dispatch([{ do: 'set-parts', parts: { basis: 'list', mode: 'progressive', tiers: [{ upTo: null, percent: '1' }] } }], 'way out');
    expect([store.getState().pending.size, now(store).parts.mode]).toEqual([0, 'progressive']);
    store.undo();
    store.undo();
    expect(store.getState().pending.size).toBe(2);
  });

  it('another card can be taken back', () => {
    const store = new CardStore(full);
    store.dispatch([{ do: 'set-card', rates: card() }], 'opening');
    expect(now(store)).toEqual(card());
    store.undo();
    expect(now(store)).toEqual(full);
  });
});

it('tiers in the order of their limits, the open one last', () => {
  const tiers = [
    { key: '0', upTo: null, percent: '1' },
    { key: '1', upTo: '100', percent: '2' },
    { key: '2', upTo: '20', percent: '3' },
  ];
  expect(sortedTiers(tiers).map(({ key }) => key)).toEqual(['2', '1', '0']);
});
