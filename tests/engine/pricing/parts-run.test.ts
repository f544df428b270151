/** One list for one trip. */
import { describe, expect, it } from 'vitest';
import { partsRun } from '../../../src/index.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aPart,
  aRateCard,
  aStep,
  operationLine,
  partLine,
  priceDocuments,
} from '../../support/builders.js';
import type { LineDoc } from '../../support/oracle-documents.js';

const catalogue = aCatalogue({
  parts: [
    aPart('seal', '2.00', { number: 'S-1' }),
    aPart('coolant', '5.00'),
    aPart('pump', '100.00', { core: '25.00', condition: 'rebuilt' }),
  ],
  steps: [aStep('drain', '0.6', { parts: [{ part: 'coolant', qty: '6' }] })],
  operations: [
    anOperation('pump-job', '3', {
      steps: ['drain'],
      parts: [
        { part: 'pump', qty: '1' },
        { part: 'seal', qty: '1' },
      ],
    }),
    anOperation('hose-job', '1', {
      steps: ['drain'],
      parts: [
        { part: 'seal', qty: '2', each: true },
        { part: 'coolant', qty: '0.5' },
      ],
    }),
  ],
});
const run = (lines: LineDoc[]): ReturnType<typeof partsRun> =>
  partsRun(priceDocuments({ estimate: anEstimate(lines), catalogue, rates: aRateCard() }));
const short = (lines: LineDoc[]): string[] =>
  run(lines).map(({ part, number, qty, cores, lines: who }) => `${part ?? number}: ${qty}, cores ${cores}, ${who.join(' ')}`);

it('the same part on several lines is one entry with all who need it', () => {
  // seal 2 × 2 + 1; coolant 0.5 on the hose, 6 with the pump that carries the drain
  expect(short([operationLine('h', 'hose-job', { positions: ['a', 'b'] }), operationLine('p', 'pump-job')])).toEqual([
    'seal: 5, cores 0, h p',
    'coolant: 6.5, cores 0, h p',
    'pump: 1, cores 1, p',
  ]);
});

it('declined lines need nothing', () => {
  expect(short([operationLine('h', 'hose-job'), operationLine('p', 'pump-job', { decision: 'declined' })])).toEqual([
    'seal: 2, cores 0, h',
    'coolant: 6.5, cores 0, h',
  ]);
});

it('tells title, number and condition', () => {
  expect(run([operationLine('p', 'pump-job')])[0]).toEqual({
    part: 'pump',
    title: 'Part pump',
    number: 'pump',
    condition: 'rebuilt',
    qty: '1',
    cores: '1',
    lines: ['p'],
  });
});

describe('parts that were typed', () => {
  it('are the same by number and condition', () => {
    const lines = [
      partLine('a', '1', '5', { number: 'N-1' }),
      partLine('b', '2', '6', { number: 'N-1' }),
      partLine('c', '1', '5', { number: 'N-1', condition: 'used' }),
    ];
    expect(short(lines)).toEqual(['N-1: 3, cores 0, a b', 'N-1: 1, cores 0, c']);
  });

  it('without a number by title', () => {
    const clip = { title: 'Clip' };
    expect(
      run([partLine('a', '1', '5', clip), partLine('b', '2', '5', clip), partLine('c', '1', '5', { title: 'Bolt' })]).map(
        ({ title, qty }) => [title, qty],
      ),
    ).toEqual([
      ['Clip', '3'],
      ['Bolt', '1'],
    ]);
  });

  it('are not mistaken for a part of the catalogue with that number', () => {
    expect(short([operationLine('p', 'pump-job'), partLine('a', '1', '5', { number: 'seal' })])).toContain('seal: 1, cores 0, a');
    expect(
      run([operationLine('p', 'pump-job'), partLine('a', '1', '5', { number: 'seal' })]).filter(
        ({ number }) => number === 'S-1' || number === 'seal',
      ).length,
    ).toBe(2);
  });
});

it('another condition of the same part is another entry', () => {
  const lines = [operationLine('a', 'pump-job'), operationLine('b', 'pump-job', { parts: [{ part: 'pump', condition: 'new' }] })];
  expect(
    run(lines)
      .filter(({ part }) => part === 'pump')
      .map(({ condition, lines: who }) => [condition, who]),
  ).toEqual([
    ['rebuilt', ['a']],
    ['new', ['b']],
  ]);
});

it('what is given back is taken off', () => {
  expect(short([partLine('a', '3', '5', { number: 'N-1', core: '2' }), partLine('b', '-1', '5', { number: 'N-1', core: '2' })])).toEqual([
    'N-1: 2, cores 2, a b',
  ]);
});

it('fees, labour and supplies are no parts', () => expect(run([{ id: 'f', kind: 'fee', title: 'Fee', amount: '5.00' }])).toEqual([]));
