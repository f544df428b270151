/** Rule 5: what is part of another operation is not charged again. */
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
const within = ({ lines }: PricedEstimate): Record<string, string | null> =>
  Object.fromEntries(lines.map((line) => [line.id, line.includedIn]));

const steps = [aStep('drain', '0.6')];
const thermostat = anOperation('thermostat', '1.0', { steps: ['drain'] });
const pump = anOperation('pump', '3.0', { steps: ['drain'], includes: ['thermostat'] });
const engine = anOperation('engine', '12.0', { includes: ['pump'] });
const radiator = anOperation('radiator', '4.0', { includes: ['thermostat'] });
const catalogue = { steps, operations: [thermostat, pump, engine, radiator] };

describe('an included line', () => {
  it('is charged no hours, carries nothing and names what it is part of', () => {
    const both = priced(catalogue, [operationLine('t', 'thermostat'), operationLine('p', 'pump')]);
    expect(both.lines[0]).toMatchObject({
      priced: true,
      bookHours: '1',
      sharedHours: '1',
      chargedHours: '0',
      labour: '0.00',
      includedIn: 'p',
      carries: [],
      uses: [],
    });
    expect(both.lines[1]).toMatchObject({ chargedHours: '3', includedIn: null, carries: ['drain'] });
    // Book prices 100 + 300, charged 300.
    expect(both.overlap).toMatchObject({ hours: '1', money: '100.00' });
    expect(both.overlap.steps).toEqual([expect.objectContaining({ step: 'drain', lines: ['p'], savedHours: '0' })]);
    expect(both.charges.filter(({ kind }) => kind === 'labour').map(({ line }) => line)).toEqual(['p']);
  });

  it('is not charged its extra hours either, and a warning says so', () => {
    const both = priced(catalogue, [
      operationLine('t', 'thermostat', { extraHours: { hours: '0.5', reason: 'seized' } }),
      operationLine('p', 'pump'),
    ]);
    expect(both.lines[0]).toMatchObject({ bookHours: '1.5', sharedHours: '1.5', chargedHours: '0' });
    expect(both.problems).toEqual([
      expect.objectContaining({ severity: 'warning', code: 'extra-hours-included', path: 'lines[0].extraHours' }),
    ]);
  });

  it('even when its own labour rate is the higher one', () => {
    const rates = {
      labourClasses: [
        { id: 'general', title: '', rate: '100' },
        { id: 'dear', title: '', rate: '200' },
      ],
    };
    const both = priced(catalogue, [operationLine('t', 'thermostat', { labourClass: 'dear' }), operationLine('p', 'pump')], rates);
    expect(within(both)).toEqual({ t: 'p', p: null });
    expect(both.totals.labour).toBe('300.00');
  });

  it('comes back at its price when the other line is declined', () => {
    const declined = priced(catalogue, [operationLine('t', 'thermostat'), operationLine('p', 'pump', { decision: 'declined' })]);
    expect(declined.lines[0]).toMatchObject({ chargedHours: '1', includedIn: null, carries: ['drain'] });
    expect(declined.totals.total).toBe('100.00');
  });
});

describe('through others', () => {
  it('the outermost line is named, for both', () => {
    const all = priced(catalogue, [operationLine('t', 'thermostat'), operationLine('p', 'pump'), operationLine('e', 'engine')]);
    expect(within(all)).toEqual({ t: 'e', p: 'e', e: null });
    expect(all.totals.labour).toBe('1200.00');
  });

  it('an operation in the middle that no line asks for still links the two', () => {
    expect(within(priced(catalogue, [operationLine('t', 'thermostat'), operationLine('e', 'engine')]))).toEqual({ t: 'e', e: null });
  });
});

describe('of several that include it', () => {
  it('the first by rule 4 is named: the longest', () => {
    expect(
      within(priced(catalogue, [operationLine('t', 'thermostat'), operationLine('p', 'pump'), operationLine('r', 'radiator')])),
    ).toEqual({ t: 'r', p: null, r: null });
  });

  it('or the one with the higher labour rate', () => {
    const rates = {
      labourClasses: [
        { id: 'general', title: '', rate: '100' },
        { id: 'dear', title: '', rate: '200' },
      ],
    };
    const lines = [operationLine('t', 'thermostat'), operationLine('p', 'pump', { labourClass: 'dear' }), operationLine('r', 'radiator')];
    expect(within(priced(catalogue, lines, rates))).toEqual({ t: 'p', p: null, r: null });
  });

  it('never one that is included itself', () => {
    // The pump includes the thermostat and is part of the engine job; the radiator stands alone but is shorter.
    const lines = [
      operationLine('t', 'thermostat'),
      operationLine('p', 'pump'),
      operationLine('r', 'radiator'),
      operationLine('e', 'engine'),
    ];
    expect(within(priced(catalogue, lines))).toEqual({ t: 'e', p: 'e', r: null, e: null });
  });

  it('not even when its labour rate is the highest', () => {
    const rates = {
      labourClasses: [
        { id: 'general', title: '', rate: '100' },
        { id: 'dear', title: '', rate: '200' },
      ],
    };
    const lines = [operationLine('t', 'thermostat'), operationLine('p', 'pump', { labourClass: 'dear' }), operationLine('e', 'engine')];
    expect(within(priced(catalogue, lines, rates))).toEqual({ t: 'e', p: 'e', e: null });
  });
});

it('two lines of one operation do not include each other, and both are part of a third', () => {
  const alone = priced(catalogue, [operationLine('p', 'pump'), operationLine('q', 'pump')]);
  expect(within(alone)).toEqual({ p: null, q: null });
  expect(within(priced(catalogue, [operationLine('p', 'pump'), operationLine('q', 'pump'), operationLine('e', 'engine')]))).toEqual({
    p: 'e',
    q: 'e',
    e: null,
  });
});

it('an included line takes no part in declared overlaps', () => {
  // The radiator would share 0.5 h with the thermostat, but that is part of the pump.
  const declared = {
    ...catalogue,
    operations: [thermostat, pump, anOperation('fan', '2.0')],
    overlaps: [{ between: ['thermostat', 'fan'] as [string, string], hours: '0.5' }],
  };
  const all = priced(declared, [operationLine('t', 'thermostat'), operationLine('p', 'pump'), operationLine('f', 'fan')]);
  expect(all.overlap.pairs).toEqual([]);
  expect(all.lines[2]!.chargedHours).toBe('2');
});

it('at another position it still counts as part, and a warning tells', () => {
  const operations = [
    anOperation('pads', '0.9', { per: 'position' }),
    anOperation('discs', '1.4', { per: 'position', includes: ['pads'] }),
  ];
  const lines = [operationLine('p', 'pads', { positions: ['left', 'right'] }), operationLine('d', 'discs', { positions: ['left'] })];
  const both = priced({ operations }, lines);
  expect(within(both)).toEqual({ p: 'd', d: null });
  expect(both.problems).toEqual([expect.objectContaining({ severity: 'warning', code: 'included-elsewhere', path: 'lines[0].positions' })]);
  expect(both.problems[0]!.message).toContain('right');
  expect(both.complete).toBe(true);
});

it('an operation for the vehicle includes it wherever it is', () => {
  const operations = [anOperation('pads', '0.9', { per: 'position' }), anOperation('axle', '4.0', { includes: ['pads'] })];
  const both = priced({ operations }, [operationLine('p', 'pads', { positions: ['left', 'right'] }), operationLine('a', 'axle')]);
  expect(within(both)).toEqual({ p: 'a', a: null });
  expect(both.problems).toEqual([]);
});
