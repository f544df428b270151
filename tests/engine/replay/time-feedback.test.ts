import { describe, expect, it } from 'vitest';
import {
  chargedJobs,
  type ClockedHours,
  parseCatalogue,
  parseRates,
  type Parsed,
  readClockedHours,
  timeFeedback,
} from '../../../src/index.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, aStep, operationLine } from '../../support/builders.js';

const must = <T>(parsed: Parsed<T>): T => {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
};
/** Invented. */
const catalogue = must(
  parseCatalogue(
    aCatalogue({
      steps: [aStep('cover', '1.0')],
      operations: [
        anOperation('gasket', '2.0', { title: 'Renew the gasket', steps: ['cover'] }),
        anOperation('ring', '3.0', { title: 'Renew the ring', steps: ['cover'] }),
        anOperation('left', '1.0', { title: 'Same name' }),
        anOperation('right', '1.0', { title: 'same name' }),
      ],
    }),
  ),
);
const rates = must(parseRates(aRateCard()));
const rows = (operation: string, ...hours: string[]): ClockedHours[] =>
  hours.map((each, i) => ({ line: i + 1, operation, hours: each, estimate: null }));

describe('a table of clocked hours', () => {
  it('is read by its headings, in any order, by id or title', () => {
    const table = readClockedHours(
      'Date,Clocked hours,Estimate,Operation\n2026-03-02,1.5,E1,gasket\n2026-03-03,2:45,,renew the RING\n',
      catalogue,
    );
    expect(table.rows).toEqual([
      { line: 2, operation: 'gasket', hours: '1.5', estimate: 'E1' },
      { line: 3, operation: 'ring', hours: '2.75', estimate: null },
    ]);
    expect(table).toMatchObject({ bad: [], problems: [], columns: { operation: 3, hours: 1, estimate: 2 } });
  });

  it('is read without headings, and in another writing', () => {
    expect(readClockedHours('gasket;1,5\nring;2,25', catalogue, 'de').rows.map(({ hours }) => hours)).toEqual(['1.5', '2.25']);
  });

  it('tells each bad row with its line and keeps the others', () => {
    const text = 'operation,hours\ngasket,1.5\npump,2\n,1\nring,\nring,-1\nring,two\nSame name,1\nring,0:00\nring,2';
    const { rows: good, bad } = readClockedHours(text, catalogue);
    expect(good.map(({ line }) => line)).toEqual([2, 10]);
    expect(bad.map(({ line }) => line)).toEqual([3, 4, 5, 6, 7, 8, 9]);
    expect(bad[0]!.reason).toBe('The catalogue has no operation "pump".');
    expect(bad[5]!.reason).toBe('Several operations are called "Same name". Write the id: left, right.');
    for (const { reason } of bad) expect(reason).toMatch(/^[A-Z"].+\.$/);
  });

  it('asks for the columns where it does not know the headings, and takes the answer', () => {
    const text = 'Was,Wie lange\ngasket,1.5\n';
    expect(readClockedHours(text, catalogue)).toMatchObject({ columns: null, headings: ['Was', 'Wie lange'], rows: [] });
    expect(readClockedHours(text, catalogue, 'en', { operation: 0, hours: 1, estimate: null }).rows).toHaveLength(1);
  });

  it('has problems where it is no table', () => {
    expect(readClockedHours('', catalogue)).toMatchObject({ rows: [], problems: [{ code: 'empty-text' }] });
    expect(readClockedHours('operation,hours\ngasket,1\nring,"2', catalogue)).toMatchObject({
      rows: [{ operation: 'gasket' }],
      problems: [{ path: 'line 3' }],
    });
  });
});

describe('charged beside clocked', () => {
  it('gives ratio, spread and hours lost, worked by hand', () => {
    const { operations, losing, bad } = timeFeedback([...rows('gasket', '2.5', '2', '3', '2.5'), ...rows('ring', '2', '2')], catalogue);
    expect(operations[0]).toEqual({
      operation: 'gasket',
      title: 'Renew the gasket',
      bookHours: '2.0',
      jobs: 4,
      byBook: 4,
      charged: '8',
      clocked: '10',
      ratio: '0.80',
      lost: '2',
      spread: { least: '2', lowerQuartile: '2.38', median: '2.5', upperQuartile: '2.63', most: '3' },
      proposed: null,
    });
    expect(operations[1]).toMatchObject({ operation: 'ring', charged: '6', clocked: '4', ratio: '1.50', lost: '-2' });
    expect(losing.map(({ operation }) => operation)).toEqual(['gasket']);
    expect(bad).toEqual([]);
  });

  it('proposes the median from five jobs on, to a tenth, never below the steps', () => {
    const proposed = (...hours: string[]) => timeFeedback(rows('gasket', ...hours), catalogue).operations[0]!.proposed;
    expect(proposed('2.5', '2.5', '2.5', '2.5')).toBeNull();
    expect(proposed('2.5', '2.44', '2.45', '9', '0.5')).toEqual({ bookHours: '2.5', jobs: 5, heldBySteps: false });
    expect(proposed('2', '2', '2.04', '9', '1')).toBeNull();
    expect(proposed('0.5', '0.5', '0.5', '0.5', '0.5')).toEqual({ bookHours: '1', jobs: 5, heldBySteps: true });
  });

  it('lists the ten that lose most', () => {
    const many = must(parseCatalogue(aCatalogue({ operations: Array.from({ length: 14 }, (_, i) => anOperation(`o${i}`, '1.0')) })));
    const { losing } = timeFeedback(Array.from({ length: 14 }, (_, i) => rows(`o${i}`, `${1 + i}`)).flat(), many);
    expect(losing.map(({ lost }) => lost)).toEqual(['13', '12', '11', '10', '9', '8', '7', '6', '5', '4']);
  });

  it('looks up what an estimate charged: shared teardown is no time lost', async () => {
    // The ring carries the cover: 3.0 h; the gasket is charged 1.0 h of its 2.0.
    const estimates = [
      anEstimate([operationLine('a', 'gasket'), operationLine('b', 'ring')], { id: 'first', number: '17' }),
      anEstimate([operationLine('a', 'gasket', { decision: 'declined' })], { id: 'second' }),
      'no estimate',
    ];
    const clocked = readClockedHours(
      'operation,hours,estimate\ngasket,0.6,17\ngasket,0.5,17\nring,3.5,first\ngasket,2,second\ngasket,2,unknown\n',
      catalogue,
    );
    const looked = await chargedJobs(clocked.rows, estimates, catalogue, rates);
    if (!looked.ok) throw new Error();
    const { operations, bad } = timeFeedback(clocked.rows, catalogue, looked.charged);
    expect(operations[0]).toMatchObject({
      operation: 'gasket',
      jobs: 2,
      byBook: 1,
      charged: '3',
      clocked: '3.1',
      spread: { least: '1.1', most: '2' },
    });
    expect(operations[1]).toMatchObject({ operation: 'ring', jobs: 1, byBook: 0, charged: '3', clocked: '3.5', lost: '0.5' });
    expect(bad).toEqual([{ line: 5, reason: 'Estimate "second" does not charge for "Renew the gasket".' }]);
  });

  it('proposes from shared jobs what they would take alone, and leaves aside jobs that say nothing about the book', async () => {
    const estimates = Array.from({ length: 6 }, (_, i) =>
      anEstimate(
        [operationLine('a', 'gasket', i === 5 ? { extraHours: { hours: '4', reason: 'seized' } } : {}), operationLine('b', 'ring')],
        { id: `e${i}` },
      ),
    );
    const clocked: ClockedHours[] = estimates.map(({ id }, i) => ({
      line: i + 1,
      operation: 'gasket',
      hours: i === 5 ? '9' : '1.4',
      estimate: id,
    }));
    const looked = await chargedJobs(clocked, estimates, catalogue, rates);
    if (!looked.ok) throw new Error();
    // 1.4 clocked + 1.0 h of teardown that the ring pays for.
    expect(timeFeedback(clocked, catalogue, looked.charged).operations[0]!.proposed).toEqual({
      bookHours: '2.4',
      jobs: 5,
      heldBySteps: false,
    });
  });

  it('tells rows whose operation is gone', () => {
    expect(timeFeedback([{ line: 4, operation: 'gone', hours: '1', estimate: null }], catalogue)).toMatchObject({
      operations: [],
      bad: [{ line: 4 }],
    });
  });
});
