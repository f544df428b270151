import { describe, expect, it } from 'vitest';
import { parseRates, type Rates } from '../../../src/index.js';
import { inForce, inOrder } from '../../../src/versions/card-versions.js';
import { priceAgain } from '../../../src/versions/price-again.js';
import { ratesDifference } from '../../../src/versions/rates-difference.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, aTax, labourLine, partLine, readDocuments } from '../../support/builders.js';

function card(parts: Parameters<typeof aRateCard>[0] = {}): Rates {
  const read = parseRates(aRateCard(parts));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

describe('the card in force on a day', () => {
  const version = (hash: string, effectiveFrom: string | null, savedAt: string) => ({
    hash,
    savedAt,
    rates: card({ effectiveFrom } as never),
  });
  const versions = [
    version('march', '2026-03-01', '2026-02-20T10:00:00Z'),
    version('first', null, '2025-12-01T10:00:00Z'),
    version('may', '2026-05-01', '2026-02-21T10:00:00Z'),
    version('march-mended', '2026-03-01', '2026-03-04T10:00:00Z'),
  ];

  it('is the last that begins on it or before', () => {
    expect(
      ['2026-01-15', '2026-02-28', '2026-03-01', '2026-04-30', '2026-05-01', '2027-01-01'].map((day) => inForce(versions, day)?.hash),
    ).toEqual(['first', 'first', 'march-mended', 'march-mended', 'may', 'may']);
  });

  it('is none before the first', () => expect(inForce(versions.slice(2), '2026-01-01')).toBeNull());

  it('of one day, the one saved last comes last', () => {
    expect(inOrder(versions).map(({ hash }) => hash)).toEqual(['first', 'march', 'march-mended', 'may']);
  });
});

describe('the difference between two cards', () => {
  it('is none between a card and itself', () => {
    expect(ratesDifference(card(), card())).toEqual([]);
  });

  it('names every field that can be changed, with what stood there and what stands there', () => {
    const before = card({
      labourClasses: [
        { id: 'general', title: 'General', rate: '100.00' },
        { id: 'old', title: 'Old', rate: '90.00' },
      ],
      fees: [{ id: 'f', title: 'Oil', amount: '4.00', per: 'unit' }],
      taxes: [aTax('t', '5', { title: 'Tax' })],
      supplies: { title: 'Supplies', percent: '5', of: ['labour'], minimum: null, maximum: '40.00' },
    });
    const after = card({
      title: 'Spring card',
      labourClasses: [
        { id: 'general', title: 'General', rate: '112.50' },
        { id: 'hybrid', title: 'Hybrid', rate: '140.00' },
      ],
      parts: { basis: 'markup', mode: 'progressive', tiers: [{ upTo: '10.00', percent: '50' }, { percent: '20' }] },
      fees: [{ id: 'f', title: 'Oil', amount: '4.00', per: 'estimate', taxes: [] }],
      taxes: [aTax('t', '6', { title: 'Tax' })],
      supplies: { title: 'Supplies', percent: '5', of: ['labour'], minimum: null, maximum: '45.00' },
    });
    expect(ratesDifference(before, after).map(({ what, from, to }) => `${what}: ${from} → ${to}`)).toEqual([
      'Title: Test card → Spring card',
      'Labour class Old: 90.00 → ',
      'General, rate: 100.00 → 112.50',
      'Labour class Hybrid:  → 140.00',
      'Mark-up tiers: whole → progressive',
      'Mark-up: above that: 0 % → up to 10.00: 50 %; above that: 20 %',
      'Supplies, at most: 40.00 → 45.00',
      'Oil, charged per: unit → estimate',
      'Oil, taxes: as the kind says → none',
      'Tax, percent: 5 → 6',
    ]);
  });

  it('tells of another order', () => {
    const [a, b] = [
      { id: 'a', title: 'A', rate: '1' },
      { id: 'b', title: 'B', rate: '2' },
    ];
    expect(ratesDifference(card({ labourClasses: [a, b] }), card({ labourClasses: [b, a] }))).toEqual([
      { what: 'Labour class, order', from: 'a, b', to: 'b, a' },
    ]);
  });
});

describe('pricing an estimate again', () => {
  const estimate = anEstimate([labourLine('l', '2'), partLine('p', '1', null, { cost: '10.00' })]);
  const terms = (rate: string) => {
    const { rates, catalogue, ...rest } = readDocuments({
      estimate,
      catalogue: aCatalogue({ operations: [anOperation('o', '1')] }),
      rates: aRateCard({ labourClasses: [{ id: 'general', title: 'General', rate }] }),
    });
    return { estimate: rest.estimate, terms: { rates, catalogue } };
  };

  it('tells the totals and the lines that move, with the reason', () => {
    const [old, now] = [terms('100.00'), terms('112.50')];
    const again = priceAgain(old.estimate, old.terms, now.terms);
    // 2 h at 100.00 and 10.00; 2 h at 112.50 and 10.00.
    expect([again.before.totals.total, again.after.totals.total, again.more]).toEqual(['210.00', '235.00', '25.00']);
    expect(again.difference.moved).toEqual([
      { id: 'l', title: labourLine('l', '2').title, from: '200.00', to: '225.00', why: ['labour rate'] },
    ]);
  });

  it('subtracts nothing between two currencies', () => {
    const { estimate: read, terms: old } = terms('100.00');
    expect(priceAgain(read, old, { ...old, rates: { ...old.rates, currency: 'JPY' } }).more).toBeNull();
  });
});
