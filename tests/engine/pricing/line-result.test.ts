/** Rules 7 to 9 for one line: which charges, in which order, and what the line comes to. */
import { expect, it } from 'vitest';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aPart,
  aRateCard,
  aStep,
  aTax,
  operationLine,
  partLine,
  priceDocuments,
} from '../../support/builders.js';
import type { LineDoc } from '../../support/oracle-documents.js';

function priced(lines: LineDoc[]) {
  const result = priceDocuments({
    estimate: anEstimate(lines),
    catalogue: aCatalogue({
      parts: [aPart('pump', '80.00', { core: '20.00' }), aPart('seal', '2.00'), aPart('coolant', '5.00')],
      steps: [aStep('drain', '0.5', { parts: [{ part: 'coolant', qty: '6' }] })],
      operations: [
        anOperation('job', '2.0', {
          steps: ['drain'],
          parts: [
            { part: 'pump', qty: '1' },
            { part: 'seal', qty: '2' },
          ],
          fees: ['waste'],
        }),
        anOperation('short', '0.5', { steps: ['drain'] }),
      ],
    }),
    rates: aRateCard({ fees: [{ id: 'waste', title: 'Waste', amount: '3.00', per: 'unit' }], taxes: [aTax('t', '10', { on: ['part'] })] }),
  });
  assertAddsUp(result);
  return result;
}

it('labour, each part followed by its core, then fees; the line is their sum', () => {
  const { charges, lines } = priced([operationLine('l', 'job')]);
  expect(charges.map(({ id, amount }) => `${id} ${amount}`)).toEqual([
    'l.labour 200.00',
    'l.part.pump 80.00',
    'l.core.pump 20.00',
    'l.part.seal 4.00',
    'l.part.coolant 30.00',
    'l.fee.waste 3.00',
  ]);
  expect(lines[0]).toMatchObject({ labour: '200.00', amount: '337.00' });
});

it('a line whose hours are all shared has no labour charge', () => {
  const { charges, lines } = priced([operationLine('l', 'job'), operationLine('s', 'short')]);
  expect(charges.filter(({ line }) => line === 's')).toEqual([]);
  expect(lines[1]).toMatchObject({ priced: true, bookHours: '0.5', sharedHours: '0.5', chargedHours: '0', labour: '0.00', amount: '0.00' });
});

it('what is saved is labour alone, whatever parts and fees the lines have', () => {
  // The drain, 0.5 h at 100.00, is paid once.
  expect(priced([operationLine('l', 'job'), operationLine('s', 'short')]).overlap).toMatchObject({ hours: '0.5', money: '50.00' });
  expect(priced([operationLine('l', 'job')]).overlap).toMatchObject({ hours: '0', money: '0.00' });
});

it('the taxes of a line hold for every charge of it', () => {
  const { charges } = priced([operationLine('l', 'job', { taxes: ['t'] }), partLine('p', '1', '1.00', { taxes: [] })]);
  expect(charges.map(({ taxes }) => taxes.join())).toEqual(['t', 't', 't', 't', 't', 't', '']);
  expect(priced([operationLine('l', 'job')]).charges.map(({ taxes }) => taxes.join())).toEqual(['', 't', '', 't', 't', '']);
});

it('each charge has an id of its own', () => {
  const { charges } = priced([
    operationLine('a', 'job'),
    operationLine('b', 'job', { parts: [{ part: 'seal', qty: '9' }] }),
    partLine('c', '1', '1', { core: '1' }),
  ]);
  expect(new Set(charges.map(({ id }) => id)).size).toBe(charges.length);
});
