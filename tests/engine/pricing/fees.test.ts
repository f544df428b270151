/** Rule 9: fees that operations name, fees typed as lines, and their taxes. */
import { describe, expect, it } from 'vitest';
import type { PricedEstimate } from '../../../src/index.js';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aRateCard,
  aTax,
  feeLine,
  operationLine,
  priceDocuments,
  priceLines,
} from '../../support/builders.js';
import type { FeeDoc, LineDoc, OperationDoc, RatesDoc } from '../../support/oracle-documents.js';

const disposal: FeeDoc = { id: 'disposal', title: 'Disposal', amount: '6.50', per: 'estimate' };
const damper: FeeDoc = { id: 'damper', title: 'Damper', amount: '3.00', per: 'unit' };

function priced(operations: OperationDoc[], lines: LineDoc[], rates: Partial<RatesDoc> = {}): PricedEstimate {
  const result = priceDocuments({
    estimate: anEstimate(lines),
    catalogue: aCatalogue({ operations }),
    rates: aRateCard({ fees: [disposal, damper], ...rates }),
  });
  assertAddsUp(result);
  return result;
}
const fees = ({ charges }: PricedEstimate): string[] =>
  charges.filter(({ kind }) => kind === 'fee').map(({ id, line, qty, amount }) => `${id} of ${line}: ${qty}, ${amount}`);

describe('once for the estimate', () => {
  const operations = [anOperation('a', '1', { fees: ['disposal'] }), anOperation('b', '2', { fees: ['disposal'] }), anOperation('c', '3')];

  it('however many operations name it', () => {
    expect(fees(priced(operations, [operationLine('x', 'a'), operationLine('y', 'b'), operationLine('z', 'a')]))).toEqual([
      'fee.disposal of null: 1, 6.50',
    ]);
  });

  it('not when none does, or when those that do are declined', () => {
    expect(fees(priced(operations, [operationLine('x', 'c')]))).toEqual([]);
    expect(fees(priced(operations, [operationLine('x', 'a', { decision: 'declined' }), operationLine('y', 'c')]))).toEqual([]);
  });

  it('it stays while one line that names it is done', () => {
    expect(fees(priced(operations, [operationLine('x', 'a', { decision: 'declined' }), operationLine('y', 'b')]))).toEqual([
      'fee.disposal of null: 1, 6.50',
    ]);
  });

  it('several stand in the order of the rate card, after all lines', () => {
    const second: FeeDoc = { id: 'second', title: 'Second', amount: '1.00', per: 'estimate' };
    const result = priced(
      [anOperation('a', '1', { fees: ['second', 'disposal'] }), anOperation('b', '1')],
      [operationLine('x', 'a'), operationLine('y', 'b')],
      { fees: [disposal, second] },
    );
    expect(result.charges.map(({ id }) => id)).toEqual(['x.labour', 'y.labour', 'fee.disposal', 'fee.second']);
  });
});

describe('once for each unit', () => {
  const strut = anOperation('strut', '1', { per: 'position', fees: ['damper'] });
  const rack = anOperation('rack', '3', { fees: ['damper'], includes: ['strut'] });

  it('by positions for a position operation', () => {
    expect(fees(priced([strut], [operationLine('x', 'strut', { positions: ['left', 'right'] })]))).toEqual(['x.fee.damper of x: 2, 6.00']);
    expect(fees(priced([strut], [operationLine('x', 'strut')]))).toEqual(['x.fee.damper of x: 1, 3.00']);
  });

  it('once for a vehicle operation, whatever its positions', () => {
    expect(fees(priced([strut, rack], [operationLine('x', 'rack', { positions: ['left', 'right'] })]))).toEqual([
      'x.fee.damper of x: 1, 3.00',
    ]);
  });

  it('on each line, included ones too', () => {
    expect(
      fees(priced([strut, rack], [operationLine('x', 'strut', { positions: ['left', 'right'] }), operationLine('y', 'rack')])),
    ).toEqual(['x.fee.damper of x: 2, 6.00', 'y.fee.damper of y: 1, 3.00']);
  });

  it('stand in the order in which the operation names them', () => {
    const other: FeeDoc = { id: 'other', title: 'Other', amount: '1.005', per: 'unit' };
    const result = priced(
      [anOperation('a', '1', { per: 'position', fees: ['other', 'damper'] })],
      [operationLine('x', 'a', { positions: ['l', 'r', 'm'] })],
      { fees: [damper, other] },
    );
    // 3 × 1.005 = 3.015 → 3.02, rounded once
    expect(fees(result)).toEqual(['x.fee.other of x: 3, 3.02', 'x.fee.damper of x: 3, 9.00']);
  });
});

describe('a fee line', () => {
  it('is its amount, rounded; a credit is its mirror image', () => {
    const result = priceLines([feeLine('a', '12.00'), feeLine('b', '1.005'), feeLine('c', '-1.005'), feeLine('d', '0')]);
    assertAddsUp(result);
    expect(result.lines.map(({ amount }) => amount)).toEqual(['12.00', '1.01', '-1.01', '0.00']);
  });
});

describe('the taxes on a fee', () => {
  const taxes = [aTax('s', '10', { on: ['fee'] }), aTax('t', '10', { on: ['labour'] })];
  const on = (fee: Partial<FeeDoc>, line: object = {}, per: FeeDoc['per'] = 'unit'): string[] => {
    const result = priced([anOperation('a', '1', { fees: ['f'] })], [operationLine('x', 'a', line)], {
      fees: [{ id: 'f', title: 'F', amount: '10.00', per, ...fee }],
      taxes,
    });
    return [...result.charges.find(({ kind }) => kind === 'fee')!.taxes];
  };

  it('are what the kinds say', () => expect(on({})).toEqual(['s']));
  it("or the line's, where it names its own", () => expect(on({}, { taxes: ['t'] })).toEqual(['t']));
  it("or the fee's, before both; none for an empty list", () => {
    expect(on({ taxes: ['t'] }, { taxes: ['s'] })).toEqual(['t']);
    expect(on({ taxes: [] }, { taxes: ['s'] })).toEqual([]);
  });
  it('a line has no say in a fee for the estimate', () => {
    expect(on({}, { taxes: ['t'] }, 'estimate')).toEqual(['s']);
    expect(on({ taxes: ['t'] }, {}, 'estimate')).toEqual(['t']);
  });
});
