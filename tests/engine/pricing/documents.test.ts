import { expect, it } from 'vitest';
import { prepare } from '../../../src/pricing/documents.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, operationLine } from '../../support/builders.js';

const good = { estimate: anEstimate([]), catalogue: aCatalogue(), rates: aRateCard() };

it('documents that read are prepared', () => {
  const read = prepare(good as never);
  expect(read.ok && [read.prepared.estimate.id, read.prepared.index.catalogue.id, read.prepared.rates.rates.id]).toEqual([
    'test',
    'test',
    'test',
  ]);
});

it('what does not read is told for all three at once, under the name of each', () => {
  const read = prepare({
    estimate: { ...good.estimate, lines: {} },
    catalogue: '{',
    rates: { ...good.rates, parts: { tiers: [] } },
  } as never);
  expect(!read.ok && read.problems.map(({ code, path }) => `${code} ${path}`)).toEqual([
    'list estimate.lines',
    'not-json catalogue',
    'empty-list rates.parts.tiers',
  ]);
});

it('the three need not agree with each other: that is told when lines are priced', () => {
  expect(
    prepare({
      ...good,
      estimate: anEstimate([operationLine('l', 'gone')]),
      catalogue: aCatalogue({ operations: [anOperation('o', '1', { labourClass: 'gone' })] }),
    } as never).ok,
  ).toBe(true);
});

it('no documents at all are told like bad ones', () => {
  for (const none of [undefined, null, {}]) expect(prepare(none as never)).toMatchObject({ ok: false });
});
