import { describe, expect, it } from 'vitest';
import { parseEstimate } from '../../../src/index.js';
import { anEstimate, operationLine, partLine } from '../../support/builders.js';

const finding = (id: string) => ({ id, round: 1, component: '', position: '', fault: '', seen: [], urgency: 'soon', text: '' });
const discount = (id: string, lines: string[] = []) => ({ id, title: 't', percent: '5', amount: null, on: ['labour' as const], lines });

describe('what stands twice', () => {
  it('is told for lines, findings, discounts and rounds', () => {
    const round = { n: 1, method: '', clean: false, note: '' };
    const read = parseEstimate(
      anEstimate([partLine('x', '1', '1'), partLine('x', '1', '1')], {
        findings: [finding('x'), finding('x')],
        discounts: [discount('x'), discount('x')],
        rounds: [round, { ...round }],
      }),
    );
    expect(read.ok).toBe(false);
    expect(read.problems.map(({ code, path }) => `${code} ${path}`)).toEqual([
      'duplicate findings[1].id',
      'duplicate lines[1].id',
      'duplicate discounts[1].id',
      'duplicate rounds[1].n',
    ]);
  });

  it('is told for the positions and the parts of one line', () => {
    const line = operationLine('o', 'x', { positions: ['left', 'right', 'left'], parts: [{ part: 'p' }, { part: 'p' }] });
    expect(parseEstimate(anEstimate([line])).problems.map(({ path }) => path)).toEqual(['lines[0].positions[2]', 'lines[0].parts[1].part']);
  });

  it('two lines of one operation are no duplicate', () => {
    expect(parseEstimate(anEstimate([operationLine('a', 'x'), operationLine('b', 'x')])).ok).toBe(true);
  });
});

describe('a reference to what has been removed', () => {
  it('only warns, with the place', () => {
    const read = parseEstimate(
      anEstimate([operationLine('o', 'x', { findings: ['f', 'gone'] })], {
        findings: [finding('f')],
        discounts: [discount('d', ['o', 'gone'])],
      }),
    );
    expect(read.ok).toBe(true);
    expect(read.problems.map(({ severity, code, path }) => `${severity} ${code} ${path}`)).toEqual([
      'warning lost-reference lines[0].findings[1]',
      'warning lost-reference discounts[0].lines[1]',
    ]);
  });

  it('still lets the estimate open when there are thousands', () => {
    const lines = Array.from({ length: 3000 }, (_, i) => operationLine(`l${i}`, 'x', { findings: ['gone'] }));
    const read = parseEstimate(anEstimate(lines));
    expect(read.ok && read.value.lines.length).toBe(3000);
  });
});
