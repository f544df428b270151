import { describe, expect, it } from 'vitest';
import { parseRates } from '../../../src/index.js';
import { aRateCard, aTax } from '../../support/builders.js';
import type { RatesDoc } from '../../support/oracle-documents.js';

const problems = (parts: Partial<RatesDoc>) => parseRates(aRateCard(parts)).problems;
const told = (parts: Partial<RatesDoc>): string[] => problems(parts).map(({ code, path }) => `${code} ${path}`);
const tiers = (...list: RatesDoc['parts']['tiers']): Partial<RatesDoc> => ({ parts: { basis: 'markup', mode: 'whole', tiers: list } });

describe('mark-up tiers', () => {
  it('rise, and the last has no limit', () => {
    expect(told(tiers({ upTo: '10.00', percent: '100' }, { upTo: '100.00', percent: '60' }, { percent: '35' }))).toEqual([]);
  });

  it('that fall are out of order, by value and not by digits', () => {
    expect(told(tiers({ upTo: '9', percent: '100' }, { upTo: '10', percent: '60' }, { percent: '35' }))).toEqual([]);
    expect(told(tiers({ upTo: '100', percent: '100' }, { upTo: '20', percent: '60' }, { percent: '35' }))).toEqual([
      'tier-order parts.tiers[1].upTo',
    ]);
  });

  it('of which two end at the same cost are out of order', () => {
    expect(told(tiers({ upTo: '10', percent: '100' }, { upTo: '10.00', percent: '60' }, { percent: '35' }))).toEqual([
      'tier-order parts.tiers[1].upTo',
    ]);
  });

  it('whose last has a limit leave a gap above it', () => {
    const card = tiers({ upTo: '10', percent: '100' }, { upTo: '100', percent: '60' });
    expect(told(card)).toEqual(['tier-gap parts.tiers[1].upTo']);
    expect(problems(card)[0]!.message).toBe('Parts that cost more than 100 have no mark-up.');
  });

  it('of which one in the middle has no limit are out of order', () => {
    expect(told(tiers({ percent: '100' }, { percent: '60' }))).toEqual(['tier-order parts.tiers[0].upTo']);
  });
});

describe('taxes', () => {
  it('may be charged on one another in a chain', () => {
    expect(told({ taxes: [aTax('a', '1', { after: ['b', 'c'] }), aTax('b', '1', { after: ['c'] }), aTax('c', '1')] })).toEqual([]);
  });

  it('but not in a ring', () => {
    const card = { taxes: [aTax('x', '1'), aTax('a', '1', { after: ['b'] }), aTax('b', '1', { after: ['a'] })] };
    expect(told(card)).toEqual(['cycle taxes[1].after']);
    expect(problems(card)[0]!.message).toContain('a → b → a');
  });

  it('nor on themselves', () => expect(told({ taxes: [aTax('a', '1', { after: ['a'] })] })).toEqual(['cycle taxes[0].after']));

  it('that are named and not defined are told', () => {
    expect(
      told({
        taxes: [aTax('a', '1', { after: ['gone'] })],
        fees: [{ id: 'f', title: 'f', amount: '1', per: 'unit', taxes: ['a', 'gone'] }],
        supplies: { title: 's', percent: '1', of: ['labour'], minimum: null, maximum: null, taxes: ['gone'] },
      }),
    ).toEqual(['unknown-reference taxes[0].after[0]', 'unknown-reference fees[0].taxes[1]', 'unknown-reference supplies.taxes[0]']);
  });
});

it('an id stands once in its list', () => {
  const fee = { id: 'x', title: 'f', amount: '1', per: 'unit' as const };
  const labourClass = { id: 'x', title: 'g', rate: '1' };
  expect(told({ labourClasses: [labourClass, labourClass], fees: [fee, fee], taxes: [aTax('x', '1'), aTax('x', '1')] })).toEqual([
    'duplicate labourClasses[1].id',
    'duplicate fees[1].id',
    'duplicate taxes[1].id',
  ]);
});

it('a minimum of supplies above the maximum is worth a warning, and the card still reads', () => {
  const read = parseRates(aRateCard({ supplies: { title: 's', percent: '1', of: ['labour'], minimum: '10', maximum: '5' } }));
  expect(read.ok).toBe(true);
  expect(read.problems).toEqual([expect.objectContaining({ severity: 'warning', code: 'supplies-limits', path: 'supplies.minimum' })]);
  expect(told({ supplies: { title: 's', percent: '1', of: ['labour'], minimum: '5.00', maximum: '5' } })).toEqual([]);
});

describe('the cash step', () => {
  it('is a multiple of the money step, or the money step a multiple of it', () => {
    expect(told({ cashStep: '0.05' })).toEqual([]);
    expect(told({ currency: 'JPY', cashStep: '0.05' })).toEqual([]);
    expect(told({ moneyStep: '0.05', cashStep: '0.01' })).toEqual([]);
  });

  it('is refused where it could not be printed', () => {
    // A total of 1.20 would be 1.25 in cash, with money printed in tenths.
    expect(told({ moneyStep: '0.1', cashStep: '0.25' })).toEqual(['cash-step cashStep']);
  });
});
