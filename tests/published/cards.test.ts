/**
 * The example cards against what tax offices and laws say. Each case names its source: READ: the text was seen; MEMORY:
 * recalled; DERIVED: the rule has that source, the numbers are ours. Rates of labour, mark-up and fees are invented, so
 * only goods at typed prices are priced here.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseRates, type Rates } from '../../src/index.js';
import { aCatalogue, anEstimate, labourLine, partLine, priceDocuments } from '../support/builders.js';
import { assertAddsUp } from '../support/assert-adds-up.js';

const read = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));
const sources = read('rates/presets/taxes.json') as {
  cards: { card: string; rate: { seen: string; text: string }; rounding: { seen: string; text: string } }[];
};

function card(id: string): Rates {
  const parsed = parseRates(read(`rates/card.${id}.json`));
  if (!parsed.ok) throw new Error(`card ${id} does not read`);
  return parsed.value;
}

/** Parts at these prices under a card of `rates/`: each tax, the total, what is paid in cash. */
function goods(id: string, ...prices: string[]) {
  const lines = prices.map((price, i) => partLine(`p${i}`, '1', price));
  const priced = priceDocuments({ estimate: anEstimate(lines), catalogue: aCatalogue(), rates: card(id) as never });
  assertAddsUp(priced, { pricesIncludeTax: priced.pricesIncludeTax });
  const { taxes, total, cash } = priced.totals;
  return { taxes: taxes.map(({ amount }) => amount), total, cash };
}

describe('United States, tax on parts only', () => {
  // M.G.L. c. 64I s. 5: to the third decimal, up when that is above four (READ in a copy). 6.25 percent: MEMORY. Numbers DERIVED.
  it.each([
    ['10.00', '0.63'], // 0.625
    ['9.99', '0.62'], // 0.624375
    ['10.39', '0.65'], // 0.649375
  ])('on %s the tax is %s', (price, tax) => expect(goods('us-parts-tax', price).taxes).toEqual([tax]));

  it('labour that stands apart is not taxed (MEMORY)', () => {
    const priced = priceDocuments({
      estimate: anEstimate([labourLine('l', '2')]),
      catalogue: aCatalogue(),
      rates: card('us-parts-tax') as never,
    });
    expect([priced.totals.tax, priced.totals.total]).toEqual(['0.00', '276.00']);
  });
});

describe('Canada', () => {
  // Revenu Québec, "Calculating the Taxes": all four figures are in the source (READ).
  it('Quebec: on 100.00 the GST is 5.00, the QST 9.98, the total 114.98', () => {
    expect(goods('canada-quebec', '100.00')).toMatchObject({ taxes: ['5.00', '9.98'], total: '114.98' });
  });

  // Budget 2012, the phase-out of the penny: only the total that is paid in cash is rounded, 8 and 9 up to 10 (READ).
  it('Quebec: 114.98 is 115.00 in cash', () => expect(goods('canada-quebec', '100.00').cash).toBe('115.00'));

  // CRA Interpretation 125136: $31.95 in the source, one rate of 13 percent is allowed (READ); the amount DERIVED.
  it('Ontario: on 31.95 the HST of one rate is 4.15', () =>
    expect(goods('canada-ontario', '31.95')).toMatchObject({ taxes: ['4.15'], total: '36.10', cash: '36.10' }));
});

describe('United Kingdom', () => {
  // HMRC VATREC12030: below half a penny down, half a penny and above up (READ). 20 percent: MEMORY. Numbers DERIVED.
  it.each([
    ['0.02', '0.00'], // 0.4 p
    ['10.03', '2.01'], // 200.6 p
    ['10.02', '2.00'], // 200.4 p
  ])('on %s the VAT is %s', (price, tax) => expect(goods('uk', price).taxes).toEqual([tax]));
});

describe('Germany, VAT in the price shown', () => {
  // 19 percent and prices shown with it: MEMORY. Numbers DERIVED: 119.00 × 19 / 119; 99.99 × 19 / 119 = 15.9648….
  it.each([
    ['119.00', '19.00'],
    ['99.99', '15.96'],
  ])('of %s the VAT is %s, and the total stays', (price, tax) =>
    expect(goods('germany', price)).toMatchObject({ taxes: [tax], total: price }),
  );
});

describe('Australia, GST in the price shown', () => {
  // Explanatory Memorandum to the GST Act 1999: one eleventh of the price (READ); s. 9-90: several may be added before rounding (READ). Numbers DERIVED.
  it.each([
    [['110.00'], '10.00'],
    [['143.70', '80.00'], '20.34'], // 223.70 / 11 = 20.3363…; each by itself would give 20.33
  ])('of %j the GST is %s', (prices, tax) => expect(goods('australia', ...prices).taxes).toEqual([tax]));

  // 20.42 becomes 20.40 and 20.43 becomes 20.45, in cash only (READ in an encyclopaedia).
  it.each([
    ['20.42', '20.40'],
    ['20.43', '20.45'],
  ])('%s is %s in cash', (price, cash) => expect(goods('australia', price)).toMatchObject({ total: price, cash }));
});

describe('New Zealand', () => {
  // GST Act 1985 s. 19O: a fraction of half a cent may be dropped (READ). 15 percent: MEMORY. Numbers DERIVED.
  it('on 3.70 the GST is 0.55, where half-up would give 0.56', () => {
    expect(goods('new-zealand', '3.70').taxes).toEqual(['0.55']);
  });
});

describe('Japan, whole yen', () => {
  // ISO 4217: the yen has no minor unit (checked against the package currency-codes elsewhere). 10 percent: MEMORY. Numbers DERIVED.
  it.each([
    ['1234', '123'], // 123.4
    ['1235', '124'], // 123.5
  ])('on %s the consumption tax is %s', (price, tax) => expect(goods('japan', price).taxes).toEqual([tax]));

  it('no amount has decimals', () => expect(goods('japan', '1234').total).toBe('1357'));
});

it('every card of a place says where its rate and its rounding come from, and whether that was read', () => {
  const places = ['us-parts-tax', 'canada-quebec', 'canada-ontario', 'uk', 'germany', 'australia', 'new-zealand', 'japan'];
  for (const id of places) {
    const found = sources.cards.find((each) => each.card === id);
    expect(found, id).toBeDefined();
    for (const { seen, text } of [found!.rate, found!.rounding]) {
      expect(['text', 'secondary', 'memory'], id).toContain(seen);
      expect(text.length, id).toBeGreaterThan(10);
    }
    expect(card(id).title, id).toMatch(/^Made-up .* invented/);
  }
});
