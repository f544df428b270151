/** Rules 2, 5 and 6 as far as a catalogue alone can break them. */
import { describe, expect, it } from 'vitest';
import { parseCatalogue } from '../../../src/index.js';
import { aCatalogue, anOperation, aPart, aStep } from '../../support/builders.js';
import type { CatalogueDoc } from '../../support/oracle-documents.js';

const told = (parts: Partial<CatalogueDoc>): string[] =>
  parseCatalogue(aCatalogue(parts)).problems.map(({ code, path }) => `${code} ${path}`);
const messages = (parts: Partial<CatalogueDoc>): string[] => parseCatalogue(aCatalogue(parts)).problems.map(({ message }) => message);

describe('references', () => {
  it('each that leads nowhere is told with its place, all at once', () => {
    expect(
      told({
        remedies: [{ component: 'gone', fault: 'f', operations: ['gone'], instead: [['o'], ['o', 'gone']] }],
        steps: [aStep('s', '0', { needs: ['gone'], parts: [{ part: 'gone', qty: '1' }], cautions: ['gone'] })],
        operations: [
          anOperation('o', '1', {
            steps: ['s', 'gone'],
            includes: ['gone'],
            parts: [{ part: 'gone', qty: '1' }],
            cautions: ['gone'],
          }),
        ],
        overlaps: [{ between: ['o', 'gone'], hours: '0' }],
      }),
    ).toEqual([
      'unknown-reference remedies[0].component',
      'unknown-reference remedies[0].operations[0]',
      'unknown-reference remedies[0].instead[1][1]',
      'unknown-reference steps[0].needs[0]',
      'unknown-reference steps[0].parts[0].part',
      'unknown-reference steps[0].cautions[0]',
      'unknown-reference operations[0].steps[1]',
      'unknown-reference operations[0].includes[0]',
      'unknown-reference operations[0].parts[0].part',
      'unknown-reference operations[0].cautions[0]',
      'unknown-reference overlaps[0].between[1]',
    ]);
  });

  it("a labour class and a fee are the rate card's business, not the catalogue's", () => {
    expect(told({ operations: [anOperation('o', '1', { labourClass: 'nowhere', fees: ['nowhere'] })] })).toEqual([]);
  });
});

describe('duplicates', () => {
  it('an id stands once in its list; the second is told', () => {
    expect(
      told({
        cautions: [
          { id: 'x', text: 't' },
          { id: 'x', text: 't' },
        ],
        components: [
          { id: 'x', title: 't', positions: [] },
          { id: 'x', title: 't', positions: [] },
        ],
        parts: [aPart('x', '1'), aPart('x', '1')],
        steps: [aStep('x', '0'), aStep('x', '0')],
        operations: [anOperation('x', '1'), anOperation('x', '1')],
      }),
    ).toEqual([
      'duplicate cautions[1].id',
      'duplicate components[1].id',
      'duplicate parts[1].id',
      'duplicate steps[1].id',
      'duplicate operations[1].id',
    ]);
  });

  it('the same id in different lists is none', () => {
    expect(told({ parts: [aPart('x', '1')], steps: [aStep('x', '0')], operations: [anOperation('x', '1')] })).toEqual([]);
  });

  it('a part stands once among the parts of a step or operation, a position once in its component', () => {
    const twice = [
      { part: 'p', qty: '1' },
      { part: 'p', qty: '2' },
    ];
    expect(
      told({
        components: [{ id: 'k', title: 't', positions: ['left', 'left'] }],
        parts: [aPart('p', '1')],
        steps: [aStep('s', '0', { parts: twice })],
        operations: [anOperation('o', '1', { parts: twice })],
      }),
    ).toEqual(['duplicate components[0].positions[1]', 'duplicate steps[0].parts[1].part', 'duplicate operations[0].parts[1].part']);
  });

  it('a pair is declared once, in whichever order', () => {
    const operations = [anOperation('a', '1'), anOperation('b', '1')];
    expect(
      told({
        operations,
        overlaps: [
          { between: ['a', 'b'], hours: '0.1' },
          { between: ['b', 'a'], hours: '0.2' },
        ],
      }),
    ).toEqual(['duplicate overlaps[1].between']);
  });

  it('an operation does not overlap with itself', () => {
    expect(told({ operations: [anOperation('a', '1')], overlaps: [{ between: ['a', 'a'], hours: '0.1' }] })).toEqual([
      'overlap-with-itself overlaps[0].between',
    ]);
  });
});

describe('rings', () => {
  it('steps that need each other are shown as a ring', () => {
    const parts = { steps: [aStep('a', '0', { needs: ['b'] }), aStep('b', '0', { needs: ['c'] }), aStep('c', '0', { needs: ['a'] })] };
    expect(told(parts)).toEqual(['cycle steps[0].needs']);
    expect(messages(parts)[0]).toContain('a → b → c → a');
  });

  it('so is a step that needs itself', () => {
    expect(messages({ steps: [aStep('a', '0', { needs: ['a'] })] })[0]).toContain('a → a');
  });

  it('so are operations that include each other, at the first of the ring', () => {
    const parts = {
      operations: [
        anOperation('x', '1', { includes: ['a'] }),
        anOperation('a', '1', { includes: ['b'] }),
        anOperation('b', '1', { includes: ['a'] }),
      ],
    };
    expect(told(parts)).toEqual(['cycle operations[1].includes']);
  });

  it('two ways to one step are no ring', () => {
    expect(
      told({
        steps: [
          aStep('a', '0', { needs: ['b', 'c'] }),
          aStep('b', '0', { needs: ['d'] }),
          aStep('c', '0', { needs: ['d'] }),
          aStep('d', '0'),
        ],
      }),
    ).toEqual([]);
  });
});

describe('steps for each position', () => {
  const wheel = aStep('wheel', '0.2', { per: 'position' });

  it('cannot be needed by a step for the vehicle', () => {
    expect(told({ steps: [wheel, aStep('tray', '0.1', { needs: ['wheel'] })] })).toEqual(['position-step steps[1].needs[0]']);
  });

  it('cannot be needed by an operation for the vehicle', () => {
    expect(told({ steps: [wheel], operations: [anOperation('o', '1', { steps: ['wheel'] })] })).toEqual([
      'position-step operations[0].steps[0]',
    ]);
  });

  it('may be needed by a position operation and a position step, which may need vehicle steps too', () => {
    expect(
      told({
        steps: [wheel, aStep('lift', '0.1'), aStep('hub', '0.3', { per: 'position', needs: ['wheel', 'lift'] })],
        operations: [anOperation('o', '1', { per: 'position', steps: ['hub', 'lift'] })],
      }),
    ).toEqual([]);
  });
});

describe('hours', () => {
  it('book hours cover all steps, also those needed through others, each once', () => {
    // a 0.5 + b 0.3 + c 0.2 = 1.0; c is needed twice and counts once.
    const steps = [aStep('a', '0.5', { needs: ['b', 'c'] }), aStep('b', '0.3', { needs: ['c'] }), aStep('c', '0.2')];
    expect(told({ steps, operations: [anOperation('o', '1.0', { steps: ['a'] })] })).toEqual([]);
    const below = { steps, operations: [anOperation('o', '0.99', { steps: ['a'] })] };
    expect(told(below)).toEqual(['book-below-steps operations[0].bookHours']);
    expect(messages(below)[0]).toBe('The book hours of "o" (0.99) are below the hours of its steps (1).');
  });

  it('an operation includes only what is not longer; an equal one it may', () => {
    const inner = anOperation('inner', '2.0');
    expect(told({ operations: [inner, anOperation('outer', '2.00', { includes: ['inner'] })] })).toEqual([]);
    expect(told({ operations: [inner, anOperation('outer', '1.9', { includes: ['inner'] })] })).toEqual([
      'includes-longer operations[1].includes[0]',
    ]);
  });

  it('are only asked once every reference leads somewhere', () => {
    expect(told({ steps: [aStep('s', '5')], operations: [anOperation('o', '1', { steps: ['s'], includes: ['gone'] })] })).toEqual([
      'unknown-reference operations[0].includes[0]',
    ]);
  });
});

it('every problem of references has a hint', () => {
  const read = parseCatalogue(
    aCatalogue({
      steps: [aStep('a', '0', { needs: ['a', 'gone'] }), aStep('a', '0')],
      operations: [anOperation('o', '1')],
      overlaps: [{ between: ['o', 'x'], hours: '1' }],
    }),
  );
  expect(read.problems.length).toBeGreaterThan(3);
  for (const problem of read.problems) expect(problem.hint).toMatch(/^[A-Z].*\.$/);
});
