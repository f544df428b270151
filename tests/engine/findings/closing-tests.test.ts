/** A test that proves the repair: proposed once for each method that was used, when there is work to prove. */
import { describe, expect, it } from 'vitest';
import { closingTests, withoutClosing } from '../../../src/findings/closing-tests.js';
import { checkCatalogue, parseCatalogue, proposeLines } from '../../../src/index.js';
import type { OperationLine } from '../../../src/documents/lines.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, operationLine, readDocuments } from '../../support/builders.js';

const METHODS = [
  { id: 'pressure', title: 'Pressure test', unit: 'kPa', start: '100', minutes: '15', drop: '2', closing: 'retest' },
  { id: 'smoke', title: 'Smoke test', closing: 'smoke-again' },
  { id: 'eye', title: 'By eye' },
];
const CATALOGUE = aCatalogue({
  components: [{ id: 'hose', title: 'Hose', positions: [] }],
  operations: ['hose', 'retest', 'smoke-again'].map((id) => anOperation(id, '1')),
  remedies: [{ component: 'hose', fault: 'leaks', operations: ['hose'], instead: [] }],
});
const finding = (id: string, round: number) => ({
  id,
  round,
  component: 'hose',
  position: '',
  fault: 'leaks',
  seen: [],
  urgency: 'now',
  text: '',
});

function documents(rounds: object[], findings: object[], lines: object[] = [], methods: object[] | null = METHODS) {
  const catalogue = methods === null ? CATALOGUE : { ...CATALOGUE, methods };
  return readDocuments({ estimate: anEstimate(lines as never, { rounds, findings } as never), catalogue, rates: aRateCard() });
}
const proposed = (rounds: object[], findings: object[], lines: object[] = [], methods: object[] | null = METHODS, only?: string[]) => {
  const { estimate, catalogue } = documents(rounds, findings, lines, methods);
  return proposeLines(estimate, catalogue, only).lines.map((line) => (line as OperationLine).operation);
};
const PRESSURE = { n: 1, methodId: 'pressure' };

describe('a closing test', () => {
  it('comes after the work, once for a method however many rounds used it', () => {
    expect(proposed([PRESSURE, { n: 2, methodId: 'pressure' }, { n: 3, methodId: 'pressure', clean: true }], [finding('a', 1)])).toEqual([
      'hose',
      'retest',
    ]);
  });

  it('one for each method that found work', () => {
    expect(proposed([PRESSURE, { n: 2, methodId: 'smoke' }], [finding('a', 1), finding('b', 2)])).toEqual([
      'hose',
      'retest',
      'smoke-again',
    ]);
    expect(proposed([PRESSURE, { n: 2, methodId: 'smoke' }], [finding('a', 1)])).toEqual(['hose', 'retest']);
  });

  it('none without a method, without one in the catalogue, or without work', () => {
    expect(proposed([{ n: 1, method: 'pressure test' }], [finding('a', 1)])).toEqual(['hose']);
    expect(proposed([PRESSURE], [finding('a', 1)], [], null)).toEqual(['hose']);
    expect(proposed([{ n: 1, methodId: 'eye' }], [finding('a', 1)])).toEqual(['hose']);
    expect(proposed([PRESSURE], [])).toEqual([]);
    expect(proposed([PRESSURE], [{ ...finding('a', 1), fault: 'unheard of' }])).toEqual([]);
    expect(proposed([PRESSURE], [finding('a', 1)], [operationLine('l1', 'hose', { findings: ['a'], decision: 'declined' })])).toEqual([
      'hose',
    ]);
  });

  it('is not proposed beside a line that does it, whatever was edited in that', () => {
    const lines = [operationLine('l1', 'retest', { bookHours: '2', decision: 'declined' })];
    expect(proposed([PRESSURE], [finding('a', 1)], lines)).toEqual(['retest', 'hose']);
  });

  it('joins when lines are proposed for one finding, and not when for none', () => {
    expect(proposed([PRESSURE], [finding('a', 1)], [], METHODS, ['a'])).toEqual(['hose', 'retest']);
    expect(proposed([PRESSURE], [finding('a', 1)], [operationLine('l1', 'hose', { findings: ['a'] })], METHODS, [])).toEqual(['hose']);
  });

  it('that a person took out is not proposed again', () => {
    const lines = [operationLine('l1', 'hose', { findings: ['a'] }), operationLine('l2', 'retest')];
    const { estimate, catalogue } = documents([PRESSURE, { n: 2 }], [finding('a', 1)], lines);
    const rounds = withoutClosing(estimate, new Set(['l2']), catalogue);
    expect(rounds.map((round) => round.closing)).toEqual([false, undefined]);
    const after = { ...estimate, rounds, lines: estimate.lines.slice(0, 1) };
    expect(proposeLines(after, catalogue).lines).toEqual(after.lines);
    expect(closingTests(after, after.lines, catalogue)).toMatchObject([{ operation: 'retest', line: null, needed: true, unwanted: true }]);
  });

  it('taking out other lines, or one of two that do it, is remembered of no method', () => {
    const lines = [operationLine('l1', 'hose', { findings: ['a'] }), operationLine('l2', 'retest'), operationLine('l3', 'retest')];
    const { estimate, catalogue } = documents([PRESSURE], [finding('a', 1)], lines);
    expect(withoutClosing(estimate, new Set(['l1', 'l2']), catalogue)).toBe(estimate.rounds);
    expect(withoutClosing(estimate, new Set(['l2', 'l3']), catalogue)[0]!.closing).toBe(false);
  });
});

describe('methods of a catalogue', () => {
  const problems = (...methods: object[]) => {
    const read = parseCatalogue({ ...CATALOGUE, methods });
    return read.problems.map(({ code, path }) => `${code} ${path}`);
  };

  it('may be left out, and are read with what they say', () => {
    const read = parseCatalogue(CATALOGUE);
    expect(read.ok && 'methods' in read.value).toBe(false);
    expect(problems(...METHODS)).toEqual([]);
    expect(checkCatalogue({ ...CATALOGUE, methods: METHODS })).toEqual([]);
  });

  it.each([
    [{ closing: 'gone' }, 'unknown-reference methods[0].closing'],
    [{ cautions: ['gone'] }, 'unknown-reference methods[0].cautions[0]'],
    [{ unit: 'kPa', start: '100' }, 'method-limits methods[0].drop'],
    [{ start: '100', minutes: '15', drop: '2' }, 'method-limits methods[0].unit'],
    [{ unit: 'kPa', start: '1', minutes: '15', drop: '2' }, 'method-limits methods[0].drop'],
    [{ unit: 'V', least: '15', most: '14' }, 'method-limits methods[0].least'],
    [{ unit: 'V', start: '100', minutes: '15', drop: '2', most: '14' }, 'method-limits methods[0].drop'],
    [{ start: 100 }, 'number methods[0].start'],
    [{ hold: '1' }, 'unknown-key methods[0].hold'],
  ])('%j', (more, problem) => expect(problems({ id: 'm', title: 'A test', ...more })).toContain(problem));

  it('have ids of their own', () => {
    expect(problems({ id: 'm', title: 'A' }, { id: 'm', title: 'B' })).toEqual(['duplicate methods[1].id']);
  });
});
