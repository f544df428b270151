import { describe, expect, test } from 'vitest';
import { operationLine } from '../../support/builders.js';
import { Desk } from './desk.js';

const SPARE = 'findings:+';
const operations = (desk: Desk) =>
  desk.estimate.lines.map((line) => (line.kind === 'operation' ? [line.operation, line.positions, line.findings] : [line.kind]));
const found = (desk: Desk) => desk.estimate.findings.map(({ component, position, fault }) => [component, position, fault]);

describe('one entry that says it all', () => {
  test('component, position and fault become a finding with its line', () => {
    const desk = new Desk();
    expect(desk.type(SPARE, 'component', 'Heater hose · feed · seeps at the joint')).toEqual([]);
    expect(found(desk)).toEqual([['hose', 'feed', 'seeps at the joint']]);
    expect(operations(desk)).toEqual([['hose-one', ['feed'], ['f1']]]);
    expect(desk.estimate.rounds.map(({ n }) => n)).toEqual([1]);
    // One gesture, one step.
    desk.store.undo();
    expect(desk.estimate).toMatchObject({ findings: [], lines: [], rounds: [] });
  });

  test('case and marks do not matter; a component alone waits for its fault', () => {
    const desk = new Desk();
    desk.type(SPARE, 'component', 'heater hose, SPLIT');
    desk.type(SPARE, 'component', 'water pump');
    desk.type(SPARE, 'component', 'Something rattles');
    expect(found(desk)).toEqual([
      ['hose', '', 'split'],
      ['pump', '', ''],
      ['Something rattles', '', ''],
    ]);
    expect(operations(desk)).toEqual([['hose-one', [], ['f1']]]);
    desk.type('findings:f2', 'fault', 'Weeps');
    expect(operations(desk)).toEqual([
      ['hose-one', [], ['f1']],
      ['pump', [], ['f2']],
    ]);
  });

  test('an empty entry in the spare row makes nothing', () => {
    const desk = new Desk();
    desk.type(SPARE, 'component', '  ');
    expect(desk.store.labels().undo).toBe(null);
  });

  test('two positions of one operation become one line', () => {
    const desk = new Desk();
    desk.type(SPARE, 'component', 'Heater hose · feed · split');
    desk.type(SPARE, 'component', 'Heater hose · return · seeps at the joint');
    expect(operations(desk)).toEqual([['hose-one', ['feed', 'return'], ['f1', 'f2']]]);
  });
});

test('a pasted block makes one finding for each row', () => {
  const desk = new Desk();
  const refused = desk.paste(
    'findings',
    { component: 'Heater hose', position: 'feed', fault: 'split', seen: 'dye trace; by hand', urgency: 'now', round: '2' },
    { component: 'Glove box', fault: 'hinge broken', urgency: 'later' },
    { component: '', fault: '' },
    { component: 'Water pump', fault: 'weeps' },
  );
  expect(refused).toEqual(['"later" is not an urgency. Write unsafe, now, soon or watch.']);
  expect(desk.estimate.findings).toMatchObject([
    {
      id: 'f1',
      component: 'hose',
      position: 'feed',
      fault: 'split',
      urgency: 'now',
      round: 2,
      seen: [{ how: 'dye trace' }, { how: 'by hand' }],
    },
    { id: 'f2', component: 'box', urgency: 'soon' },
    { id: 'f3', component: 'pump' },
  ]);
  expect(operations(desk)).toEqual([
    ['hose-one', ['feed'], ['f1']],
    ['pump', [], ['f3']],
  ]);
});

describe('another position', () => {
  const twoHoses = (decision: 'proposed' | 'approved' = 'proposed') => {
    const desk = new Desk();
    desk.type(SPARE, 'component', 'Heater hose · feed · split');
    desk.type(SPARE, 'component', 'Heater hose · feed · seeps at the joint');
    if (decision !== 'proposed') desk.type('lines:l1', 'decision', decision);
    return desk;
  };

  test('the line follows, and keeps the old one while another finding needs it', () => {
    const desk = twoHoses();
    desk.type('findings:f2', 'position', 'return');
    expect(operations(desk)).toEqual([['hose-one', ['feed', 'return'], ['f1', 'f2']]]);
    desk.type('findings:f1', 'position', 'return');
    expect(operations(desk)).toEqual([['hose-one', ['return'], ['f1', 'f2']]]);
  });

  test('a line that has been decided on stays as it was agreed', () => {
    const desk = twoHoses('approved');
    desk.type('findings:f2', 'position', 'return');
    expect(operations(desk)).toEqual([['hose-one', ['feed'], ['f1', 'f2']]]);
  });
});

describe('another fault', () => {
  test('with another remedy: the old line goes, the new one comes', () => {
    const desk = new Desk();
    desk.type(SPARE, 'component', 'Heater hose · feed · split');
    desk.type('findings:f1', 'component', 'Water pump · weeps');
    expect(operations(desk)).toEqual([['pump', ['feed'], ['f1']]]);
  });

  test('a line that somebody has worked on stays', () => {
    const desk = new Desk();
    desk.type(SPARE, 'component', 'Heater hose · feed · split');
    desk.type('lines:l1', 'book', '1.8');
    desk.type('findings:f1', 'component', 'Water pump · weeps');
    expect(desk.estimate.lines).toMatchObject([
      { operation: 'hose-one', bookHours: '1.8', findings: [] },
      { operation: 'pump', findings: ['f1'] },
    ]);
  });

  test('without a remedy: nothing is taken away', () => {
    const desk = new Desk();
    desk.type(SPARE, 'component', 'Heater hose · feed · split');
    desk.type('findings:f1', 'fault', 'looks odd');
    expect(desk.estimate.lines).toHaveLength(1);
  });
});

describe('the remedy', () => {
  test('an alternative of the catalogue, any other operation by title or id', () => {
    const desk = new Desk();
    desk.type(SPARE, 'component', 'Heater hose · seeps at the joint');
    desk.type('findings:f1', 'remedy', 'replace the heater hose set');
    expect(operations(desk)).toEqual([['hose-set', [], ['f1']]]);
    desk.type('findings:f1', 'remedy', 'pump');
    expect(operations(desk)).toEqual([['pump', [], ['f1']]]);
  });

  test('several operations together', () => {
    const desk = new Desk();
    desk.type(SPARE, 'component', 'Water pump · weeps');
    desk.type('findings:f1', 'remedy', 'Replace the water pump + Replace the drive belt');
    expect(operations(desk)).toEqual([
      ['pump', [], ['f1']],
      ['belt', [], ['f1']],
    ]);
  });

  test('an unknown one is refused and stays in its cell; an empty entry changes nothing', () => {
    const desk = new Desk([operationLine('l1', 'pump', { findings: ['f1'] })], {
      findings: [{ id: 'f1', round: 1, component: 'pump', position: '', fault: 'weeps', seen: [], urgency: 'soon', text: '' }],
    });
    const before = desk.estimate;
    expect(desk.type('findings:f1', 'remedy', 'Sing to it')).toEqual([
      'The catalogue has no operation called "Sing to it". Choose one from the list.',
    ]);
    expect(desk.cell('findings:f1', 'remedy')).toMatchObject({ text: 'Sing to it', invalid: expect.stringContaining('Sing to it') });
    expect(desk.type('findings:f1', 'remedy', '')).toEqual([]);
    expect(desk.estimate).toEqual(before);
    expect(desk.cell('findings:f1', 'remedy').invalid).toBe(undefined);
  });
});

describe('how it was seen', () => {
  test('what is known of one way stays with it', () => {
    const seen = [{ how: 'dye trace', note: 'left', reading: '38 kPa', photo: 'p1' }];
    const desk = new Desk([], {
      findings: [{ id: 'f1', round: 1, component: 'box', position: '', fault: '', seen, urgency: 'soon', text: '' }],
    });
    desk.type('findings:f1', 'seen', ' by hand;; dye trace ; ');
    expect(desk.estimate.findings[0]!.seen).toEqual([{ how: 'by hand', note: '', reading: '', photo: '' }, seen[0]]);
    desk.type('findings:f1', 'seen', '');
    expect(desk.estimate.findings[0]!.seen).toEqual([]);
  });

  test('two photos of one name stay two, and one without a name stays', () => {
    const seen = [
      { how: 'photo', note: '', reading: '', photo: 'p1' },
      { how: 'photo', note: '', reading: '', photo: 'p2' },
      { how: '', note: '', reading: '', photo: 'p3' },
    ];
    const desk = new Desk([], {
      findings: [{ id: 'f1', round: 1, component: 'box', position: '', fault: '', seen, urgency: 'soon', text: '' }],
    });
    expect(desk.texts('findings:f1')['seen']).toBe('photo; photo');
    desk.type('findings:f1', 'seen', 'photo; photo; by eye');
    expect(desk.estimate.findings[0]!.seen.map(({ how, photo }) => [how, photo])).toEqual([
      ['photo', 'p1'],
      ['photo', 'p2'],
      ['by eye', ''],
      ['', 'p3'],
    ]);
  });
});

describe('test rounds', () => {
  const rounds = [{ n: 1, method: 'pressure test', clean: false, note: '' }];

  test('a new number makes the round, by the method of the last one, in order', () => {
    const desk = new Desk([], { rounds });
    desk.type(SPARE, 'component', 'Water pump · weeps');
    desk.type('findings:f1', 'round', '3');
    desk.type('findings:f1', 'round', '2');
    expect(desk.estimate.findings[0]!.round).toBe(2);
    expect(desk.estimate.rounds).toMatchObject([
      { n: 1 },
      { n: 2, method: 'pressure test', clean: false },
      { n: 3, method: 'pressure test' },
    ]);
  });

  test.each(['0', '-1', '1.5', 'two', '', '12345'])('"%s" is no round', (text) => {
    const desk = new Desk([], { rounds });
    desk.type(SPARE, 'component', 'Water pump · weeps');
    expect(desk.type('findings:f1', 'round', text)).toEqual([`"${text}" is not a test round. Write its number: 1, 2, 3 …`]);
    expect(desk.estimate.rounds).toEqual(rounds);
  });
});

test('urgency by its first letters; an empty one is refused, since something must stand there', () => {
  const desk = new Desk();
  desk.type(SPARE, 'component', 'Water pump · weeps');
  for (const [text, urgency] of [
    ['u', 'unsafe'],
    ['NOW', 'now'],
    ['so', 'soon'],
    ['watch', 'watch'],
  ]) {
    expect(desk.type('findings:f1', 'urgency', text!)).toEqual([]);
    expect(desk.estimate.findings[0]!.urgency).toBe(urgency);
  }
  expect(desk.type('findings:f1', 'urgency', '')).toHaveLength(1);
  expect(desk.estimate.findings[0]!.urgency).toBe('watch');
});
