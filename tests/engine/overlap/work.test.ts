/** Rules 1 to 3: units, steps and own hours of one operation line, before anything is shared. */
import { describe, expect, it } from 'vitest';
import type { OperationLine } from '../../../src/documents/lines.js';
import { decimal, printPlain } from '../../../src/number/decimal.js';
import { indexCatalogue } from '../../../src/overlap/catalogue-index.js';
import { type Work, workOf } from '../../../src/overlap/work.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, aStep, operationLine, readDocuments } from '../../support/builders.js';
import type { OperationDoc, OperationLine as LineDoc, StepDoc } from '../../support/oracle-documents.js';

function work(operation: OperationDoc, steps: StepDoc[] = [], line: Partial<LineDoc> = {}): Work {
  const read = readDocuments({
    estimate: anEstimate([operationLine('l', operation.id, line)]),
    catalogue: aCatalogue({ steps, operations: [operation] }),
    rates: aRateCard(),
  });
  const index = indexCatalogue(read.catalogue);
  return workOf(read.estimate.lines[0] as OperationLine, index.operations.get(operation.id)!, decimal('100'), index);
}

const hours = ({ bookHours, ownHours }: Work): string[] => [bookHours, ownHours].map(printPlain);
const needs = ({ needs: counted }: Work): Record<string, number> => Object.fromEntries(counted);

describe('an operation for the vehicle is one unit', () => {
  const hose = anOperation('hose', '1.4', { additionalHours: '0.2' });

  it.each([
    [0, '1.4'],
    [1, '1.4'],
    // 1.4 + 1 × 0.2
    [2, '1.6'],
    // 1.4 + 4 × 0.2
    [5, '2.2'],
  ])('at %i positions: %s h', (n, book) => {
    const positions = Array.from({ length: n }, (_, i) => `p${i}`);
    expect(hours(work(hose, [], { positions }))).toEqual([book, book]);
    expect(work(hose, [], { positions }).units).toBe(1);
  });

  it('further positions cost nothing where the catalogue says nothing of them', () => {
    const { additionalHours: _, ...plain } = hose;
    expect(hours(work(plain, [], { positions: ['a', 'b'] }))).toEqual(['1.4', '1.4']);
  });

  it('book hours typed on the line replace the first, further positions still add', () => {
    // 2.0 + 2 × 0.2
    expect(hours(work(hose, [], { bookHours: '2.0', positions: ['a', 'b', 'c'] }))).toEqual(['2.4', '2.4']);
  });
});

describe('an operation for each position is one unit for each', () => {
  const pads = anOperation('pads', '0.8', { per: 'position', additionalHours: '0.3' });

  it.each([
    [0, '0.8', 1],
    [1, '0.8', 1],
    // 4 × 0.8; additional hours have no say here
    [4, '3.2', 4],
  ])('at %i positions: %s h', (n, book, units) => {
    const done = work(pads, [], { positions: Array.from({ length: n }, (_, i) => `p${i}`) });
    expect([...hours(done), done.units]).toEqual([book, book, units]);
  });

  it('book hours typed on the line hold for each unit', () => {
    // 2 × 1.1
    expect(hours(work(pads, [], { bookHours: '1.1', positions: ['left', 'right'] }))).toEqual(['2.2', '2.2']);
  });
});

describe('steps', () => {
  const steps = [
    aStep('tray', '0.2'),
    aStep('drain', '0.6', { needs: ['tray'] }),
    aStep('belt', '0.4', { needs: ['tray'] }),
    aStep('wheel', '0.3', { per: 'position' }),
    aStep('hub', '0.5', { per: 'position', needs: ['wheel', 'tray'] }),
  ];

  it('are needed through other steps too, each once', () => {
    const pump = work(anOperation('pump', '3.0', { steps: ['drain', 'belt'] }), steps);
    expect(needs(pump)).toEqual({ drain: 1, tray: 1, belt: 1 });
    // own 3.0 − (0.6 + 0.2 + 0.4)
    expect(hours(pump)).toEqual(['3', '1.8']);
  });

  it('for each position are a separate piece of work at each; those for the vehicle are needed by every unit', () => {
    const bearing = work(anOperation('bearing', '1.5', { per: 'position', steps: ['hub'] }), steps, { positions: ['left', 'right'] });
    expect(needs(bearing)).toEqual({ 'hub@left': 1, 'wheel@left': 1, tray: 2, 'hub@right': 1, 'wheel@right': 1 });
    expect(bearing.steps.map(({ position }) => position)).toEqual(['left', 'left', null, 'right', 'right']);
    // own 2 × (1.5 − 0.5 − 0.3 − 0.2) = 1.0
    expect(hours(bearing)).toEqual(['3', '1']);
  });

  it('for each position, where none is named, are at the position that has no name', () => {
    const bearing = work(anOperation('bearing', '1.5', { per: 'position', steps: ['wheel'] }), steps);
    expect(bearing.steps.map(({ position }) => position)).toEqual([null]);
    expect(hours(bearing)).toEqual(['1.5', '1.2']);
  });

  it('may be all there is to an operation', () => {
    expect(hours(work(anOperation('drain-only', '0.8', { steps: ['drain'] }), steps))).toEqual(['0.8', '0']);
  });
});

describe('own hours', () => {
  const steps = [aStep('plenum', '1.2')];
  const gasket = anOperation('gasket', '2.0', { steps: ['plenum'] });

  it('are book hours less the hours of the steps', () => {
    expect(hours(work(gasket, steps))).toEqual(['2', '0.8']);
    expect(work(gasket, steps).belowSteps).toBe(false);
  });

  it('with extra hours are added once for the line, and to its book hours', () => {
    expect(hours(work(gasket, steps, { extraHours: { hours: '0.7', reason: 'seized' } }))).toEqual(['2.7', '1.5']);
    const pads = anOperation('pads', '0.8', { per: 'position' });
    // 2 × 0.8 + 0.5, not + 2 × 0.5
    expect(hours(work(pads, [], { positions: ['a', 'b'], extraHours: { hours: '0.5', reason: '' } }))).toEqual(['2.1', '2.1']);
  });

  it('of hours typed below the steps are none, and the steps themselves are the book hours', () => {
    const below = work(gasket, steps, { bookHours: '1.0' });
    expect(hours(below)).toEqual(['1.2', '0']);
    expect(below.belowSteps).toBe(true);
    const equal = work(gasket, steps, { bookHours: '1.2' });
    expect(hours(equal)).toEqual(['1.2', '0']);
    expect(equal.belowSteps).toBe(false);
  });

  it('of hours typed as zero are none, for each unit', () => {
    const wheelJob = anOperation('wheel-job', '1.0', { per: 'position', steps: ['wheel'] });
    const wheel = [aStep('wheel', '0.3', { per: 'position' })];
    // 2 × 0.3
    expect(hours(work(wheelJob, wheel, { bookHours: '0', positions: ['a', 'b'] }))).toEqual(['0.6', '0']);
  });

  it('below the steps keep the extra hours', () => {
    expect(hours(work(gasket, steps, { bookHours: '0', extraHours: { hours: '0.5', reason: '' } }))).toEqual(['1.7', '0.5']);
  });
});
