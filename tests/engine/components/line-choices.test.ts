import { describe, expect, test } from 'vitest';
import { findingChoices } from '../../../components/estimate/finding-choices.js';
import type { FindingColumn } from '../../../components/estimate/finding-columns.js';
import { lineChoices } from '../../../components/estimate/line-choices.js';
import { type LineColumn, readRow } from '../../../components/estimate/line-columns.js';
import { labourLine, operationLine } from '../../support/builders.js';
import { Desk } from './desk.js';

const desk = new Desk([operationLine('l1', 'hose-one'), labourLine('l2', '1'), operationLine('l3', 'belt')], {
  findings: [
    {
      id: 'f1',
      round: 1,
      component: 'hose',
      position: '',
      fault: 'seeps at the joint',
      seen: [{ how: 'dye trace', note: '', reading: '', photo: '' }],
      urgency: 'now',
      text: '',
    },
    { id: 'f2', round: 1, component: '', position: '', fault: '', seen: [], urgency: 'now', text: '' },
  ],
  discounts: [{ id: 'd1', title: 'First visit', percent: '10', amount: null, on: ['labour'], lines: [] }],
});

const lines = (row: string, column: LineColumn, typed = ''): string[] =>
  lineChoices(column, typed, readRow(row), desk.estimate, desk.reference).map(({ text }) => text);
const findings = (id: string | null, column: FindingColumn, typed = ''): string[] =>
  findingChoices(column, typed, desk.estimate.findings.find((finding) => finding.id === id) ?? null, desk.estimate, desk.reference).map(
    ({ text }) => text,
  );

describe('in the lines', () => {
  test('operations by words or by system, with their hours beside them', () => {
    expect(lines('lines:+', 'work', 'heater hose')).toEqual(['Replace a heater hose', 'Replace the heater hose set']);
    expect(lines('lines:l1', 'work', 'belt test')).toEqual(['Replace the drive belt']);
    const [hose] = lineChoices('work', 'pump', readRow('lines:+'), desk.estimate, desk.reference);
    expect(hose!.hint!.replace(/\s/g, ' ')).toBe('2.6 h, test');
  });

  test('no operations where the words are one’s own', () => {
    expect(lines('lines:l2', 'work', 'heater')).toEqual([]);
    expect(lines('discounts:d1', 'work', 'heater')).toEqual([]);
  });

  test('positions of what asks for the operation, without those that stand there; else all', () => {
    expect(lines('lines:l1', 'where')).toEqual(['feed', 'return']);
    expect(lines('lines:l1', 'where', 'feed, r')).toEqual(['feed, return']);
    expect(lines('lines:l1', 'where', 'feed, ')).toEqual(['feed, return']);
    expect(lines('lines:+', 'where')).toEqual(['feed', 'return']);
  });

  test('kinds, and for a part its conditions', () => {
    expect(lines('lines:+', 'kind', 're')).toEqual(['rebuilt part', 'reconditioned part']);
    expect(lines('lines:l1/part/tube', 'kind')).toEqual(['new part', 'used part', 'rebuilt part', 'reconditioned part']);
  });

  test('labour classes, taxes, decisions, and what a discount is on', () => {
    expect(lines('lines:l1', 'rate', 'elec')).toEqual(['Electrical work']);
    expect(lines('lines:l1', 'tax')).toEqual(['state', 'city', 'none']);
    // Nobody writes "state, none".
    expect(lines('lines:l1', 'tax', 'state, ')).toEqual(['state, city']);
    expect(lines('lines:l1', 'decision', 'de')).toEqual(['declined', 'deferred']);
    expect(lines('discounts:d1', 'where', 'labour, p')).toEqual(['labour, part']);
  });

  test('nothing for figures', () => {
    for (const column of ['book', 'shared', 'charged', 'qty', 'cost', 'unit', 'amount'] as const)
      expect(lines('lines:l1', column)).toEqual([]);
  });
});

describe('in the findings', () => {
  test('components alone, then each with its faults and positions', () => {
    expect(findings(null, 'component', 'heater hose')).toEqual([
      'Heater hose',
      'Heater hose · split',
      'Heater hose · feed · split',
      'Heater hose · return · split',
      'Heater hose · seeps at the joint',
      'Heater hose · feed · seeps at the joint',
      'Heater hose · return · seeps at the joint',
    ]);
  });

  test('what belongs to the component; all, where there is none yet', () => {
    expect(findings('f1', 'position')).toEqual(['feed', 'return']);
    expect(findings('f1', 'fault')).toEqual(['seeps at the joint', 'split']);
    expect(findings('f2', 'position')).toEqual([]);
    expect(findings('f2', 'fault', 'w')).toEqual(['weeps']);
  });

  test('ways of seeing: those of this estimate first, several with semicolons', () => {
    expect(findings('f2', 'seen')[0]).toBe('dye trace');
    expect(findings('f2', 'seen', 'dye trace; by h')).toEqual(['dye trace; by hand']);
    expect(new Set(findings('f2', 'seen')).size).toBe(findings('f2', 'seen').length);
  });

  test('the remedy and its alternatives come before all operations, and are told apart', () => {
    const choices = findingChoices('remedy', '', desk.estimate.findings[0]!, desk.estimate, desk.reference);
    expect(choices.slice(0, 3)).toEqual([
      { text: 'Replace a heater hose', hint: 'remedy' },
      { text: 'Replace the heater hose set', hint: 'instead' },
      { text: 'Replace a heater hose', hint: 'test' },
    ]);
    expect(findings('f1', 'remedy', 'drive belt')).toEqual(['Replace the drive belt']);
  });

  test('every choice for a component is read back as what it says', () => {
    for (const text of findings(null, 'component')) {
      const fresh = new Desk();
      expect(fresh.type('findings:+', 'component', text)).toEqual([]);
      const { component, position, fault } = fresh.estimate.findings[0]!;
      const title = fresh.model.catalogue.components.find(({ id }) => id === component)?.title;
      expect([title, position, fault].filter(Boolean).join(' · ')).toBe(text);
    }
  });
});
