import { describe, expect, it } from 'vitest';
import { parseCatalogue } from '../../../src/index.js';

const smallest = { format: 'baysheet-catalogue', version: 1, id: 'c' };

describe('the smallest catalogue', () => {
  it('is its format, version and id; every list is empty', () => {
    expect(parseCatalogue(smallest)).toEqual({
      ok: true,
      problems: [],
      value: {
        ...smallest,
        title: '',
        note: '',
        cautions: [],
        components: [],
        remedies: [],
        parts: [],
        steps: [],
        operations: [],
        overlaps: [],
      },
    });
  });

  it('reads the same from JSON text', () => {
    expect(parseCatalogue(JSON.stringify(smallest))).toEqual(parseCatalogue(smallest));
  });
});

it('what may be left out has its plain meaning', () => {
  const read = parseCatalogue({
    ...smallest,
    components: [{ id: 'hose', title: 'Hose' }],
    remedies: [{ component: 'hose', fault: 'leaks', operations: ['op'] }],
    parts: [{ id: 'p', title: 'Part' }],
    steps: [{ id: 's', title: 'Step', hours: '0.5' }],
    operations: [{ id: 'op', title: 'Operation', labourClass: 'general', bookHours: '1', parts: [{ part: 'p' }] }],
  });
  expect(read.ok && read.value).toMatchObject({
    components: [{ positions: [] }],
    remedies: [{ instead: [] }],
    parts: [{ number: '', cost: '0', list: null, core: '0', condition: 'new' }],
    steps: [{ per: 'vehicle', needs: [], parts: [], cautions: [] }],
    operations: [
      {
        per: 'vehicle',
        additionalHours: '0',
        steps: [],
        includes: [],
        parts: [{ part: 'p', qty: '1', each: false }],
        fees: [],
        cautions: [],
        basis: '',
      },
    ],
  });
});

it('what may not be left out is asked for, all at once', () => {
  const read = parseCatalogue({
    ...smallest,
    cautions: [{ id: 'c' }],
    components: [{ id: 'k' }],
    remedies: [{ component: 'k' }],
    parts: [{ id: 'p' }],
    steps: [{ id: 's' }],
    operations: [{ id: 'o' }],
    overlaps: [{}],
  });
  expect(read.problems.map(({ code, path }) => `${code} ${path}`)).toEqual([
    'missing cautions[0].text',
    'missing components[0].title',
    'missing remedies[0].fault',
    'missing remedies[0].operations',
    'missing parts[0].title',
    'missing steps[0].title',
    'missing steps[0].hours',
    'missing operations[0].title',
    'missing operations[0].labourClass',
    'missing operations[0].bookHours',
    'missing overlaps[0].between',
    'missing overlaps[0].hours',
  ]);
});

it.each([
  ['a catalogue', {}, ''],
  ['a caution', { cautions: [{ id: 'c', text: 't', x: 1 }] }, 'cautions[0].'],
  ['a component', { components: [{ id: 'k', title: 't', x: 1 }] }, 'components[0].'],
  ['a remedy', { remedies: [{ component: 'k', fault: 'f', operations: ['o'], x: 1 }] }, 'remedies[0].'],
  ['a part', { parts: [{ id: 'p', title: 't', x: 1 }] }, 'parts[0].'],
  ['a step', { steps: [{ id: 's', title: 't', hours: '1', x: 1 }] }, 'steps[0].'],
  ['a part of a step', { steps: [{ id: 's', title: 't', hours: '1', parts: [{ part: 'p', x: 1 }] }] }, 'steps[0].parts[0].'],
  ['an operation', { operations: [{ id: 'o', title: 't', labourClass: 'g', bookHours: '1', x: 1 }] }, 'operations[0].'],
  ['an overlap', { overlaps: [{ between: ['a', 'b'], hours: '1', x: 1 }] }, 'overlaps[0].'],
])('%s takes no key that the format does not have', (_, change, path) => {
  const document = path === '' ? { ...smallest, x: 1 } : { ...smallest, ...change };
  expect(parseCatalogue(document).problems).toEqual([expect.objectContaining({ code: 'unknown-key', path: `${path}x` })]);
});
