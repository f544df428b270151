import { describe, expect, test } from 'vitest';
import { operationLine } from '../../support/builders.js';
import { Desk } from './desk.js';

const finding = (id: string, component: string, fault: string, more: object = {}) => ({
  id,
  round: 1,
  component,
  position: '',
  fault,
  seen: [],
  urgency: 'soon',
  text: '',
  ...more,
});

test('a row for each finding, and a spare one that asks for the next', () => {
  const desk = new Desk([operationLine('l1', 'hose-one', { findings: ['f1'], positions: ['feed'] })], {
    findings: [
      finding('f1', 'hose', 'split', {
        position: 'feed',
        urgency: 'unsafe',
        text: 'The hose leaks.',
        seen: [
          { how: 'dye trace', note: 'at the joint', reading: '38 kPa', photo: '' },
          { how: 'by hand', note: '', reading: '', photo: '' },
        ],
      }),
    ],
  });
  expect(desk.texts('findings:f1')).toEqual({
    component: 'Heater hose',
    position: 'feed',
    fault: 'split',
    seen: 'dye trace; by hand',
    urgency: 'unsafe',
    round: '1',
    remedy: 'Replace a heater hose',
    text: 'The hose leaks.',
  });
  const [row, spare] = desk.findings();
  expect(row).toMatchObject({ level: 'main', label: 'Finding: Heater hose, feed, split' });
  expect(spare).toMatchObject({ id: 'findings:+', level: 'spare', label: 'New finding' });
  expect(desk.texts('findings:+')).toEqual({ component: 'Next finding' });
  expect(desk.cell('findings:+', 'component').edit).toBe('');
  expect(desk.cell('findings:f1', 'seen').note).toBe('38 kPa; at the joint');
});

test('urgency is marked by weight, never by a colour alone', () => {
  const desk = new Desk([], {
    findings: [finding('f1', 'hose', 'split', { urgency: 'unsafe' }), finding('f2', 'hose', 'split', { urgency: 'now' })],
  });
  expect(desk.cell('findings:f1', 'urgency').marks).toEqual(['strong']);
  expect(desk.cell('findings:f2', 'urgency').marks).toBe(undefined);
});

test('an empty sheet says what to do', () => {
  expect(new Desk().texts('findings:+')).toEqual({ component: 'Type what was found' });
});

describe('what puts it right', () => {
  test.each([
    ['box', '', 'Unanswered: say which component, and what is wrong with it.'],
    ['', 'rattles', 'Unanswered: say which component, and what is wrong with it.'],
    ['box', 'hinge broken', 'Unanswered: the catalogue has no remedy for this. Choose an operation here, or add a line of your own.'],
    ['pump', 'weeps', 'Unanswered: no line puts this right yet. Press “Propose lines”, or choose an operation here.'],
  ])('unanswered: component "%s", fault "%s"', (component, fault, note) => {
    const desk = new Desk([], { findings: [finding('f1', component, fault)] });
    expect(desk.cell('findings:f1', 'remedy')).toMatchObject({ text: 'unanswered', edit: '', editor: 'choice', note });
  });

  test('the other ways are told, whichever was taken', () => {
    const desk = new Desk([operationLine('l1', 'hose-one', { findings: ['f1'] })], {
      findings: [finding('f1', 'hose', 'seeps at the joint')],
    });
    expect(desk.cell('findings:f1', 'remedy')).toMatchObject({
      text: 'Replace a heater hose (or …)',
      edit: 'Replace a heater hose',
      note: 'Instead: Replace the heater hose set. Open the list to choose.',
    });
    desk.type('findings:f1', 'remedy', 'Replace the heater hose set');
    expect(desk.cell('findings:f1', 'remedy')).toMatchObject({
      text: 'Replace the heater hose set (or …)',
      note: 'Instead: Replace a heater hose. Open the list to choose.',
    });
  });

  test('several operations are told together', () => {
    const desk = new Desk([operationLine('l1', 'pump', { findings: ['f1'] }), operationLine('l2', 'belt', { findings: ['f1'] })], {
      findings: [finding('f1', 'pump', 'weeps')],
    });
    expect(desk.cell('findings:f1', 'remedy').edit).toBe('Replace the water pump + Replace the drive belt');
  });
});

test('a component that the catalogue does not know stays as it was typed', () => {
  const desk = new Desk([], { findings: [finding('f1', 'Horn bracket', 'loose')] });
  expect(desk.texts('findings:f1')).toMatchObject({ component: 'Horn bracket', fault: 'loose', remedy: 'unanswered' });
});
