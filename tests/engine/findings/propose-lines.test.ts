/** From findings to lines: nothing is chosen silently, nothing made by hand is lost. */
import { describe, expect, it } from 'vitest';
import { parseEstimate, proposeLines } from '../../../src/index.js';
import type { Estimate, Finding } from '../../../src/documents/estimate.js';
import type { OperationLine } from '../../../src/documents/lines.js';
import { answer, answeredFindings, remedyFor } from '../../../src/findings/propose-lines.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, labourLine, operationLine, readDocuments } from '../../support/builders.js';
import type { EstimateDoc, LineDoc } from '../../support/oracle-documents.js';

type FindingDoc = EstimateDoc['findings'][number];
const finding = (id: string, component: string, position: string, fault: string): FindingDoc => ({
  id,
  round: 1,
  component,
  position,
  fault,
  seen: [],
  urgency: 'now',
  text: '',
});

const CATALOGUE = aCatalogue({
  components: [
    { id: 'hose', title: 'Hose', positions: ['feed', 'return'] },
    { id: 'pump', title: 'Pump', positions: [] },
    { id: 'cap', title: 'Cap', positions: [] },
  ],
  operations: ['hose-one', 'hose-set', 'pump', 'flush', 'belt'].map((id) => anOperation(id, '1')),
  remedies: [
    { component: 'hose', fault: 'leaks', operations: ['hose-one'], instead: [['hose-set'], ['hose-set', 'flush']] },
    { component: 'hose', fault: 'swollen', operations: ['hose-one'], instead: [] },
    { component: 'pump', fault: 'weeps', operations: ['pump', 'flush'], instead: [] },
  ],
});

function documents(findings: FindingDoc[], lines: LineDoc[] = []) {
  return readDocuments({ estimate: anEstimate(lines, { findings }), catalogue: CATALOGUE, rates: aRateCard() });
}
function propose(findings: FindingDoc[], lines: LineDoc[] = [], only?: string[]) {
  const { estimate, catalogue } = documents(findings, lines);
  return { before: estimate, ...proposeLines(estimate, catalogue, only) };
}
/** `id operation @positions <findings>` */
const shown = (lines: readonly unknown[]): string[] =>
  (lines as OperationLine[]).map((line) =>
    line.kind === 'operation'
      ? `${line.id} ${line.operation} @${line.positions.join('+')} <${line.findings.join('+')}>`
      : `${(line as { id: string }).id}`,
  );

describe('lines for findings', () => {
  it('one line for each operation of the remedy', () => {
    expect(shown(propose([finding('f1', 'pump', '', 'weeps')]).lines)).toEqual(['l1 pump @ <f1>', 'l2 flush @ <f1>']);
  });

  it('two findings of one operation become one line with two positions', () => {
    expect(shown(propose([finding('f1', 'hose', 'feed', 'leaks'), finding('f2', 'hose', 'return', 'swollen')]).lines)).toEqual([
      'l1 hose-one @feed+return <f1+f2>',
    ]);
  });

  it('two findings at one position name it once', () => {
    expect(shown(propose([finding('f1', 'hose', 'feed', 'leaks'), finding('f2', 'hose', 'feed', 'swollen')]).lines)).toEqual([
      'l1 hose-one @feed <f1+f2>',
    ]);
  });

  it('a finding without a position adds none', () => {
    expect(shown(propose([finding('f1', 'hose', '', 'leaks')]).lines)).toEqual(['l1 hose-one @ <f1>']);
  });

  // A line's positions must be words, a finding's need not.
  it.each([' ', '\t\n', '\ufeff'])('nor does one whose position is nothing but space: %j', (space) => {
    const { lines } = propose([finding('f1', 'hose', space, 'leaks')]);
    expect(shown(lines)).toEqual(['l1 hose-one @ <f1>']);
    expect(parseEstimate({ ...anEstimate([]), lines })).toMatchObject({ ok: true });
  });

  it('a component or a fault that is nothing but space is none yet', () => {
    const { unanswered } = propose([finding('f1', ' ', '', 'leaks'), finding('f2', 'hose', '', '\t')]);
    expect(unanswered.map(({ reason }) => reason)).toEqual(['incomplete', 'incomplete']);
  });

  it('new lines are undecided and say nothing of their own', () => {
    expect(propose([finding('f1', 'hose', 'feed', 'leaks')]).lines[0]).toEqual({
      id: 'l1',
      kind: 'operation',
      operation: 'hose-one',
      positions: ['feed'],
      findings: ['f1'],
      labourClass: null,
      bookHours: null,
      extraHours: null,
      parts: [],
      taxes: null,
      decision: 'proposed',
      note: '',
    });
  });

  it('capitals and space at the ends of a fault do not matter', () => {
    expect(shown(propose([finding('f1', 'hose', 'feed', '  LEAKS ')]).lines)).toEqual(['l1 hose-one @feed <f1>']);
  });

  it('proposing again changes nothing', () => {
    const findings = [finding('f1', 'hose', 'feed', 'leaks'), finding('f2', 'pump', '', 'weeps')];
    const once = propose(findings).lines as unknown as LineDoc[];
    expect(propose(findings, once).lines).toEqual(once);
  });
});

describe('what was made or edited by hand', () => {
  const f2 = finding('f2', 'hose', 'return', 'swollen');

  it('stays as it is beside new lines, which come after', () => {
    const lines = [labourLine('a', '1'), operationLine('b', 'belt', { positions: ['x'] })];
    const { lines: after, before } = propose([finding('f1', 'pump', '', 'weeps')], lines);
    expect(after.slice(0, 2)).toEqual(before.lines);
    expect(shown(after).slice(2)).toEqual(['l3 pump @ <f1>', 'l4 flush @ <f1>']);
  });

  it('keeps its edits when another finding joins', () => {
    const edited = operationLine('a', 'hose-one', {
      positions: ['feed'],
      findings: ['f1'],
      bookHours: '9',
      extraHours: { hours: '1', reason: 'seized' },
      parts: [{ part: 'p', qty: '3' }],
      taxes: [],
      labourClass: 'dear',
    });
    const { lines, before } = propose([finding('f1', 'hose', 'feed', 'leaks'), f2], [edited]);
    expect(lines).toEqual([{ ...before.lines[0], positions: ['feed', 'return'], findings: ['f1', 'f2'] }]);
  });

  it('a finding that a line answers already, whatever operation that is, gets no other line', () => {
    expect(shown(propose([finding('f1', 'hose', 'feed', 'leaks')], [operationLine('a', 'belt', { findings: ['f1'] })]).lines)).toEqual([
      'a belt @ <f1>',
    ]);
  });

  it('the lines that were there are not changed in place', () => {
    const { estimate, catalogue } = documents(
      [finding('f1', 'hose', 'feed', 'leaks'), f2],
      [operationLine('a', 'hose-one', { positions: ['feed'], findings: ['f1'] })],
    );
    const copy = structuredClone(estimate);
    proposeLines(estimate, catalogue);
    expect(estimate).toEqual(copy);
  });
});

describe('lines that were decided on', () => {
  it.each(['approved', 'declined', 'deferred'] as const)('%s: left alone; what is found anew gets a line of its own', (decision) => {
    const decided = operationLine('a', 'hose-one', { positions: ['feed'], findings: ['f1'], decision });
    const { lines, before } = propose([finding('f1', 'hose', 'feed', 'leaks'), finding('f2', 'hose', 'return', 'swollen')], [decided]);
    expect(lines[0]).toEqual(before.lines[0]);
    expect(shown(lines).slice(1)).toEqual(['l2 hose-one @return <f2>']);
  });

  it('a declined line still answers its finding', () => {
    const { lines, unanswered } = propose(
      [finding('f1', 'hose', 'feed', 'leaks')],
      [operationLine('a', 'hose-one', { findings: ['f1'], decision: 'declined' })],
    );
    expect([lines.length, unanswered]).toEqual([1, []]);
  });
});

describe('alternatives', () => {
  it('are told, the first remedy proposed', () => {
    expect(propose([finding('f1', 'hose', 'feed', 'leaks')]).alternatives).toEqual([
      { finding: 'f1', operations: ['hose-one'], instead: [['hose-set'], ['hose-set', 'flush']] },
    ]);
  });

  it('are told of answered findings too', () => {
    expect(
      propose([finding('f1', 'hose', 'feed', 'leaks')], [operationLine('a', 'hose-set', { findings: ['f1'] })]).alternatives.length,
    ).toBe(1);
  });

  it('are none where the remedy has none', () => expect(propose([finding('f1', 'hose', 'feed', 'swollen')]).alternatives).toEqual([]));
});

describe('unanswered', () => {
  it('stays what has no remedy, or is not complete', () => {
    const findings = [
      finding('f1', 'hose', 'feed', 'squeaks'),
      finding('f2', 'cap', '', 'leaks'),
      finding('f3', 'gone', '', 'leaks'),
      finding('f4', '', '', 'leaks'),
      finding('f5', 'hose', '', ''),
    ];
    expect(propose(findings)).toMatchObject({
      lines: [],
      unanswered: [
        { finding: 'f1', reason: 'no-remedy' },
        { finding: 'f2', reason: 'no-remedy' },
        { finding: 'f3', reason: 'no-remedy' },
        { finding: 'f4', reason: 'incomplete' },
        { finding: 'f5', reason: 'incomplete' },
      ],
    });
  });

  it('not what a line by hand answers', () => {
    expect(propose([finding('f1', 'hose', 'feed', 'squeaks')], [operationLine('a', 'belt', { findings: ['f1'] })]).unanswered).toEqual([]);
  });
});

describe('only some findings', () => {
  const findings = [finding('f1', 'hose', 'feed', 'leaks'), finding('f2', 'pump', '', 'weeps'), finding('f3', 'hose', 'return', 'leaks')];

  it('get lines; the others wait', () => {
    const { lines, unanswered, alternatives } = propose(findings, [], ['f2', 'gone']);
    expect(shown(lines)).toEqual(['l1 pump @ <f2>', 'l2 flush @ <f2>']);
    expect(unanswered).toEqual([
      { finding: 'f1', reason: 'not-proposed' },
      { finding: 'f3', reason: 'not-proposed' },
    ]);
    expect(alternatives.map((each) => each.finding)).toEqual(['f1', 'f3']);
  });

  it('of none get nothing', () => expect(propose(findings, [], []).lines).toEqual([]));
});

describe('documents that cannot be used', () => {
  it('are told by name, and the lines that there are come back', () => {
    const { estimate } = documents([], [labourLine('a', '1')]);
    const proposal = proposeLines(estimate, { format: 'x' } as never);
    expect(proposal.lines).toEqual(estimate.lines);
    expect(proposal.problems.some(({ path }) => path === 'catalogue.format')).toBe(true);
  });

  it('an estimate that is none gives no lines', () => {
    expect(proposeLines(null as never, CATALOGUE as never)).toMatchObject({ lines: [], problems: [{ path: 'estimate' }] });
  });
});

describe('the pieces', () => {
  const { estimate, catalogue } = documents([finding('f1', 'hose', 'feed', 'leaks')], [operationLine('a', 'belt', { findings: ['f9'] })]);
  const first = (made: Estimate): Finding => made.findings[0]!;

  it('the remedy is that of component and fault together', () => {
    expect(remedyFor(first(estimate), catalogue)!.operations).toEqual(['hose-one']);
    expect(remedyFor({ ...first(estimate), component: 'pump' }, catalogue)).toBeNull();
  });

  it('answered is what an operation line names', () => expect([...answeredFindings(estimate.lines)]).toEqual(['f9']));

  it('an answer joins the first undecided line of that operation', () => {
    const lines = documents(
      [],
      [operationLine('a', 'hose-one', { decision: 'approved' }), operationLine('b', 'hose-one'), operationLine('c', 'hose-one')],
    ).estimate.lines;
    expect(shown(answer(first(estimate), ['hose-one'], lines))).toEqual(['a hose-one @ <>', 'b hose-one @feed <f1>', 'c hose-one @ <>']);
  });
});
