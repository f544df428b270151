/** Rule 14: what a line costs with the others, what it costs alone later on, and the teardown paid twice. */
import { describe, expect, it } from 'vitest';
import { deferralCosts } from '../../../src/index.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aPart,
  aRateCard,
  aStep,
  aTax,
  feeLine,
  labourLine,
  operationLine,
  partLine,
  readDocuments,
} from '../../support/builders.js';
import type { CatalogueDoc, EstimateDoc, LineDoc, RatesDoc } from '../../support/oracle-documents.js';

const PLENUM: Partial<CatalogueDoc> = {
  steps: [aStep('plenum', '1.2'), aStep('rail', '0.5')],
  operations: [
    anOperation('gasket', '2.0', { steps: ['plenum'] }),
    anOperation('o-rings', '2.6', { steps: ['plenum', 'rail'] }),
    anOperation('filter', '0.4'),
  ],
};
const costs = (
  lines: LineDoc[],
  catalogue: Partial<CatalogueDoc> = PLENUM,
  rates: Partial<RatesDoc> = {},
  estimate: Partial<EstimateDoc> = {},
) => deferralCosts(readDocuments({ estimate: anEstimate(lines, estimate), catalogue: aCatalogue(catalogue), rates: aRateCard(rates) }));

describe('two operations over one plenum', () => {
  it('either costs the plenum again when it is put off', () => {
    // Together 2.6 + 0.8 = 3.4 h. Without o: 2.0 → now 1.4; without g: 2.6 → now 0.8. Alone 2.6 and 2.0.
    expect(costs([operationLine('g', 'gasket'), operationLine('o', 'o-rings')])).toEqual({
      g: { now: '80.00', later: '200.00', extra: '120.00' },
      o: { now: '140.00', later: '260.00', extra: '120.00' },
    });
  });

  it('a line that shares nothing costs the same at any time', () => {
    expect(costs([operationLine('g', 'gasket'), operationLine('f', 'filter')]).f).toEqual({ now: '40.00', later: '40.00', extra: '0.00' });
  });
});

describe('a line that is not priced at present', () => {
  it('costs now what it would add to the rest', () => {
    // S is the gasket: 200. With the O-rings 340: now 140.
    const all = costs([operationLine('g', 'gasket'), operationLine('o', 'o-rings', { decision: 'deferred' })]);
    expect(all.o).toEqual({ now: '140.00', later: '260.00', extra: '120.00' });
    // The gasket among the priced lines stands alone.
    expect(all.g).toEqual({ now: '200.00', later: '200.00', extra: '0.00' });
  });

  it('a declined one too', () => {
    expect(costs([operationLine('g', 'gasket'), operationLine('o', 'o-rings', { decision: 'declined' })]).o!.now).toBe('140.00');
  });
});

it('the amounts hold tax, supplies and the parts of shared steps', () => {
  const catalogue: Partial<CatalogueDoc> = {
    parts: [aPart('coolant', '5.00')],
    steps: [aStep('drain', '0.5', { parts: [{ part: 'coolant', qty: '4' }] })],
    operations: [anOperation('a', '1.0', { steps: ['drain'] }), anOperation('b', '2.0', { steps: ['drain'] })],
  };
  const rates: Partial<RatesDoc> = {
    taxes: [aTax('t', '10', { on: ['part'] })],
    supplies: { title: 'Supplies', percent: '10', of: ['labour'], minimum: null, maximum: null },
  };
  // Alone a: 100 + 20 + 2 tax + 10 supplies = 132. Together: labour 250 + 20 + 2 + 25 = 297; without a: 200 + 20 + 2 + 20 = 242.
  expect(costs([operationLine('a', 'a'), operationLine('b', 'b')], catalogue, rates).a).toEqual({
    now: '55.00',
    later: '132.00',
    extra: '77.00',
  });
});

it('an included line costs nothing now and its price later', () => {
  const catalogue = { operations: [anOperation('inner', '1.0'), anOperation('outer', '3.0', { includes: ['inner'] })] };
  expect(costs([operationLine('i', 'inner'), operationLine('o', 'outer')], catalogue)).toEqual({
    i: { now: '0.00', later: '100.00', extra: '100.00' },
    // Without the outer the inner comes back at 100: 300 − 100.
    o: { now: '200.00', later: '300.00', extra: '100.00' },
  });
});

it('every kind of line has its costs, a note has none', () => {
  const all = costs([labourLine('l', '1'), partLine('p', '2', '5.00'), feeLine('f', '-3.00'), { id: 'n', kind: 'note', text: 'x' }]);
  expect(all).toEqual({
    l: { now: '100.00', later: '100.00', extra: '0.00' },
    p: { now: '10.00', later: '10.00', extra: '0.00' },
    f: { now: '-3.00', later: '-3.00', extra: '0.00' },
  });
});

it('a line that cannot be priced has none', () => {
  expect(Object.keys(costs([operationLine('x', 'gone'), labourLine('l', '1')]))).toEqual(['l']);
});

it('a line named like a key of every object is a line like others', () => {
  const all = costs([labourLine('__proto__', '1'), labourLine('constructor', '1')]);
  expect(Object.keys(all).sort()).toEqual(['__proto__', 'constructor']);
});
