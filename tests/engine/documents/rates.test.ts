import { describe, expect, it } from 'vitest';
import { parseRates } from '../../../src/index.js';
import { aRateCard } from '../../support/builders.js';

const smallest = { format: 'baysheet-rates', version: 1, id: 'r', currency: 'EUR', parts: { tiers: [{ percent: '0' }] } };

describe('the smallest rate card', () => {
  it('is its format, version, id, currency and one mark-up tier; the rest has its plain meaning', () => {
    expect(parseRates(smallest)).toEqual({
      ok: true,
      problems: [],
      value: {
        ...smallest,
        title: '',
        locale: 'en',
        effectiveFrom: null,
        rounding: 'half-up',
        moneyStep: null,
        labourClasses: [],
        parts: { basis: 'markup', mode: 'whole', tiers: [{ upTo: null, percent: '0' }] },
        sublet: null,
        supplies: null,
        fees: [],
        taxes: [],
        taxRounding: 'total',
        pricesIncludeTax: false,
        cashStep: null,
        authorisation: null,
      },
    });
  });

  it('reads the same from JSON text', () => expect(parseRates(JSON.stringify(smallest))).toEqual(parseRates(smallest)));
});

it('taxes of a fee or of supplies: left out or null is "as the kinds say", an empty list is none', () => {
  const fee = (more: object): object => ({ id: 'f', title: 'Fee', amount: '1', ...more });
  const read = parseRates({
    ...smallest,
    fees: [fee({ id: 'a' }), fee({ id: 'b', taxes: null }), fee({ id: 'c', taxes: [] })],
    supplies: { title: 'Supplies', percent: '5', of: ['labour'] },
  });
  expect(read.ok && read.value.fees.map(({ taxes, per }) => [taxes, per])).toEqual([
    [null, 'estimate'],
    [null, 'estimate'],
    [[], 'estimate'],
  ]);
  expect(read.ok && read.value.supplies).toMatchObject({ taxes: null, minimum: null, maximum: null });
});

it('all of percent, amount and cap of an authorisation may be null or left out', () => {
  const read = parseRates({ ...smallest, authorisation: { pick: 'lesser' } });
  expect(read.ok && read.value.authorisation).toEqual({
    percent: null,
    amount: null,
    pick: 'lesser',
    cap: null,
    base: 'total',
    source: '',
  });
});

it('supplies are not a percentage of themselves', () => {
  const supplies = { title: 'Supplies', percent: '5', of: ['supplies'], minimum: null, maximum: null };
  expect(parseRates({ ...smallest, supplies }).problems).toEqual([expect.objectContaining({ code: 'choice', path: 'supplies.of[0]' })]);
});

it.each([
  ['labour rate', { labourClasses: [{ id: 'g', title: '', rate: '-1' }] }, 'labourClasses[0].rate'],
  ['mark-up', { parts: { tiers: [{ percent: '-1' }] } }, 'parts.tiers[0].percent'],
  ['sublet percent', { sublet: { percent: '-1' } }, 'sublet.percent'],
  ['fee', { fees: [{ id: 'f', title: 'f', amount: '-1' }] }, 'fees[0].amount'],
  ['tax', { taxes: [{ id: 't', title: 't', percent: '-1', on: [] }] }, 'taxes[0].percent'],
  ['minimum of supplies', { supplies: { title: 's', percent: '1', of: [], minimum: '-1' } }, 'supplies.minimum'],
  ['cap', { authorisation: { pick: 'lesser', cap: '-1' } }, 'authorisation.cap'],
])('no %s is below zero', (_, change, path) => {
  expect(parseRates({ ...smallest, ...change }).problems).toEqual([expect.objectContaining({ code: 'negative', path })]);
});

it('zero with a sign is zero', () => {
  expect(parseRates({ ...smallest, labourClasses: [{ id: 'g', title: '', rate: '-0.00' }] }).ok).toBe(true);
});

it.each([
  ['the card', '', (x: object) => ({ ...aRateCard(), ...x })],
  ['a labour class', 'labourClasses[0].', (x: object) => ({ ...aRateCard(), labourClasses: [{ id: 'g', title: '', rate: '1', ...x }] })],
  ['the mark-up', 'parts.', (x: object) => ({ ...aRateCard(), parts: { tiers: [{ percent: '1' }], ...x } })],
  ['a tier', 'parts.tiers[0].', (x: object) => ({ ...aRateCard(), parts: { tiers: [{ percent: '1', ...x }] } })],
  ['sublet', 'sublet.', (x: object) => ({ ...aRateCard(), sublet: { percent: '1', ...x } })],
  ['supplies', 'supplies.', (x: object) => ({ ...aRateCard(), supplies: { title: 's', percent: '1', of: [], ...x } })],
  ['a fee', 'fees[0].', (x: object) => ({ ...aRateCard(), fees: [{ id: 'f', title: 'f', amount: '1', ...x }] })],
  ['a tax', 'taxes[0].', (x: object) => ({ ...aRateCard(), taxes: [{ id: 't', title: 't', percent: '1', on: [], ...x }] })],
  ['the authorisation', 'authorisation.', (x: object) => ({ ...aRateCard(), authorisation: { pick: 'lesser', ...x } })],
])('%s takes no key that the format does not have', (_, path, build) => {
  expect(parseRates(build({ surprise: 1 })).problems).toEqual([expect.objectContaining({ code: 'unknown-key', path: `${path}surprise` })]);
});
