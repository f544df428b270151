/** Formulas of labour and parts that a law gives, and the worked check of the design, through the engine. */
import { describe, expect, it } from 'vitest';
import { deferralCosts } from '../../src/index.js';
import {
  aCatalogue,
  aRateCard,
  aStep,
  anEstimate,
  anOperation,
  feeLine,
  labourLine,
  operationLine,
  partLine,
  priceDocuments,
  priceLines,
  readDocuments,
} from '../support/builders.js';
import { assertAddsUp } from '../support/assert-adds-up.js';

/**
 * California B&P 22903.3(c), equipment dealers: hours and fractions x the retail labour rate; parts at net cost + 15 %;
 * freight. Formula READ; numbers DERIVED: 2.4 h x 120.00 + 85.50 x 1.15 + 6.00.
 */
it('California B&P 22903.3(c): 288.00 + 98.33 + 6.00 = 392.33', () => {
  const lines = [labourLine('labour', '2.4'), partLine('part', '1', null, { cost: '85.50' }), feeLine('freight', '6.00')];
  const priced = priceLines(lines, {
    labourClasses: [{ id: 'general', title: 'Retail labour', rate: '120.00' }],
    parts: { basis: 'markup', mode: 'whole', tiers: [{ percent: '15' }] },
  });
  expect(priced.totals).toMatchObject({ labour: '288.00', part: '98.33', fee: '6.00', total: '392.33' });
  assertAddsUp(priced);
});

/** The worked check of the design (invented): a plenum step of 1.2 h under two jobs, rate 150.00. */
describe('gasket and O-rings under one plenum', () => {
  const catalogue = aCatalogue({
    steps: [aStep('plenum', '1.2'), aStep('rail', '0.5')],
    operations: [anOperation('gasket', '2.0', { steps: ['plenum'] }), anOperation('o-rings', '2.6', { steps: ['plenum', 'rail'] })],
  });
  const rates = aRateCard({ labourClasses: [{ id: 'general', title: 'General repair', rate: '150.00' }] });
  const lines = [operationLine('g', 'gasket'), operationLine('o', 'o-rings')];
  const documents = { estimate: anEstimate(lines), catalogue, rates };
  const alone = (line: string): string => priceDocuments(documents, { only: new Set([line]) }).totals.total;

  it('costs 300.00 and 390.00 alone, 510.00 together', () => {
    expect([alone('g'), alone('o'), priceDocuments(documents).totals.total]).toEqual(['300.00', '390.00', '510.00']);
  });

  it('the longer job carries the plenum', () => {
    const priced = priceDocuments(documents);
    expect(priced.lines.map(({ chargedHours, labour }) => [chargedHours, labour])).toEqual([
      ['0.8', '120.00'],
      ['2.6', '390.00'],
    ]);
    expect(priced.lines[0]!.uses).toEqual([{ step: 'plenum', position: null, carriedBy: 'o' }]);
    expect(priced.overlap).toMatchObject({ hours: '1.2', money: '180.00' });
    assertAddsUp(priced);
  });

  it('declining the O-rings leaves 300.00, not 120.00', () => {
    const declined = { ...documents, estimate: anEstimate([lines[0]!, { ...lines[1]!, decision: 'declined' }]) };
    expect(priceDocuments(declined).totals.total).toBe('300.00');
  });

  it('doing either later costs the plenum again: 180.00', () => {
    expect(deferralCosts(readDocuments(documents))).toEqual({
      g: { now: '120.00', later: '300.00', extra: '180.00' },
      o: { now: '210.00', later: '390.00', extra: '180.00' },
    });
  });
});
