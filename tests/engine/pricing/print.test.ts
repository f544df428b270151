import { describe, expect, it } from 'vitest';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aRateCard,
  aStep,
  labourLine,
  operationLine,
  partLine,
  priceDocuments,
} from '../../support/builders.js';
import type { LineDoc } from '../../support/oracle-documents.js';

describe('cautions', () => {
  const catalogue = aCatalogue({
    cautions: [
      { id: 'hot', text: 'Hot coolant.' },
      { id: 'airbag', text: 'Airbag.' },
      { id: 'jack', text: 'Stands.' },
    ],
    steps: [aStep('drain', '0.6', { cautions: ['hot'], needs: ['lift'] }), aStep('lift', '0.1', { cautions: ['jack'] })],
    operations: [
      anOperation('hose', '1', { steps: ['drain'], cautions: ['airbag', 'hot'] }),
      anOperation('pump', '3', { steps: ['drain'], includes: ['hose'] }),
      anOperation('belt', '1'),
    ],
  });
  const cautions = (lines: LineDoc[]) => priceDocuments({ estimate: anEstimate(lines), catalogue, rates: aRateCard() }).cautions;

  it('of operations and of their steps, each once, with the lines that it concerns', () => {
    expect(cautions([operationLine('b', 'belt'), operationLine('p', 'pump'), operationLine('h', 'hose')])).toEqual([
      { id: 'hot', text: 'Hot coolant.', lines: ['p', 'h'] },
      { id: 'airbag', text: 'Airbag.', lines: ['h'] },
      { id: 'jack', text: 'Stands.', lines: ['p', 'h'] },
    ]);
  });

  it('not of lines that are not done', () => {
    expect(cautions([operationLine('h', 'hose', { decision: 'declined' }), operationLine('b', 'belt')])).toEqual([]);
  });
});

describe('figures', () => {
  const priced = (lines: LineDoc[], rate = '100.00') =>
    priceDocuments({
      estimate: anEstimate(lines),
      catalogue: aCatalogue(),
      rates: aRateCard({ labourClasses: [{ id: 'general', title: '', rate }] }),
    });

  it('hours and quantities are plain, without trailing zeros', () => {
    const { lines, charges } = priced([labourLine('l', '1.500'), partLine('p', '2.50', '1.00')]);
    expect([lines[0]!.bookHours, charges[0]!.qty, charges[1]!.qty]).toEqual(['1.5', '1.5', '2.5']);
  });

  it('money has the digits of the money step, a unit price more where it was typed with more', () => {
    const { charges, lines } = priced(
      [labourLine('l', '1'), partLine('p', '1', '1.2'), partLine('q', '1000', '0.0088'), partLine('r', '1', '1.50000')],
      '99.995',
    );
    expect(charges.map(({ unit, amount }) => [unit, amount])).toEqual([
      ['99.995', '100.00'],
      ['1.20', '1.20'],
      ['0.0088', '8.80'],
      ['1.50', '1.50'],
    ]);
    expect(lines[0]!.rate).toBe('99.995');
  });

  it('zero has no sign', () => {
    expect(priced([partLine('p', '-1', '0.00')]).charges[0]!.amount).toBe('0.00');
    expect(priced([partLine('p', '-1', '0.001')]).totals.total).toBe('0.00');
  });
});

it('the steps tell their lines in the order of the sheet, though another carries', () => {
  const catalogue = aCatalogue({
    steps: [aStep('s', '0.5')],
    operations: [anOperation('a', '1', { steps: ['s'] }), anOperation('b', '2', { steps: ['s'] })],
  });
  const priced = priceDocuments({
    estimate: anEstimate([operationLine('x', 'a'), operationLine('y', 'b'), operationLine('z', 'a')]),
    catalogue,
    rates: aRateCard(),
  });
  expect(priced.overlap.steps[0]).toMatchObject({ lines: ['x', 'y', 'z'], carriedBy: 'y', savedHours: '1' });
});

it('the steps stand in the order in which they come off: first what the others need', () => {
  const catalogue = aCatalogue({
    steps: [
      aStep('hub', '0.5', { needs: ['disc'] }),
      aStep('disc', '0.3', { needs: ['calliper'] }),
      aStep('calliper', '0.2'),
      aStep('battery', '0.1'),
    ],
    operations: [anOperation('bearing', '2', { steps: ['hub'] }), anOperation('starter', '1', { steps: ['battery'] })],
  });
  const priced = priceDocuments({
    estimate: anEstimate([operationLine('x', 'bearing'), operationLine('y', 'starter')]),
    catalogue,
    rates: aRateCard(),
  });
  const order = priced.overlap.steps.map(({ step }) => step);
  expect(order.filter((step) => step !== 'battery')).toEqual(['calliper', 'disc', 'hub']);
  expect(order).toHaveLength(4);
});
