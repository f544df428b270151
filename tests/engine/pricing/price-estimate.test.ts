import { describe, expect, it } from 'vitest';
import { priceEstimate } from '../../../src/index.js';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aRateCard,
  aStep,
  labourLine,
  operationLine,
  partLine,
  priceDocuments,
  readDocuments,
} from '../../support/builders.js';
import type { Decision, LineDoc } from '../../support/oracle-documents.js';

describe('decisions (rule 13)', () => {
  it.each<[Decision | undefined, boolean]>([
    ['proposed', true],
    ['approved', true],
    ['declined', false],
    ['deferred', false],
    [undefined, true],
  ])('a line that is %s: priced %s', (decision, isPriced) => {
    const { decision: _, ...line } = { ...labourLine('l', '1'), decision: undefined };
    const result = priceDocuments({
      estimate: anEstimate([decision === undefined ? line : { ...line, decision }]),
      catalogue: aCatalogue(),
      rates: aRateCard(),
    });
    assertAddsUp(result);
    expect(result.lines[0]).toMatchObject({ priced: isPriced, decision: decision ?? 'proposed', amount: isPriced ? '100.00' : '0.00' });
    expect(result.totals.total).toBe(isPriced ? '100.00' : '0.00');
  });

  it('every line appears, in the order of the sheet, with its book hours even if it is not priced', () => {
    const lines: LineDoc[] = [
      labourLine('a', '1.50', { decision: 'declined' }),
      { id: 'b', kind: 'note', text: 'x' },
      partLine('c', '1', '1.00'),
    ];
    const result = priceDocuments({ estimate: anEstimate(lines), catalogue: aCatalogue(), rates: aRateCard() });
    expect(result.lines.map(({ id, kind, priced, bookHours }) => [id, kind, priced, bookHours])).toEqual([
      ['a', 'labour', false, '1.5'],
      ['b', 'note', false, '0'],
      ['c', 'part', true, '0'],
    ]);
  });
});

describe('only', () => {
  const documents = {
    estimate: anEstimate([
      operationLine('g', 'gasket'),
      operationLine('o', 'o-rings', { decision: 'declined' }),
      labourLine('l', '1'),
      { id: 'n', kind: 'note', text: 'x' },
    ]),
    catalogue: aCatalogue({
      steps: [aStep('plenum', '1.2')],
      operations: [anOperation('gasket', '2.0', { steps: ['plenum'] }), anOperation('o-rings', '2.6', { steps: ['plenum'] })],
    }),
    rates: aRateCard(),
  };
  const total = (...ids: string[]): string => {
    const result = priceDocuments(documents, { only: new Set(ids) });
    assertAddsUp(result);
    return result.totals.total;
  };

  it('prices exactly the lines named, whatever their decision', () => {
    expect(total('g')).toBe('200.00');
    expect(total('o')).toBe('260.00');
    // 2.6 + 2.0 − 1.2
    expect(total('g', 'o')).toBe('340.00');
    expect(total('l')).toBe('100.00');
  });

  it('of none is nothing, which is not the same as no "only"', () => {
    expect(total()).toBe('0.00');
    expect(priceDocuments(documents).totals.total).toBe('300.00');
  });

  it('an id that there is not, and a note, add nothing', () => expect(total('g', 'gone', 'n')).toBe('200.00'));

  it('takes any list of ids', () => {
    expect(priceEstimate(readDocuments(documents), { only: ['g', 'o'] }).totals.total).toBe('340.00');
  });
});

describe('documents that never went through a parse function', () => {
  const good = { estimate: anEstimate([labourLine('l', '1')]), catalogue: aCatalogue(), rates: aRateCard() };

  it('are checked all the same', () => {
    expect(priceEstimate(good as never).totals.total).toBe('100.00');
  });

  it('may be JSON text', () => {
    const texts = Object.fromEntries(Object.entries(good).map(([name, value]) => [name, JSON.stringify(value)]));
    expect(priceEstimate(texts as never).totals.total).toBe('100.00');
  });

  it('that cannot be used give an empty estimate with the reasons, each under the name of its document', () => {
    const bad = {
      estimate: { ...good.estimate, id: '' },
      catalogue: null,
      rates: { ...good.rates, labourClasses: [{ id: 'general', title: '', rate: 100 }] },
    };
    const result = priceEstimate(bad as never);
    const { problems: _, ...rest } = result;
    expect(rest).toEqual({
      // ISO 4217: no currency.
      currency: 'XXX',
      moneyStep: '1',
      pricesIncludeTax: false,
      complete: false,
      lines: [],
      charges: [],
      cautions: [],
      overlap: { hours: '0', money: '0', steps: [], pairs: [] },
      totals: {
        labour: '0',
        part: '0',
        core: '0',
        sublet: '0',
        fee: '0',
        supplies: '0',
        subtotal: '0',
        discount: '0',
        discounts: [],
        taxes: [],
        tax: '0',
        total: '0',
        cash: '0',
      },
    });
    expect(result.problems.map(({ code, path }) => `${code} ${path}`)).toEqual([
      'id estimate.id',
      'not-an-object catalogue',
      'number rates.labourClasses[0].rate',
    ]);
  });
});

it('leaves the documents as they were', () => {
  const documents = readDocuments({
    estimate: anEstimate([labourLine('l', '1'), partLine('p', '1', '5')]),
    catalogue: aCatalogue(),
    rates: aRateCard(),
  });
  const before = structuredClone(documents);
  priceEstimate(documents);
  expect(documents).toEqual(before);
});

it('every figure is text, never a number', () => {
  const result = priceDocuments({
    estimate: anEstimate([labourLine('l', '1'), partLine('p', '1', '5', { core: '1' })]),
    catalogue: aCatalogue(),
    rates: aRateCard(),
  });
  const numbers = JSON.stringify(result, (_, value: unknown) => (typeof value === 'number' ? 'a number!' : value));
  expect(numbers).not.toContain('a number!');
});

it('what a priced estimate tells of a part does not hold its cost', () => {
  const result = priceDocuments({
    estimate: anEstimate([partLine('p', '1', '5.00', { cost: '3.21' })]),
    catalogue: aCatalogue(),
    rates: aRateCard(),
  });
  expect(JSON.stringify(result)).not.toContain('3.21');
});
