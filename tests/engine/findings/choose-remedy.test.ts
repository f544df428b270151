/** Another remedy for a finding: its lines follow, what others need stays. */
import { describe, expect, it } from 'vitest';
import type { OperationLine } from '../../../src/documents/lines.js';
import { chooseRemedy } from '../../../src/findings/choose-remedy.js';
import { aCatalogue, anEstimate, aRateCard, labourLine, operationLine, readDocuments } from '../../support/builders.js';
import type { LineDoc } from '../../support/oracle-documents.js';

const finding = (id: string, position: string) => ({
  id,
  round: 1,
  component: 'hose',
  position,
  fault: 'leaks',
  seen: [],
  urgency: 'now',
  text: '',
});
const FINDINGS = [finding('f1', 'feed'), finding('f2', 'return'), finding('f3', 'feed'), finding('f4', '')];

function choose(id: string, operations: string[], lines: LineDoc[]): string[] {
  const { estimate } = readDocuments({ estimate: anEstimate(lines, { findings: FINDINGS }), catalogue: aCatalogue(), rates: aRateCard() });
  const chosen = chooseRemedy(
    estimate,
    estimate.findings.find((each) => each.id === id)!,
    operations,
  );
  return (chosen as OperationLine[]).map((line) =>
    line.kind === 'operation'
      ? `${line.id} ${line.operation} @${line.positions.join('+')} <${line.findings.join('+')}>`
      : (line as { id: string }).id,
  );
}

it('the line that answered it goes, another comes', () => {
  expect(choose('f1', ['set'], [operationLine('a', 'one', { positions: ['feed'], findings: ['f1'] })])).toEqual(['l1 set @feed <f1>']);
});

it('several operations make several lines', () => {
  expect(choose('f1', ['set', 'flush'], [operationLine('a', 'one', { positions: ['feed'], findings: ['f1'] })])).toEqual([
    'l1 set @feed <f1>',
    'l2 flush @feed <f1>',
  ]);
});

it('a line that another finding needs stays, without this position', () => {
  const lines = [operationLine('a', 'one', { positions: ['feed', 'return'], findings: ['f1', 'f2'] })];
  expect(choose('f1', ['set'], lines)).toEqual(['a one @return <f2>', 'l2 set @feed <f1>']);
});

it('and with this position, where the other finding is at the same', () => {
  const lines = [operationLine('a', 'one', { positions: ['feed'], findings: ['f1', 'f3'] })];
  expect(choose('f1', ['set'], lines)).toEqual(['a one @feed <f3>', 'l2 set @feed <f1>']);
});

it('an operation that stays among the chosen keeps its line', () => {
  const lines = [
    operationLine('a', 'one', { positions: ['feed'], findings: ['f1'] }),
    operationLine('b', 'flush', { positions: ['feed'], findings: ['f1'] }),
  ];
  expect(choose('f1', ['flush', 'set'], lines)).toEqual(['b flush @feed <f1>', 'l2 set @feed <f1>']);
});

it('joins an undecided line of the chosen operation', () => {
  const lines = [
    operationLine('a', 'one', { positions: ['feed'], findings: ['f1'] }),
    operationLine('b', 'set', { positions: ['return'], findings: ['f2'] }),
  ];
  expect(choose('f1', ['set'], lines)).toEqual(['b set @return+feed <f2+f1>']);
});

it('choosing what is chosen already changes nothing', () => {
  expect(choose('f1', ['one'], [operationLine('a', 'one', { positions: ['feed'], findings: ['f1'] })])).toEqual(['a one @feed <f1>']);
});

it('no operation at all: the finding is unanswered again', () => {
  expect(choose('f1', [], [operationLine('a', 'one', { positions: ['feed'], findings: ['f1'] })])).toEqual([]);
});

it('a finding without a position takes none away', () => {
  expect(choose('f4', ['set'], [operationLine('a', 'one', { positions: ['feed'], findings: ['f1', 'f4'] })])).toEqual([
    'a one @feed <f1>',
    'l2 set @ <f4>',
  ]);
});

describe('a line that somebody has worked on stays, without the finding', () => {
  it.each<[string, object]>([
    ['hours', { bookHours: '2' }],
    ['extra hours', { extraHours: { hours: '1', reason: '' } }],
    ['a part', { parts: [{ part: 'p' }] }],
    ['taxes', { taxes: [] }],
    ['a labour class', { labourClass: 'dear' }],
    ['a note', { note: 'asked for' }],
  ])('by %s', (_, edit) => {
    expect(choose('f1', ['set'], [operationLine('a', 'one', { findings: ['f1'], ...edit })])).toEqual(['a one @ <>', 'l2 set @feed <f1>']);
  });
});

describe('a line that was decided on stays as it is, with the finding and its position', () => {
  it.each(['approved', 'declined', 'deferred'] as const)('%s', (decision) => {
    const decided = operationLine('a', 'one', { positions: ['feed', 'return'], findings: ['f1', 'f2'], decision });
    expect(choose('f1', ['set'], [decided])).toEqual(['a one @feed+return <f1+f2>', 'l2 set @feed <f1>']);
    expect(choose('f1', ['one'], [decided])).toEqual(['a one @feed+return <f1+f2>']);
  });
});

it('lines of other findings and kinds are left alone', () => {
  const lines = [labourLine('x', '1'), operationLine('y', 'one', { positions: ['return'], findings: ['f2'] })];
  expect(choose('f1', ['set'], lines)).toEqual(['x', 'y one @return <f2>', 'l3 set @feed <f1>']);
});
