/** Rule 8: which parts, how many, on which line, and their cores. */
import { describe, expect, it } from 'vitest';
import type { PricedEstimate } from '../../../src/index.js';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aPart,
  aRateCard,
  aStep,
  operationLine,
  partLine,
  priceDocuments,
  priceLines,
} from '../../support/builders.js';
import type { CatalogueDoc, OperationDoc, PartEntry, PartOverride } from '../../support/oracle-documents.js';

const seal = aPart('seal', '2.00');
const coolant = aPart('coolant', '5.00');
const pump = aPart('pump', '100.00', { core: '25.00' });
const clip = aPart('clip', '0.50');

function priced(catalogue: Partial<CatalogueDoc>, lines: ReturnType<typeof operationLine>[]): PricedEstimate {
  const result = priceDocuments({
    estimate: anEstimate(lines),
    catalogue: aCatalogue({ parts: [seal, coolant, pump, clip], ...catalogue }),
    rates: aRateCard(),
  });
  assertAddsUp(result);
  return result;
}
/** `line kind part: qty × unit = amount` */
const parts = ({ charges }: PricedEstimate): string[] =>
  charges
    .filter(({ kind }) => kind === 'part' || kind === 'core')
    .map(({ line, kind, part, qty, unit, amount }) => `${line} ${kind} ${part!.id}: ${qty} × ${unit} = ${amount}`);
const needs = (part: string, qty: string, each = false): PartEntry => ({ part, qty, each });

describe("an operation's own parts", () => {
  const hose = anOperation('hose', '1', { parts: [needs('seal', '2', true), needs('coolant', '1.5')] });

  it.each([
    [[], ['l part seal: 2 × 2.00 = 4.00', 'l part coolant: 1.5 × 5.00 = 7.50']],
    [['feed'], ['l part seal: 2 × 2.00 = 4.00', 'l part coolant: 1.5 × 5.00 = 7.50']],
    // each: 2 × 3 positions; the coolant once
    [
      ['a', 'b', 'c'],
      ['l part seal: 6 × 2.00 = 12.00', 'l part coolant: 1.5 × 5.00 = 7.50'],
    ],
  ])('at positions %j: %j', (positions, expected) => {
    expect(parts(priced({ operations: [hose] }, [operationLine('l', 'hose', { positions })]))).toEqual(expected);
  });

  it('are the same for an operation for each position', () => {
    const pads = anOperation('pads', '1', { per: 'position', parts: [needs('seal', '2', true), needs('coolant', '1.5')] });
    expect(parts(priced({ operations: [pads] }, [operationLine('l', 'pads', { positions: ['left', 'right'] })]))).toEqual([
      'l part seal: 4 × 2.00 = 8.00',
      'l part coolant: 1.5 × 5.00 = 7.50',
    ]);
  });

  it('are charged on each line that needs them', () => {
    expect(parts(priced({ operations: [hose] }, [operationLine('a', 'hose'), operationLine('b', 'hose')])).length).toBe(4);
  });
});

describe("a step's parts", () => {
  const steps = [
    aStep('drain', '0.6', { parts: [needs('coolant', '6')] }),
    aStep('wheel', '0.3', { per: 'position', parts: [needs('clip', '2')] }),
  ];
  const short = anOperation('short', '1', { steps: ['drain'] });
  const long = anOperation('long', '2', { steps: ['drain'] });

  it('go with the line that carries the step, once', () => {
    expect(parts(priced({ steps, operations: [short, long] }, [operationLine('s', 'short'), operationLine('l', 'long')]))).toEqual([
      'l part coolant: 6 × 5.00 = 30.00',
    ]);
  });

  it('come to the other line when the first is declined', () => {
    const lines = [operationLine('s', 'short'), operationLine('l', 'long', { decision: 'declined' })];
    expect(parts(priced({ steps, operations: [short, long] }, lines))).toEqual(['s part coolant: 6 × 5.00 = 30.00']);
  });

  it('are needed at each position where the step is done', () => {
    const wheelJob = anOperation('wheel-job', '1', { per: 'position', steps: ['wheel'] });
    expect(parts(priced({ steps, operations: [wheelJob] }, [operationLine('l', 'wheel-job', { positions: ['left', 'right'] })]))).toEqual([
      'l part clip: 4 × 0.50 = 2.00',
    ]);
  });

  it('are needed once for a vehicle step, whatever the positions of the line', () => {
    expect(parts(priced({ steps, operations: [short] }, [operationLine('l', 'short', { positions: ['a', 'b'] })]))).toEqual([
      'l part coolant: 6 × 5.00 = 30.00',
    ]);
  });
});

describe('"each" on a step\'s part', () => {
  it('says nothing: the coolant of one drain is 6 at three positions too', () => {
    const steps = [aStep('drain', '0.6', { parts: [needs('coolant', '6', true)] })];
    const short = anOperation('short', '1', { steps: ['drain'] });
    expect(parts(priced({ steps, operations: [short] }, [operationLine('l', 'short', { positions: ['a', 'b', 'c'] })]))).toEqual([
      'l part coolant: 6 × 5.00 = 30.00',
    ]);
  });
});

describe('a part that comes from several places of one line', () => {
  const steps = [
    aStep('drain', '0.6', { needs: ['flush'], parts: [needs('coolant', '6')] }),
    aStep('flush', '0.2', { parts: [needs('coolant', '0.5')] }),
  ];
  const hose = anOperation('hose', '2', { steps: ['drain'], parts: [needs('seal', '1'), needs('coolant', '0.333')] });

  it('is one charge, its quantities added before the price is multiplied', () => {
    // 0.333 + 6 + 0.5 = 6.833 × 5.00 = 34.165 → 34.17 (apart: 1.67 + 30.00 + 2.50 = 34.17)
    expect(parts(priced({ steps, operations: [hose] }, [operationLine('l', 'hose')]))).toEqual([
      'l part seal: 1 × 2.00 = 2.00',
      'l part coolant: 6.833 × 5.00 = 34.17',
    ]);
  });

  it('is rounded once: three times 0.333 of 5.00 is 5.00 rounded once, 5.01 rounded thrice', () => {
    const thrice = [aStep('a', '0', { parts: [needs('coolant', '0.333')] }), aStep('b', '0', { parts: [needs('coolant', '0.333')] })];
    const third = anOperation('o', '1', { steps: ['a', 'b'], parts: [needs('coolant', '0.333')] });
    // 0.999 × 5.00 = 4.995 → 5.00; each 1.665 → 1.67.
    expect(parts(priced({ steps: thrice, operations: [third] }, [operationLine('l', 'o')]))).toEqual([
      'l part coolant: 0.999 × 5.00 = 5.00',
    ]);
  });
});

describe('a core charge', () => {
  const job = anOperation('job', '1', { parts: [needs('pump', '2'), needs('seal', '1')] });

  it('is its own charge, right after its part', () => {
    const result = priced({ operations: [job] }, [operationLine('l', 'job')]);
    expect(parts(result)).toEqual(['l part pump: 2 × 100.00 = 200.00', 'l core pump: 2 × 25.00 = 50.00', 'l part seal: 1 × 2.00 = 2.00']);
    expect(result.totals).toMatchObject({ part: '202.00', core: '50.00', total: '352.00' });
  });

  it('of a part line is multiplied too, and given back with a negative quantity', () => {
    const result = priceLines([partLine('p', '-1', '80.00', { core: '25.00' })]);
    assertAddsUp(result);
    expect(result.charges.map(({ id, kind, qty, amount }) => [id, kind, qty, amount])).toEqual([
      ['p.part', 'part', '-1', '-80.00'],
      ['p.core', 'core', '-1', '-25.00'],
    ]);
    expect(result.totals.total).toBe('-105.00');
  });
});

describe('what a line says differently about a part', () => {
  const steps = [aStep('drain', '0.6', { parts: [needs('coolant', '6')] })];
  const operations = [
    anOperation('job', '2', { steps: ['drain'], parts: [needs('pump', '1'), needs('seal', '2', true)] }),
    anOperation('long', '3', { steps: ['drain'] }),
  ];
  const catalogue = { steps, operations };
  const all = (overrides: PartOverride[], more: object = {}, others: string[] = []): string[] =>
    parts(priced(catalogue, [operationLine('l', 'job', { parts: overrides, ...more }), ...others.map((id) => operationLine(id, id))]));
  const PUMP = ['l part pump: 1 × 100.00 = 100.00', 'l core pump: 1 × 25.00 = 25.00'];
  const SEAL = 'l part seal: 2 × 2.00 = 4.00';
  const COOLANT = 'l part coolant: 6 × 5.00 = 30.00';

  it('nothing: the catalogue holds', () => expect(all([])).toEqual([...PUMP, SEAL, COOLANT]));

  it('a quantity is the final one, whatever the positions say', () => {
    expect(all([{ part: 'seal', qty: '3' }], { positions: ['a', 'b'] })).toEqual([...PUMP, 'l part seal: 3 × 2.00 = 6.00', COOLANT]);
  });

  it('a quantity for a part from a step that the line carries', () => {
    expect(all([{ part: 'coolant', qty: '4.5' }])).toEqual([...PUMP, SEAL, 'l part coolant: 4.5 × 5.00 = 22.50']);
  });

  it('a price as it was typed, a core stays', () => {
    expect(all([{ part: 'pump', unitPrice: '79.995' }])[0]).toBe('l part pump: 1 × 79.995 = 80.00');
    expect(all([{ part: 'pump', unitPrice: '0' }])).toEqual([
      'l part pump: 1 × 0.00 = 0.00',
      'l core pump: 1 × 25.00 = 25.00',
      SEAL,
      COOLANT,
    ]);
  });

  it('a cost, which is marked up by the card', () => {
    const rates = aRateCard({ parts: { basis: 'markup', mode: 'whole', tiers: [{ percent: '50' }] } });
    const documents = {
      estimate: anEstimate([operationLine('l', 'job', { parts: [{ part: 'pump', cost: '60.00' }] })]),
      catalogue: aCatalogue({ parts: [seal, coolant, pump, clip], ...catalogue }),
      rates,
    };
    // 60 × 1.5 and not 100 × 1.5
    expect(parts(priceDocuments(documents))[0]).toBe('l part pump: 1 × 90.00 = 90.00');
  });

  it('a condition is shown on the part and its core', () => {
    const result = priced(catalogue, [operationLine('l', 'job', { parts: [{ part: 'pump', condition: 'rebuilt' }] })]);
    expect(result.charges.filter(({ part }) => part?.id === 'pump').map(({ part }) => part!.condition)).toEqual(['rebuilt', 'rebuilt']);
  });

  it('that it is left out, with its core', () => expect(all([{ part: 'pump', omit: true }])).toEqual([SEAL, COOLANT]));

  it('a quantity of zero gives no charge, nor a core', () => expect(all([{ part: 'pump', qty: '0' }])).toEqual([SEAL, COOLANT]));

  it('a quantity below zero is a credit, core and all', () => {
    expect(all([{ part: 'pump', qty: '-1' }])).toEqual([
      'l part pump: -1 × 100.00 = -100.00',
      'l core pump: -1 × 25.00 = -25.00',
      SEAL,
      COOLANT,
    ]);
  });

  it('a part that nothing asks for is an addition, one if no quantity is given', () => {
    expect(all([{ part: 'clip' }])).toEqual([...PUMP, SEAL, COOLANT, 'l part clip: 1 × 0.50 = 0.50']);
    expect(all([{ part: 'clip', qty: '8', unitPrice: '0.4' }])).toEqual([...PUMP, SEAL, COOLANT, 'l part clip: 8 × 0.40 = 3.20']);
    expect(all([{ part: 'clip', omit: true }])).toEqual([...PUMP, SEAL, COOLANT]);
  });

  it('a part of a step that another line carries: no effect here', () => {
    expect(all([{ part: 'coolant', qty: '9' }], {}, ['long'])).toEqual([...PUMP, SEAL, 'long part coolant: 6 × 5.00 = 30.00']);
  });
});

describe('an included line', () => {
  const steps = [aStep('drain', '0.6', { parts: [needs('coolant', '6')] })];
  const inner = (more: Partial<OperationDoc> = {}): OperationDoc =>
    anOperation('inner', '1', { steps: ['drain'], parts: [needs('seal', '1'), needs('clip', '2')], ...more });
  const outer = anOperation('outer', '3', { steps: ['drain'], includes: ['inner'], parts: [needs('seal', '2'), needs('pump', '1')] });

  it('does not repeat parts that the other operation lists, and its steps bring nothing', () => {
    expect(parts(priced({ steps, operations: [inner(), outer] }, [operationLine('i', 'inner'), operationLine('o', 'outer')]))).toEqual([
      'i part clip: 2 × 0.50 = 1.00',
      'o part seal: 2 × 2.00 = 4.00',
      'o part pump: 1 × 100.00 = 100.00',
      'o core pump: 1 × 25.00 = 25.00',
      'o part coolant: 6 × 5.00 = 30.00',
    ]);
  });

  it('does not bring them back by an override, but may add others', () => {
    const line = operationLine('i', 'inner', {
      parts: [
        { part: 'seal', qty: '5' },
        { part: 'coolant', qty: '1' },
        { part: 'pump', qty: '1' },
      ],
    });
    // seal: dropped; coolant: of a step that the other carries; pump: neither operation nor step of "inner" lists it.
    expect(
      parts(priced({ steps, operations: [inner(), outer] }, [line, operationLine('o', 'outer')])).filter((text) => text.startsWith('i ')),
    ).toEqual(['i part clip: 2 × 0.50 = 1.00', 'i part pump: 1 × 100.00 = 100.00', 'i core pump: 1 × 25.00 = 25.00']);
  });

  it('charges all of them when it stands alone', () => {
    expect(parts(priced({ steps, operations: [inner(), outer] }, [operationLine('i', 'inner')]))).toEqual([
      'i part seal: 1 × 2.00 = 2.00',
      'i part clip: 2 × 0.50 = 1.00',
      'i part coolant: 6 × 5.00 = 30.00',
    ]);
  });
});

describe('a part line', () => {
  const one = (qty: string, unitPrice: string | null, more: object = {}): string[] => {
    const result = priceLines([partLine('p', qty, unitPrice, more)]);
    assertAddsUp(result);
    return result.charges.map((charge) => `${charge.kind}: ${charge.qty} × ${charge.unit} = ${charge.amount}`);
  };

  it('is its quantity at the price typed, rounded once', () => {
    // 3 × 0.335 = 1.005 → 1.01
    expect(one('3', '0.335')).toEqual(['part: 3 × 0.335 = 1.01']);
    expect(one('2.5', '14.95')).toEqual(['part: 2.5 × 14.95 = 37.38']);
  });

  it('is marked up where no price was typed', () => expect(one('2', null, { cost: '4.10' })).toEqual(['part: 2 × 4.10 = 8.20']));

  it('a price of zero is a price', () => expect(one('2', '0', { cost: '4.10' })).toEqual(['part: 2 × 0.00 = 0.00']));

  it('without a quantity is no charge', () => expect(one('0', '5.00', { core: '10' })).toEqual([]));

  it('a credit is the mirror image of the charge', () => {
    // 3 × 0.335 = 1.005: half-up goes away from zero on both sides.
    expect(one('-3', '0.335')).toEqual(['part: -3 × 0.335 = -1.01']);
  });

  it('tells its number and condition, and never its cost', () => {
    const { charges } = priceLines([partLine('p', '1', null, { cost: '4.10', number: 'N-1', condition: 'used' })]);
    expect(charges[0]!.part).toEqual({ id: null, number: 'N-1', condition: 'used' });
    expect(JSON.stringify(charges)).not.toContain('cost');
  });
});
