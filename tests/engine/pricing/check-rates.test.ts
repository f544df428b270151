import { describe, expect, it } from 'vitest';
import { checkRates, parseRates, priceEstimate } from '../../../src/index.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, aTax, partLine, readDocuments } from '../../support/builders.js';
import type { RatesDoc } from '../../support/oracle-documents.js';

const check = (parts: Partial<RatesDoc>) => checkRates(aRateCard(parts));
const told = (parts: Partial<RatesDoc>): string[] => check(parts).map(({ severity, code, path }) => `${severity} ${code} ${path}`);
const tiers = (mode: 'whole' | 'progressive', ...list: RatesDoc['parts']['tiers']): Partial<RatesDoc> => ({
  parts: { basis: 'markup', mode, tiers: list },
});

describe('a mark-up cliff: a dearer part sells for less', () => {
  const falling = [{ upTo: '10.00', percent: '100' }, { upTo: '100.00', percent: '60' }, { percent: '35' }];

  it('is told at each limit where the percentage falls, with the costs that it is about', () => {
    const problems = check(tiers('whole', ...falling));
    expect(problems.map(({ severity, code, path }) => [severity, code, path])).toEqual([
      ['warning', 'mark-up-cliff', 'parts.tiers[1].percent'],
      ['warning', 'mark-up-cliff', 'parts.tiers[2].percent'],
    ]);
    // 10 × 2 = 20.00, above it × 1.6 = 16.00; level again at 20 / 1.6 = 12.50.
    expect(problems[0]!.message).toContain('costs 10 sells for 20.00');
    expect(problems[0]!.message).toContain('for 16.00');
    expect(problems[0]!.message).toContain('a cost of 12.50');
    // 100 × 1.6 = 160.00, above × 1.35 = 135.00; level at 160 / 1.35 = 118.518… → 118.52.
    expect(problems[1]!.message).toContain('118.52');
  });

  it('says where the price is level again even when that lies in a later tier', () => {
    // 10 × 2 = 20.00; the tier to 11 reaches 11 × 1.6 = 17.60 only; at 35 % it is 20 / 1.35 = 14.814… → 14.81.
    const [first] = check(tiers('whole', { upTo: '10', percent: '100' }, { upTo: '11', percent: '60' }, { percent: '35' }));
    expect(first!.message).toContain('14.81');
  });

  it('agrees with what parts then sell for', () => {
    const sells = (cost: string): string =>
      priceEstimate(
        readDocuments({
          estimate: anEstimate([partLine('p', '1', null, { cost })]),
          catalogue: aCatalogue(),
          rates: aRateCard(tiers('whole', ...falling)),
        }),
      ).totals.part;
    expect([sells('10.00'), sells('10.01'), sells('12.49'), sells('12.51')]).toEqual(['20.00', '16.02', '19.98', '20.02']);
  });

  it('there is none with progressive tiers, with level ones, or with a single one', () => {
    expect(told(tiers('progressive', ...falling))).toEqual([]);
    expect(told(tiers('whole', { upTo: '10', percent: '50' }, { upTo: '20', percent: '50' }, { percent: '60' }))).toEqual([]);
    expect(told(tiers('whole', { percent: '50' }))).toEqual([]);
  });
});

describe('tiers that leave a gap or fall', () => {
  it('are told as parseRates tells them', () => {
    const gap = aRateCard(tiers('whole', { upTo: '10', percent: '50' }));
    expect(checkRates(gap)).toEqual(parseRates(gap).problems);
    expect(told(tiers('whole', { upTo: '10', percent: '50' }))).toEqual(['error tier-gap parts.tiers[0].upTo']);
  });
});

describe('kinds that no tax names', () => {
  it('are told in one note', () => {
    const problems = check({ taxes: [aTax('t', '5', { on: ['part', 'core'] })] });
    expect(problems).toEqual([
      expect.objectContaining({
        severity: 'note',
        code: 'untaxed-kind',
        path: 'taxes',
        message: 'No tax is charged on labour, sublet, fee, supplies.',
      }),
    ]);
  });

  it('are none where the taxes together name all', () => {
    expect(
      told({ taxes: [aTax('s', '5', { on: ['part', 'core', 'supplies'] }), aTax('t', '5', { on: ['labour', 'sublet', 'fee'] })] }),
    ).toEqual([]);
  });

  it('are not told of a card without taxes', () => expect(told({})).toEqual([]));
});

describe('a tax that is charged on nothing', () => {
  const full = aTax('full', '5');

  it('is told', () => expect(told({ taxes: [full, aTax('idle', '5', { on: [] })] })).toEqual(['warning idle-tax taxes[1].on']));

  it('is none when it comes after another, or a fee or the supplies name it', () => {
    expect(told({ taxes: [full, aTax('t', '5', { on: [], after: ['full'] })] })).toEqual([]);
    expect(
      told({ taxes: [full, aTax('t', '5', { on: [] })], fees: [{ id: 'f', title: 'F', amount: '1', per: 'unit', taxes: ['t'] }] }),
    ).toEqual([]);
    const supplies = { title: 'S', percent: '5', of: ['labour' as const], minimum: null, maximum: null, taxes: ['t'] };
    expect(told({ taxes: [full, aTax('t', '5', { on: [] })], supplies })).toEqual([]);
  });
});

it('supplies that are a percentage of nothing are told', () => {
  expect(told({ supplies: { title: 'S', percent: '5', of: [], minimum: null, maximum: null } })).toEqual([
    'warning idle-supplies supplies.of',
  ]);
});

it('takes a card as text and as it was parsed', () => {
  const json = aRateCard({ taxes: [aTax('t', '5', { on: ['part'] })] });
  const parsed = parseRates(json);
  expect(checkRates(JSON.stringify(json))).toEqual(checkRates(json));
  expect(checkRates(parsed.ok && parsed.value)).toEqual(checkRates(json));
  expect(checkRates('no card').map(({ code }) => code)).toEqual(['not-json']);
});

describe('with a catalogue', () => {
  const catalogue = aCatalogue({
    operations: [
      anOperation('a', '1', { title: 'First job', labourClass: 'hybrid', fees: ['oil'] }),
      anOperation('b', '1', { title: 'Second job', labourClass: 'hybrid' }),
      anOperation('c', '1', { title: 'Third job' }),
    ],
  });

  it('classes and fees that operations name and the card lacks are told once each', () => {
    const problems = checkRates(aRateCard(), catalogue);
    expect(problems.map(({ severity, code, path }) => `${severity} ${code} ${path}`)).toEqual([
      'error missing-labour-class labourClasses',
      'error missing-fee fees',
    ]);
    expect(problems[0]!.message).toBe('The card has no labour class "hybrid", which 2 operations name ("First job" the first).');
    expect(problems[1]!.message).toBe('The card has no fee "oil", which one operation names ("First job").');
  });

  it('nothing is told where the card has them, or of a catalogue that cannot be read', () => {
    const card = aRateCard({
      labourClasses: [
        { id: 'general', title: 'G', rate: '1' },
        { id: 'hybrid', title: 'H', rate: '1' },
      ],
      fees: [{ id: 'oil', title: 'Oil', amount: '1', per: 'unit' }],
    });
    expect(checkRates(card, catalogue)).toEqual([]);
    expect(checkRates(card, JSON.stringify(catalogue))).toEqual([]);
    expect(checkRates(aRateCard(), 'no catalogue')).toEqual([]);
  });
});

it('two tiers with one limit are told as such', () => {
  const [problem] = checkRates(
    aRateCard(tiers('whole', { upTo: '10', percent: '50' }, { upTo: '10.0', percent: '40' }, { percent: '30' })),
  );
  expect(problem).toMatchObject({
    code: 'tier-order',
    path: 'parts.tiers[1].upTo',
    message: 'Two tiers end at 10; the second would never be used.',
  });
});
