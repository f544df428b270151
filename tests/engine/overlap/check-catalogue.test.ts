import { describe, expect, it } from 'vitest';
import { checkCatalogue, parseCatalogue, type Problem } from '../../../src/index.js';
import { aCatalogue, anOperation, aStep } from '../../support/builders.js';
import type { CatalogueDoc } from '../../support/oracle-documents.js';

type Pair = [a: string, b: string, hours: string];
const declared = (...pairs: Pair[]): CatalogueDoc['overlaps'] => pairs.map(([a, b, hours]) => ({ between: [a, b], hours }));
const check = (parts: Partial<CatalogueDoc>): Problem[] => checkCatalogue(aCatalogue(parts));
const codes = (parts: Partial<CatalogueDoc>): string[] => check(parts).map(({ severity, code, path }) => `${severity} ${code} ${path}`);

describe('three operations whose overlaps cannot all be true: |A∩B| + |A∩C| − |A| ≤ |B∩C|', () => {
  const operations = [anOperation('a', '1.5'), anOperation('b', '2.0'), anOperation('c', '3.0')];

  it('that add up are fine: 1.0 + 0.9 − 1.5 = 0.4 fits into 0.4', () => {
    expect(codes({ operations, overlaps: declared(['a', 'b', '1.0'], ['a', 'c', '0.9'], ['b', 'c', '0.4']) })).toEqual([]);
  });

  it('that do not are told, with the hours that must be shared', () => {
    const problems = check({ operations, overlaps: declared(['a', 'b', '1.0'], ['a', 'c', '0.9'], ['b', 'c', '0.3']) });
    expect(problems.map(({ severity, code }) => [severity, code])).toEqual([['warning', 'overlaps-contradict']]);
    expect(problems[0]!.message).toBe(
      '"a" (1.5 h) shares 1 h with "b" and 0.9 h with "c": then these two must share at least 0.4 h, but they share 0.3 h.',
    );
    expect(problems[0]!.path).toMatch(/^overlaps\[[012]\]$/);
    expect(problems[0]!.hint).toContain('"b" and "c"');
  });

  it('a pair that is not declared shares nothing', () => {
    const problems = check({ operations, overlaps: declared(['a', 'b', '1.0'], ['a', 'c', '0.9']) });
    expect(problems.map(({ code }) => code)).toEqual(['overlaps-contradict']);
    expect(problems[0]!.message).toContain('but they share 0 h');
  });

  it('steps that both need count as shared', () => {
    const steps = [aStep('s', '0.4')];
    const withSteps = [operations[0]!, anOperation('b', '2.0', { steps: ['s'] }), anOperation('c', '3.0', { steps: ['s'] })];
    expect(codes({ steps, operations: withSteps, overlaps: declared(['a', 'b', '1.0'], ['a', 'c', '0.9']) })).toEqual([]);
  });

  it('also where one of the pairs comes from a step alone', () => {
    // a and c share a step of 0.9, a and b are declared to share 1.0: b and c must share 0.4.
    const steps = [aStep('s', '0.9')];
    const withSteps = [anOperation('a', '1.5', { steps: ['s'] }), anOperation('b', '2.0'), anOperation('c', '3.0', { steps: ['s'] })];
    expect(check({ steps, operations: withSteps, overlaps: declared(['a', 'b', '1.0']) }).map(({ code }) => code)).toEqual([
      'overlaps-contradict',
    ]);
  });

  it('once for all that need the same steps, whichever of the pair is named first', () => {
    const steps = [aStep('s', '0.9')];
    const alike = ['c', 'd', 'e'].map((id) => anOperation(id, '3.0', { steps: ['s'] }));
    const withSteps = [anOperation('a', '1.5', { steps: ['s'] }), anOperation('b', '2.0'), ...alike];
    for (const [x, y] of [
      ['a', 'b'],
      ['b', 'a'],
    ] as const) {
      const problems = check({ steps, operations: withSteps, overlaps: declared([x, y, '1.0']) });
      expect(problems.map(({ code }) => code)).toEqual(['overlaps-contradict']);
      expect(problems[0]!.message).toContain('0.9 h with "c"');
      expect(problems[0]!.message).toContain('So it is with 2 more that need the same steps as "c".');
    }
  });

  it('each of the three may be the one in the middle', () => {
    for (const [x, y, z] of [
      ['a', 'b', 'c'],
      ['b', 'c', 'a'],
      ['c', 'a', 'b'],
    ] as const) {
      const equal = ['a', 'b', 'c'].map((id) => anOperation(id, '1.0'));
      const problems = check({ operations: equal, overlaps: declared([x, y, '0.8'], [x, z, '0.8']) });
      expect(problems.map(({ message }) => message)).toEqual([expect.stringContaining(`"${x}" (1 h)`)]);
    }
  });

  it('three that share one and the same hour are consistent', () => {
    const equal = ['a', 'b', 'c'].map((id) => anOperation(id, '1.0'));
    expect(codes({ operations: equal, overlaps: declared(['a', 'b', '1.0'], ['b', 'c', '1.0'], ['a', 'c', '1.0']) })).toEqual([]);
  });

  it('all that there are, each once, at the first declared pair that belongs to it', () => {
    // Ids that run together: "a" + "bc" + "d" and "ab" + "c" + "d".
    const equal = ['a', 'bc', 'ab', 'c', 'd'].map((id) => anOperation(id, '1.0'));
    const overlaps = declared(
      ['a', 'bc', '0.8'],
      ['a', 'd', '0.8'],
      ['ab', 'c', '0.7'],
      ['ab', 'd', '0.7'],
      ['bc', 'd', '0.6'],
      ['c', 'd', '0.3'],
    );
    const problems = check({ operations: equal, overlaps });
    const told = problems.map(
      ({ code, path, message }) =>
        `${code} ${path} ${/^"(\w+)"/.exec(message)![1]} with ${[...message.matchAll(/with "(\w+)"/g)].map(([, id]) => id).join(' and ')}`,
    );
    // a (1 h) is in order: 0.8 + 0.8 − 1 is the 0.6 of bc and d. ab: 0.7 + 0.7 − 1 is more than the 0.3 of c and d.
    // d is in the middle of a and ab (0.5), a and c (0.1), ab and bc (0.3), which share nothing.
    expect(told.sort()).toEqual([
      'overlaps-contradict overlaps[1] d with a and ab',
      'overlaps-contradict overlaps[1] d with a and c',
      'overlaps-contradict overlaps[2] ab with c and d',
      'overlaps-contradict overlaps[3] d with ab and bc',
    ]);
  });

  it('a third that is declared with the second of a pair alone is looked at with that pair', () => {
    // z (1 h) shares a step of 0.6 with x and is declared to share 0.8 with y: x and y must share 0.4.
    const steps = [aStep('s', '0.6')];
    const three = [anOperation('x', '2.0', { steps: ['s'] }), anOperation('y', '2.0'), anOperation('z', '1.0', { steps: ['s'] })];
    const problems = check({ steps, operations: three, overlaps: declared(['x', 'y', '0.1'], ['y', 'z', '0.8']) });
    expect(problems.map(({ path, message }) => [path, message.slice(0, 9)])).toEqual([['overlaps[0]', '"z" (1 h)']]);
  });

  it('only the steps that two have in common count between them', () => {
    // a and c share s (0.3) and not t: 1.0 + 0.3 − 1.5 asks nothing of b and c.
    const steps = [aStep('s', '0.3'), aStep('t', '0.9'), aStep('u', '0.9')];
    const three = [anOperation('a', '1.5', { steps: ['s', 't'] }), anOperation('b', '2.0'), anOperation('c', '3.0', { steps: ['s', 'u'] })];
    expect(codes({ steps, operations: three, overlaps: declared(['a', 'b', '1.0']) })).toEqual([]);
  });

  it('"the same steps" does not ask in which order they are named, nor mistakes names that run together', () => {
    const steps = [aStep('ab', '0.5'), aStep('c', '0.4'), aStep('a', '0.5'), aStep('bc', '0.4')];
    const others = [
      anOperation('m', '3.0', { steps: ['ab', 'c'] }),
      anOperation('n', '3.0', { steps: ['c', 'ab'] }),
      anOperation('o', '3.0', { steps: ['a', 'bc'] }),
    ];
    const operations = [anOperation('x', '1.5', { steps: ['ab', 'c'] }), anOperation('y', '2.0'), ...others];
    const problems = check({ steps, operations, overlaps: declared(['x', 'y', '1.0']) });
    expect(problems.map(({ message }) => message)).toEqual([
      expect.stringContaining('So it is with 1 more that need the same steps as "m".'),
    ]);
  });

  it('what follows from steps alone is never told', () => {
    const steps = [aStep('s', '0.9'), aStep('t', '0.9')];
    const equal = [
      anOperation('a', '1.8', { steps: ['s', 't'] }),
      anOperation('b', '1.0', { steps: ['s'] }),
      anOperation('c', '1.0', { steps: ['t'] }),
    ];
    expect(codes({ steps, operations: equal })).toEqual([]);
  });
});

describe('a pair', () => {
  it('cannot share more than the shorter takes', () => {
    const operations = [anOperation('a', '1.5'), anOperation('b', '2.0')];
    expect(codes({ operations, overlaps: declared(['b', 'a', '1.5']) })).toEqual([]);
    const problems = check({ operations, overlaps: declared(['b', 'a', '1.6']) });
    expect(problems).toEqual([expect.objectContaining({ severity: 'warning', code: 'overlap-too-long', path: 'overlaps[0].hours' })]);
    expect(problems[0]!.message).toContain('"a" takes only 1.5 h');
  });

  it('that shares too much says so once, and nothing about operations that share nothing', () => {
    const operations = [anOperation('a', '1.5'), anOperation('b', '2.0'), anOperation('c', '3.0')];
    expect(codes({ operations, overlaps: declared(['a', 'b', '1.6']) })).toEqual(['warning overlap-too-long overlaps[0].hours']);
  });

  it('cannot share less than the steps that both need', () => {
    const steps = [aStep('s', '0.6', { needs: ['t'] }), aStep('t', '0.2'), aStep('u', '0.4')];
    const operations = [anOperation('a', '1.5', { steps: ['s', 'u'] }), anOperation('b', '2.0', { steps: ['s'] })];
    expect(codes({ steps, operations, overlaps: declared(['a', 'b', '0.8']) })).toEqual([]);
    expect(codes({ steps, operations, overlaps: declared(['a', 'b', '0.7']) })).toEqual(['warning overlap-below-steps overlaps[0].hours']);
  });
});

it('a component that no remedy names proposes nothing, and that is told', () => {
  const components = [
    { id: 'hose', title: 'Hose', positions: [] },
    { id: 'cap', title: 'Cap', positions: [] },
  ];
  const remedies = [{ component: 'hose', fault: 'leaks', operations: ['o'], instead: [] }];
  const problems = check({ components, remedies, operations: [anOperation('o', '1')] });
  expect(problems).toEqual([expect.objectContaining({ severity: 'warning', code: 'no-remedy', path: 'components[1]' })]);
  expect(problems[0]!.message).toContain('"Cap"');
});

it('whatever parseCatalogue finds is told too, and nothing more where the catalogue does not read', () => {
  const broken = { ...aCatalogue(), version: 3 };
  expect(checkCatalogue(broken)).toEqual(parseCatalogue(broken).problems);
  expect(checkCatalogue('{').map(({ code }) => code)).toEqual(['not-json']);
});

it('takes a catalogue as text, as a value, and as it was parsed', () => {
  const json = aCatalogue({ operations: [anOperation('a', '1'), anOperation('b', '2')], overlaps: declared(['a', 'b', '1.5']) });
  const parsed = parseCatalogue(json);
  const found = [checkCatalogue(json), checkCatalogue(JSON.stringify(json)), checkCatalogue(parsed.ok && parsed.value)];
  expect(found.map((problems) => problems.map(({ code }) => code))).toEqual(Array(3).fill(['overlap-too-long']));
});
