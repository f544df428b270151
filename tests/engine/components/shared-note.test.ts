import { expect, test } from 'vitest';
import { sharedNotes } from '../../../components/estimate/shared-note.js';
import { labourLine, operationLine } from '../../support/builders.js';
import { Desk } from './desk.js';

const notesOf = (desk: Desk): string[] => desk.view.priced.lines.map(sharedNotes(desk.view));

test('names the line that carries a shared step, and the lines that it carries it for', () => {
  const desk = new Desk([operationLine('l1', 'hose-one'), operationLine('l2', 'pump'), labourLine('l3', '1')]);
  expect(notesOf(desk)).toEqual([
    'Drain and refill: 0.6 h, carried by “Replace the water pump”',
    'Carries 0.6 h of “Drain and refill”, also for “Replace a heater hose”',
    '',
  ]);
});

test('a step that only one line needs is nothing to tell', () => {
  const desk = new Desk([operationLine('l1', 'hose-one'), operationLine('l2', 'pump', { decision: 'declined' })]);
  expect(notesOf(desk)).toEqual(['', '']);
});

test('a line that another includes says so', () => {
  const desk = new Desk([operationLine('l1', 'hose-one'), operationLine('l2', 'hose-set')]);
  expect(notesOf(desk)[0]).toBe('Done as part of “Replace the heater hose set”, which carries all of it');
});

test('the list of lines stays short however many they are', () => {
  const several = Array.from({ length: 6 }, (_, i) => operationLine(`l${i}`, 'hose-one'));
  const desk = new Desk([operationLine('p', 'pump'), ...several]);
  const hoses = Array<string>(3).fill('“Replace a heater hose”').join(', ');
  expect(notesOf(desk)[0]).toBe(`Carries 0.6 h of “Drain and refill”, also for ${hoses} and 3 more`);
});

test('figures are written as the card’s language does', () => {
  const desk = new Desk([operationLine('l1', 'hose-one'), operationLine('l2', 'pump')], {}, { locale: 'de' });
  expect(notesOf(desk)[0]).toContain('0,6 h');
});
