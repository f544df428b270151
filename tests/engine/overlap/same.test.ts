/** When two works or shares may stand for each other: every fact that the sum depends on is the same. */
import { describe, expect, it } from 'vitest';
import type { OperationLine } from '../../../src/documents/lines.js';
import { decimal } from '../../../src/number/decimal.js';
import { indexCatalogue } from '../../../src/overlap/catalogue-index.js';
import { shareWork } from '../../../src/overlap/share-work.js';
import { type Work, workOf } from '../../../src/overlap/work.js';
import { sameShare, sameWork } from '../../../src/overlap/same.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, aStep, operationLine, readDocuments } from '../../support/builders.js';
import type { OperationLine as LineDoc } from '../../support/oracle-documents.js';

const CATALOGUE = aCatalogue({
  steps: [aStep('s', '0.5')],
  operations: [
    anOperation('a', '1.0', { steps: ['s'], additionalHours: '0.2' }),
    anOperation('b', '1.0', { steps: ['s'] }),
    anOperation('c', '9.0', { steps: ['s'], includes: ['a'] }),
    anOperation('d', '8.0', { includes: ['a'] }),
  ],
});
const index = indexCatalogue(readDocuments({ estimate: anEstimate([]), catalogue: CATALOGUE, rates: aRateCard() }).catalogue);

function work(operation: string, more: Partial<LineDoc> = {}, rate = '100', id = 'l'): Work {
  const { estimate } = readDocuments({
    estimate: anEstimate([operationLine(id, operation, more)]),
    catalogue: CATALOGUE,
    rates: aRateCard(),
  });
  return workOf(estimate.lines[0] as OperationLine, index.operations.get(operation)!, decimal(rate), index);
}

describe('works', () => {
  const plain = work('a');

  it('are the same when nothing that counts differs', () => {
    expect(sameWork(plain, work('a'))).toBe(true);
    expect(sameWork(plain, work('a', { note: 'x', decision: 'approved', parts: [{ part: 'p' }] } as Partial<LineDoc>))).toBe(true);
    expect(sameWork(plain, work('a', { bookHours: '1.00' }, '100.0'))).toBe(true);
    expect(sameWork(work('a', { positions: ['x', 'y'] }), work('a', { positions: ['x', 'y'] }))).toBe(true);
  });

  it.each<[string, Work]>([
    ['another operation', work('b')],
    ['another line', work('a', {}, '100', 'm')],
    ['another rate', work('a', {}, '100.01')],
    ['other book hours', work('a', { bookHours: '1.1' })],
    ['extra hours', work('a', { extraHours: { hours: '0.1', reason: '' } })],
    ['a position', work('a', { positions: ['x'] })],
    ['hours below the steps', work('a', { bookHours: '0.4' })],
  ])('not with %s', (_, other) => expect(sameWork(plain, other)).toBe(false));

  it('not with other positions of the same number', () => {
    expect(sameWork(work('a', { positions: ['x'] }), work('a', { positions: ['y'] }))).toBe(false);
  });

  it('not when hours below the steps come to the same book hours as typed ones', () => {
    // 0.4 typed counts as the steps' 0.5; so does 0.5 typed, without the warning.
    expect(sameWork(work('a', { bookHours: '0.4' }), work('a', { bookHours: '0.5' }))).toBe(false);
  });
});

describe('shares', () => {
  const a = work('a', {}, '100', 'a');
  const b = work('b', {}, '100', 'b');
  const c = work('c', {}, '100', 'c');
  const share = (works: Work[]) => shareWork(works, index).shares.get('a')!;

  it('are the same of the same work, carried by the same', () => expect(sameShare(share([a, b]), share([a, b]))).toBe(true));
  it('not when another line carries', () => expect(sameShare(share([a, b]), share([b, a]))).toBe(false));
  it('not when the line has become part of another', () => expect(sameShare(share([a]), share([a, c]))).toBe(false));
  it('not when it is part of another line than before', () =>
    expect(sameShare(share([a, c]), share([a, work('d', {}, '100', 'd')]))).toBe(false));
  it('not of another work, though the figures are the same', () =>
    expect(sameShare(share([a]), share([work('a', {}, '100', 'a')]))).toBe(false));
});
