/** Rule 4: every piece of teardown is charged once, to the line that carries it. */
import { describe, expect, it } from 'vitest';
import type { PricedEstimate } from '../../../src/index.js';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, aStep, operationLine, priceDocuments } from '../../support/builders.js';
import type { CatalogueDoc, LineDoc, RatesDoc } from '../../support/oracle-documents.js';

function priced(catalogue: Partial<CatalogueDoc>, lines: LineDoc[], rates: Partial<RatesDoc> = {}): PricedEstimate {
  const result = priceDocuments({ estimate: anEstimate(lines), catalogue: aCatalogue(catalogue), rates: aRateCard(rates) });
  assertAddsUp(result);
  return result;
}
const charged = ({ lines }: PricedEstimate): Record<string, string> =>
  Object.fromEntries(lines.map((line) => [line.id, line.chargedHours]));
const carries = ({ lines }: PricedEstimate): Record<string, readonly string[]> =>
  Object.fromEntries(lines.map((line) => [line.id, line.carries]));

const CLASSES = {
  labourClasses: [
    { id: 'general', title: '', rate: '100.00' },
    { id: 'dear', title: '', rate: '160.00' },
  ],
};
const plenum = [aStep('plenum', '1.2')];

describe('who carries', () => {
  const catalogue = {
    steps: plenum,
    operations: [
      anOperation('long', '2.6', { steps: ['plenum'] }),
      anOperation('short', '2.0', { steps: ['plenum'] }),
      anOperation('same', '2.6', { steps: ['plenum'] }),
      anOperation('dear', '1.5', { steps: ['plenum'], labourClass: 'dear' }),
    ],
  };

  it('the longest book hours', () => {
    const both = priced(catalogue, [operationLine('s', 'short'), operationLine('l', 'long')]);
    expect(charged(both)).toEqual({ s: '0.8', l: '2.6' });
    expect(both.lines[0]!.uses).toEqual([{ step: 'plenum', position: null, carriedBy: 'l' }]);
    expect(carries(both)).toEqual({ s: [], l: ['plenum'] });
  });

  it('the highest labour rate before that: the work is never charged below what it costs', () => {
    const all = priced(catalogue, [operationLine('s', 'short'), operationLine('l', 'long'), operationLine('d', 'dear')], CLASSES);
    expect(charged(all)).toEqual({ s: '0.8', l: '1.4', d: '1.5' });
    // 0.8 × 100 + 1.4 × 100 + 1.5 × 160
    expect(all.totals.labour).toBe('460.00');
  });

  it('the first in the sheet of two that are equal', () => {
    expect(carries(priced(catalogue, [operationLine('b', 'same'), operationLine('a', 'long')]))).toEqual({ b: ['plenum'], a: [] });
    expect(carries(priced(catalogue, [operationLine('a', 'long'), operationLine('b', 'same')]))).toEqual({ a: ['plenum'], b: [] });
  });

  it('by book hours as they count on the line: typed ones, further positions and extra hours too', () => {
    const typed = priced(catalogue, [operationLine('l', 'long'), operationLine('s', 'short', { bookHours: '2.7' })]);
    expect(carries(typed)).toEqual({ l: [], s: ['plenum'] });
    const seized = priced(catalogue, [
      operationLine('l', 'long'),
      operationLine('s', 'short', { extraHours: { hours: '0.7', reason: 'seized' } }),
    ]);
    expect(carries(seized)).toEqual({ l: [], s: ['plenum'] });
    // l 2.6 − 1.2 = 1.4; s 2.0 + 0.7
    expect(charged(seized)).toEqual({ l: '1.4', s: '2.7' });
  });

  it('by the labour class of the line, where it has one of its own', () => {
    const lines = [operationLine('l', 'long'), operationLine('s', 'short', { labourClass: 'dear' })];
    expect(carries(priced(catalogue, lines, CLASSES))).toEqual({ l: [], s: ['plenum'] });
  });
});

describe('each step has its own carrier', () => {
  // Undertray 0.2 under the drain 0.6; belt 0.4 alone.
  const steps = [aStep('tray', '0.2'), aStep('drain', '0.6', { needs: ['tray'] }), aStep('belt', '0.4')];
  const operations = [
    anOperation('pump', '3.0', { steps: ['drain', 'belt'] }),
    anOperation('hose', '1.4', { steps: ['drain'] }),
    anOperation('tray-job', '0.5', { steps: ['tray'] }),
    anOperation('alternator', '3.5', { steps: ['belt'] }),
  ];

  it('the longest line that needs that very step', () => {
    const all = priced({ steps, operations }, [
      operationLine('h', 'hose'),
      operationLine('t', 'tray-job'),
      operationLine('p', 'pump'),
      operationLine('a', 'alternator'),
    ]);
    expect(carries(all)).toEqual({ h: [], t: [], p: ['drain', 'tray'], a: ['belt'] });
    // h 1.4 − 0.8; t 0.5 − 0.2; p 3.0 − 0.4 (belt); a 3.5
    expect(charged(all)).toEqual({ h: '0.6', t: '0.3', p: '2.6', a: '3.5' });
    expect(all.overlap.steps).toEqual([
      { step: 'belt', position: null, title: 'Step belt', hours: '0.4', lines: ['p', 'a'], carriedBy: 'a', savedHours: '0.4' },
      { step: 'tray', position: null, title: 'Step tray', hours: '0.2', lines: ['h', 't', 'p'], carriedBy: 'p', savedHours: '0.4' },
      { step: 'drain', position: null, title: 'Step drain', hours: '0.6', lines: ['h', 'p'], carriedBy: 'p', savedHours: '0.6' },
    ]);
    // 0.4 + 0.6 + 0.4
    expect(all.overlap).toMatchObject({ hours: '1.4', money: '140.00' });
  });

  it('a step that one line alone needs is listed and saves nothing', () => {
    const one = priced({ steps, operations }, [operationLine('h', 'hose')]);
    expect(charged(one)).toEqual({ h: '1.4' });
    expect(one.overlap.steps.map(({ step, savedHours }) => [step, savedHours])).toEqual([
      ['tray', '0'],
      ['drain', '0'],
    ]);
    expect(one.overlap).toMatchObject({ hours: '0', money: '0.00' });
  });
});

describe('at the wheels', () => {
  const steps = [aStep('lift', '0.1'), aStep('wheel', '0.3', { per: 'position', needs: [] })];
  const operations = [
    anOperation('pads', '0.9', { per: 'position', steps: ['wheel', 'lift'] }),
    anOperation('hose', '0.8', { per: 'position', steps: ['wheel'] }),
  ];

  it('a wheel off at the left is not a wheel off at the right', () => {
    const apart = priced({ steps, operations }, [
      operationLine('p', 'pads', { positions: ['left'] }),
      operationLine('h', 'hose', { positions: ['right'] }),
    ]);
    expect(charged(apart)).toEqual({ p: '0.9', h: '0.8' });
    expect(apart.overlap.hours).toBe('0');
  });

  it('at the same wheel it is taken off once', () => {
    const same = priced({ steps, operations }, [
      operationLine('p', 'pads', { positions: ['left'] }),
      operationLine('h', 'hose', { positions: ['left'] }),
    ]);
    expect(charged(same)).toEqual({ p: '0.9', h: '0.5' });
    expect(same.lines[1]!.uses).toEqual([{ step: 'wheel', position: 'left', carriedBy: 'p' }]);
  });

  it('two units of one line have the same vehicle step once, and a wheel each', () => {
    const pads = priced({ steps, operations }, [operationLine('p', 'pads', { positions: ['left', 'right'] })]);
    // 2 × 0.9 − 0.1 (one lift)
    expect(charged(pads)).toEqual({ p: '1.7' });
    expect(pads.lines[0]).toMatchObject({ bookHours: '1.8', sharedHours: '0.1', carries: ['wheel', 'lift', 'wheel'] });
    expect(pads.overlap.steps.map(({ step, position, lines, savedHours }) => [step, position, lines, savedHours])).toEqual([
      ['wheel', 'left', ['p'], '0'],
      ['lift', null, ['p'], '0.1'],
      ['wheel', 'right', ['p'], '0'],
    ]);
    expect(pads.overlap).toMatchObject({ hours: '0.1', money: '10.00' });
  });

  it('what is saved counts units, not lines', () => {
    const all = priced({ steps, operations }, [
      operationLine('p', 'pads', { positions: ['left', 'right'] }),
      operationLine('q', 'pads', { positions: ['rear'] }),
    ]);
    // Three units need the lift: saved 2 × 0.1. p carries it: 1.8 − 0.1; q 0.9 − 0.1.
    expect(charged(all)).toEqual({ p: '1.7', q: '0.8' });
    expect(all.overlap.steps.find(({ step }) => step === 'lift')).toMatchObject({ savedHours: '0.2', lines: ['p', 'q'] });
  });

  it('also the units of a line that does not carry', () => {
    // q is dearer and carries the lift; p needs it for two wheels: saved 2 × 0.1. q 0.9; p 1.8 − 2 × 0.1.
    const all = priced(
      { steps, operations },
      [
        operationLine('p', 'pads', { positions: ['left', 'right'] }),
        operationLine('q', 'pads', { positions: ['rear'], labourClass: 'dear' }),
      ],
      CLASSES,
    );
    expect(charged(all)).toEqual({ p: '1.6', q: '0.9' });
    expect(all.overlap.steps.find(({ step }) => step === 'lift')).toMatchObject({ savedHours: '0.2', carriedBy: 'q' });
  });

  it('where no position is named, two lines mean the same place', () => {
    const nowhere = priced({ steps, operations }, [operationLine('p', 'pads'), operationLine('h', 'hose')]);
    expect(charged(nowhere)).toEqual({ p: '0.9', h: '0.5' });
  });
});

it('one operation in two lines needs its steps once', () => {
  const operations = [anOperation('gasket', '2.0', { steps: ['plenum'] })];
  const twice = priced({ steps: plenum, operations }, [operationLine('a', 'gasket'), operationLine('b', 'gasket')]);
  expect(charged(twice)).toEqual({ a: '2', b: '0.8' });
});

it('the order of entry never changes the total', () => {
  const steps = [aStep('x', '0.7'), aStep('y', '0.4', { needs: ['x'] })];
  const operations = [
    anOperation('a', '2', { steps: ['y'] }),
    anOperation('b', '2', { steps: ['x'], labourClass: 'dear' }),
    anOperation('c', '3', { steps: ['y'] }),
  ];
  const lines = ['a', 'b', 'c'].map((id) => operationLine(id, id));
  const orders = [
    [0, 1, 2],
    [0, 2, 1],
    [1, 0, 2],
    [1, 2, 0],
    [2, 0, 1],
    [2, 1, 0],
  ];
  const totals = orders.map(
    (order) =>
      priced(
        { steps, operations },
        order.map((i) => lines[i]!),
        CLASSES,
      ).totals.total,
  );
  // x with b (dear): a 2 − 0.7 − 0.4 = 0.9, b 2.0 at 160, c 3 − 0.7 = 2.3 → 90 + 320 + 230.
  expect(new Set(totals)).toEqual(new Set(['640.00']));
});
