/** Faults between the documents: the line is left unpriced, the place is named, nothing throws. */
import { describe, expect, it } from 'vitest';
import type { PricedEstimate } from '../../../src/index.js';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aPart,
  aRateCard,
  aStep,
  aTax,
  labourLine,
  operationLine,
  partLine,
  priceDocuments,
} from '../../support/builders.js';
import type { LineDoc, RatesDoc } from '../../support/oracle-documents.js';

const catalogue = aCatalogue({
  parts: [aPart('seal', '2.00')],
  steps: [aStep('drain', '0.6'), aStep('wheel', '0.3', { per: 'position' })],
  operations: [
    anOperation('hose', '1.4', { steps: ['drain'] }),
    anOperation('wiring', '1.0', { labourClass: 'electrical' }),
    anOperation('disposal', '1.0', { fees: ['recycling', 'oil'] }),
    anOperation('pads', '0.8', { per: 'position', steps: ['wheel'] }),
  ],
});

function priced(lines: LineDoc[], rates: Partial<RatesDoc> = {}): PricedEstimate {
  const result = priceDocuments({ estimate: anEstimate(lines), catalogue, rates: aRateCard(rates) });
  assertAddsUp(result);
  return result;
}

describe('an error: the line is not priced, the rest is', () => {
  it.each<[what: string, line: LineDoc, code: string, path: string, message: RegExp]>([
    ['an operation that the catalogue lacks', operationLine('x', 'gone'), 'unknown-operation', 'operation', /no operation "gone"/],
    ['an operation named like a key of every object', operationLine('x', 'constructor'), 'unknown-operation', 'operation', /"constructor"/],
    [
      'a labour class of the operation that the card lacks',
      operationLine('x', 'wiring'),
      'unknown-labour-class',
      'operation',
      /"electrical"/,
    ],
    [
      'a labour class of the line that the card lacks',
      operationLine('x', 'hose', { labourClass: 'gone' }),
      'unknown-labour-class',
      'labourClass',
      /"gone"/,
    ],
    [
      'a labour line of a class that the card lacks',
      labourLine('x', '1', { labourClass: 'gone' }),
      'unknown-labour-class',
      'labourClass',
      /"gone"/,
    ],
    [
      'a part that the catalogue lacks',
      operationLine('x', 'hose', { parts: [{ part: 'seal' }, { part: 'gone' }] }),
      'unknown-part',
      'parts[1].part',
      /no part "gone"/,
    ],
    ['a tax that the card lacks', partLine('x', '1', '5.00', { taxes: ['t', 'gone'] }), 'unknown-tax', 'taxes[1]', /"gone"/],
    ['a tax that the card lacks, on a note', { id: 'x', kind: 'note', text: 'n', taxes: ['gone'] }, 'unknown-tax', 'taxes[0]', /"gone"/],
  ])('%s', (_, line, code, path, message) => {
    const result = priced([labourLine('ok', '1'), line], { taxes: [aTax('t', '0')] });
    expect(result.problems).toEqual([expect.objectContaining({ severity: 'error', code, path: `lines[1].${path}` })]);
    expect(result.problems[0]!.message).toMatch(message);
    expect(result.problems[0]!.hint).toMatch(/\w/);
    expect(result.complete).toBe(false);
    expect(result.lines[1]).toMatchObject({
      id: 'x',
      priced: false,
      chargedHours: '0',
      sharedHours: '0',
      labour: '0.00',
      amount: '0.00',
      carries: [],
      uses: [],
    });
    expect(result.totals.total).toBe('100.00');
  });

  it('each fee that the card lacks is told', () => {
    const result = priced([operationLine('x', 'disposal')], { fees: [{ id: 'recycling', title: 'R', amount: '1', per: 'unit' }] });
    expect(result.problems.map(({ code, path, message }) => [code, path, message.includes('"oil"')])).toEqual([
      ['unknown-fee', 'lines[0].operation', true],
    ]);
    expect(result.lines[0]!.priced).toBe(false);
    expect(priced([operationLine('x', 'disposal')]).problems.length).toBe(2);
  });

  it('several faults of one line come at once', () => {
    const line = operationLine('x', 'hose', { labourClass: 'gone', taxes: ['gone'], parts: [{ part: 'gone' }] });
    expect(
      priced([line])
        .problems.map(({ code }) => code)
        .sort(),
    ).toEqual(['unknown-labour-class', 'unknown-part', 'unknown-tax']);
  });

  it('the line carries nothing: what it would have carried stays with the others', () => {
    const longer = operationLine('x', 'hose', { bookHours: '5', taxes: ['gone'] });
    const result = priced([longer, operationLine('h', 'hose')]);
    expect(result.lines[1]).toMatchObject({ chargedHours: '1.4', carries: ['drain'] });
  });

  it('also when the line is declined: the document is at fault all the same', () => {
    const result = priced([operationLine('x', 'gone', { decision: 'declined' })]);
    expect(result).toMatchObject({ complete: false, problems: [{ code: 'unknown-operation' }] });
  });

  it('also when it is the only one asked for', () => {
    const documents = { estimate: anEstimate([operationLine('x', 'gone')]), catalogue, rates: aRateCard() };
    expect(priceDocuments(documents, { only: new Set(['x']) }).lines[0]!.priced).toBe(false);
  });
});

describe('a warning: the line is priced all the same', () => {
  it.each<[what: string, line: LineDoc, code: string, path: string, chargedHours: string]>([
    // The drain alone takes 0.6.
    ['book hours typed below the steps', operationLine('x', 'hose', { bookHours: '0.5' }), 'book-below-steps', 'bookHours', '0.6'],
    ['an operation for each position without a position', operationLine('x', 'pads'), 'no-position', 'positions', '0.8'],
  ])('%s', (_, line, code, path, chargedHours) => {
    const result = priced([line]);
    expect(result.problems).toEqual([expect.objectContaining({ severity: 'warning', code, path: `lines[0].${path}` })]);
    expect(result.complete).toBe(true);
    expect(result.lines[0]).toMatchObject({ priced: true, chargedHours });
  });

  it('the message tells the hours', () => {
    expect(priced([operationLine('x', 'hose', { bookHours: '0.5' })]).problems[0]!.message).toContain('(0.5)');
  });
});

it('a line without fault has no problem', () => {
  expect(
    priced([
      operationLine('x', 'pads', { positions: ['left'], parts: [{ part: 'seal' }] }),
      operationLine('y', 'hose', { bookHours: '0.6' }),
    ]).problems,
  ).toEqual([]);
});

it('titles: of the operation, of the line, the text of a note, the id where there is nothing else', () => {
  const result = priced([
    operationLine('a', 'hose'),
    labourLine('b', '1'),
    { id: 'c', kind: 'note', text: 'A note.' },
    operationLine('d', 'gone'),
  ]);
  expect(result.lines.map(({ title }) => title)).toEqual(['Operation hose', 'Labour b', 'A note.', 'gone']);
});
