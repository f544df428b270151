import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseRates, priceEstimate, replay, type ReplayOptions, type ReplayResult } from '../../../src/index.js';
import { MadeUpEstimates } from '../../../demo/made-up-estimates.js';
import catalogueOfDemo from '../../../rates/catalogue.demo.json' with { type: 'json' };
import cardOfDemo from '../../../rates/card.demo.json' with { type: 'json' };
import cardOfGermany from '../../../rates/card.germany.json' with { type: 'json' };
import { parseCatalogue, type Catalogue, type Rates } from '../../../src/index.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aPart,
  aRateCard,
  aStep,
  aTax,
  feeLine,
  labourLine,
  operationLine,
  partLine,
} from '../../support/builders.js';
import { decimal } from '../../../src/number/decimal.js';
import type { EstimateDoc, RatesDoc } from '../../support/oracle-documents.js';

const catalogue = must(parseCatalogue(catalogueOfDemo));
const card = must(parseRates(cardOfDemo));

function must<T>(parsed: { ok: true; value: T } | { ok: false; problems: unknown }): T {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
}

const rates = (more: Partial<RatesDoc> = {}): Rates => must(parseRates(aRateCard(more)));
const rated = (rate: string, more: Partial<RatesDoc> = {}): Rates =>
  rates({ labourClasses: [{ id: 'general', title: 'General repair', rate }], ...more });

async function result(
  estimates: Iterable<unknown> | AsyncIterable<unknown>,
  before: Rates,
  after: Rates,
  options: ReplayOptions = {},
  of: Catalogue = must(parseCatalogue(aCatalogue())),
): Promise<ReplayResult> {
  const answer = await replay(estimates, of, before, after, options);
  if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
  return answer.result;
}

/**
 * What the figures are is common practice, no source: an effective labour rate is labour sales by hours charged, gross
 * profit is sales less what was bought to make them.
 */
describe('a replay, worked by hand', () => {
  // Invented. Two operations that share one hour of teardown; a part at cost 40 + 50 %, a core of 10; a part typed at
  // 12.00 without a cost; sublet at 80 + 25 %; 10 % off labour; tax of 5 % on parts and cores.
  const shop = must(
    parseCatalogue(
      aCatalogue({
        parts: [aPart('seal', '40.00', { core: '10.00' })],
        steps: [aStep('cover', '1.0')],
        operations: [
          anOperation('gasket', '2.0', { steps: ['cover'], parts: [{ part: 'seal', qty: '1' }] }),
          anOperation('ring', '3.0', { steps: ['cover'] }),
        ],
      }),
    ),
  );
  const more: Partial<RatesDoc> = {
    parts: { basis: 'markup', mode: 'whole', tiers: [{ percent: '50' }] },
    sublet: { percent: '25' },
    taxes: [aTax('state', '5', { on: ['part', 'core'] })],
  };
  const estimate: EstimateDoc = anEstimate(
    [
      operationLine('l1', 'gasket'),
      operationLine('l2', 'ring'),
      partLine('l3', '2', '12.00'),
      { id: 'l4', kind: 'sublet', title: 'Next door', cost: '80.00', price: null },
      feeLine('l5', '7.00'),
      labourLine('l6', '9.0', { decision: 'declined' }),
    ],
    { discounts: [{ id: 'd', title: 'Off labour', percent: '10', amount: null, on: ['labour'], lines: [] }] },
  );

  it('gives every figure of both sides', async () => {
    const { before, after, difference, counts } = await result([estimate], rated('100.00', more), rated('120.00', more), {}, shop);
    // Hours: 2.0 + 3.0 − 1.0 shared = 4.0. Labour 400.00 − 10 % = 360.00. Parts 60.00 + 24.00. Tax 5 % of 94.00 = 4.70.
    expect(before).toEqual({
      total: '565.70',
      tax: '4.70',
      beforeTax: '561.00',
      discount: '40.00',
      labourSales: '360.00',
      partsSales: '84.00',
      coreSales: '10.00',
      subletSales: '100.00',
      feeSales: '7.00',
      suppliesSales: '0.00',
      // 561.00 − 10.00 − 40.00 − 80.00
      partsCost: '40.00',
      subletCost: '80.00',
      wages: '0.00',
      partsMargin: '44.00',
      partsMarginPercent: '52.4',
      grossProfit: '431.00',
      hoursCharged: '4',
      hoursGivenBack: '1',
      effectiveLabourRate: '90.00',
      averageEstimate: '561.00',
    });
    expect(after.labourSales).toBe('432.00');
    expect(difference).toMatchObject({
      labourSales: '72.00',
      grossProfit: '72.00',
      effectiveLabourRate: '18.00',
      hoursCharged: '0',
      partsMarginPercent: '0.0',
    });
    expect(counts).toEqual({ read: 1, priced: 1, leftOut: 0, withoutCost: 1 });
  });

  it('takes wages off gross profit where one is given', async () => {
    const { before } = await result([estimate], rated('100.00', more), rated('120.00', more), { wage: '32.50' }, shop);
    expect(before).toMatchObject({ wages: '130.00', grossProfit: '301.00' });
  });

  it('costs of parts follow what the line says: cost and quantity typed over, left out, added', async () => {
    const overrides = (parts: object[]) => anEstimate([{ ...operationLine('l1', 'gasket'), parts } as never]);
    const costs = async (parts: object[]) => (await result([overrides(parts)], rated('100', more), rated('100', more), {}, shop)).before;
    expect(await costs([{ part: 'seal', qty: '3', cost: '41.115' }])).toMatchObject({ partsCost: '123.35', partsSales: '185.01' });
    expect(await costs([{ part: 'seal', omit: true }])).toMatchObject({ partsCost: '0.00', partsSales: '0.00', partsMarginPercent: null });
    expect(await costs([{ part: 'seal', unitPrice: '30.00' }])).toMatchObject({
      partsCost: '40.00',
      partsMargin: '-10.00',
      partsMarginPercent: '-33.3',
    });
  });

  it('takes the tax out of prices that include it', async () => {
    const included = { ...more, pricesIncludeTax: true, taxes: [aTax('vat', '20')] };
    const { before } = await result(
      [anEstimate([labourLine('a', '1.2'), partLine('b', '1', null, { cost: '40.00' })])],
      rated('100.00', included),
      rated('100.00', included),
    );
    // 120.00 + 60.00 = 180.00, of which a sixth is tax.
    expect(before).toMatchObject({
      total: '180.00',
      tax: '30.00',
      beforeTax: '150.00',
      labourSales: '100.00',
      partsSales: '50.00',
      effectiveLabourRate: '83.33',
      grossProfit: '110.00',
    });
  });

  it('has no rates where nothing is there to divide by', async () => {
    const { before, counts } = await result([], rated('100'), rated('110'));
    expect(before).toMatchObject({ total: '0.00', effectiveLabourRate: null, averageEstimate: null, partsMarginPercent: null });
    expect(counts.read).toBe(0);
  });
});

describe('against pricing one by one', () => {
  const some = [...new MadeUpEstimates(catalogue, 60, 7)];
  const dearer = { ...card, labourClasses: card.labourClasses.map((each) => ({ ...each, rate: '171.35' })) };

  it.each([
    ['the demo card', card, dearer],
    ['prices that include tax', must(parseRates(cardOfGermany)), must(parseRates({ ...cardOfGermany, taxRounding: 'line' }))],
  ])('the sums are those of the priced estimates: %s', async (_, before, after) => {
    const known = (rates: Rates): Rates => ({
      ...rates,
      labourClasses: card.labourClasses.map((each) => rates.labourClasses.find(({ id }) => id === each.id) ?? each),
      fees: card.fees.map((fee) => ({ ...fee, taxes: null })),
    });
    const [old, young] = [known(before), known(after)];
    const replayed = await result(some, old, young, {}, catalogue);
    for (const [side, rates] of [
      [replayed.before, old],
      [replayed.after, young],
    ] as const) {
      const priced = some.map((estimate) => priceEstimate({ estimate, catalogue, rates }));
      const add = (figure: (one: (typeof priced)[number]) => string): string =>
        priced.reduce((total, one) => total.plus(decimal(figure(one))), decimal('0')).toFixed();
      expect(decimal(side.total!).toFixed()).toBe(add((one) => one.totals.total));
      expect(decimal(side.tax!).toFixed()).toBe(add((one) => one.totals.tax));
      expect(decimal(side.discount!).toFixed()).toBe(add((one) => one.totals.discount));
      expect(side.hoursGivenBack).toBe(add((one) => one.overlap.hours));
      expect(side.hoursCharged).toBe(
        priced
          .flatMap(({ lines }) => lines)
          .reduce((total, line) => total.plus(decimal(line.chargedHours)), decimal('0'))
          .toFixed(),
      );
      if (!rates.pricesIncludeTax) {
        const net = priced
          .flatMap(({ charges }) => charges)
          .filter(({ kind }) => kind === 'labour')
          .reduce((total, { amount, discount }) => total.plus(decimal(amount)).minus(decimal(discount)), decimal('0'));
        expect(decimal(side.labourSales!).eq(net)).toBe(true);
        const kinds = ['labourSales', 'partsSales', 'coreSales', 'subletSales', 'feeSales', 'suppliesSales'] as const;
        expect(kinds.reduce((total, kind) => total.plus(decimal(side[kind]!)), decimal('0')).eq(decimal(side.beforeTax!))).toBe(true);
      }
    }
    expect(replayed.counts.priced).toBe(60);
  });

  it('the same card changes nothing', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 1_000_000 }), async (seed) => {
        const { difference, moved, changes } = await result(
          new MadeUpEstimates(catalogue, 8, seed),
          card,
          structuredClone(card),
          {},
          catalogue,
        );
        expect(Object.values(difference).every((value) => /^0(\.0+)?$/.test(value!))).toBe(true);
        expect(moved).toEqual([]);
        expect(changes).toMatchObject({ classes: [], unchanged: 8, up: 0, down: 0, smallest: '0.00', largest: '0.00' });
      }),
      { numRuns: 10 },
    );
  });

  it('takes JSON text, parsed JSON and read estimates, in any iterable, to the same end', async () => {
    const wanted = await result(some, card, dearer, {}, catalogue);
    async function* slowly(): AsyncGenerator<string> {
      for (const estimate of some) yield JSON.stringify(estimate);
    }
    expect(await result(slowly(), card, dearer, {}, catalogue)).toEqual(wanted);
    expect(await result(new Set(some.map((estimate) => structuredClone(estimate))), card, dearer, {}, catalogue)).toEqual(wanted);
  });

  it('lists the estimates that move most, and no more than it was asked for', async () => {
    const { moved, changes } = await result(some, card, dearer, { mostMoved: 5 }, catalogue);
    const sizes = some.map((estimate, at) => {
      const of = (rates: Rates) => decimal(priceEstimate({ estimate, catalogue, rates }).totals.total);
      return { at, change: of(dearer).minus(of(card)) };
    });
    const expected = sizes.sort((a, b) => b.change.abs().cmp(a.change.abs())).slice(0, 5);
    expect(moved.map(({ at, change }) => ({ at, change }))).toEqual(expected.map(({ at, change }) => ({ at, change: change.toFixed(2) })));
    expect(moved[0]).toMatchObject({ id: some[moved[0]!.at]!.id, number: some[moved[0]!.at]!.number });
    expect(changes.classes.reduce((count, each) => count + each.count, changes.unchanged)).toBe(60);
    expect(changes.largest).toBe(expected[0]!.change.toFixed(2));
  });

  it('prices a side with a catalogue of its own', async () => {
    const longer = structuredClone(catalogue);
    const operations = longer.operations.map((each) => ({ ...each, bookHours: decimal(each.bookHours).plus(1).toFixed() }));
    const answer = await replay(some, catalogue, card, { rates: card, catalogue: { ...longer, operations } });
    if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
    expect(decimal(answer.result.difference.hoursCharged!).gt(0)).toBe(true);
    expect(answer.result.difference.partsCost).toBe('0.00');
  });
});

describe('what cannot be replayed', () => {
  it('counts and lists what is no estimate, and goes on', async () => {
    const good = anEstimate([labourLine('a', '2')]);
    const { counts, leftOut, before } = await result(
      [
        '{"cut off',
        null,
        7,
        { ...good, lines: [{ ...labourLine('a', '2'), hours: 2 }] },
        good,
        anEstimate([labourLine('a', '1', { decision: 'deferred' })]),
      ],
      rated('100'),
      rated('110'),
    );
    expect(counts).toEqual({ read: 6, priced: 1, leftOut: 5, withoutCost: 0 });
    expect(before.labourSales).toBe('200.00');
    expect(leftOut.listed.map(({ at, by, problems }) => [at, by, problems[0]?.code])).toEqual([
      [0, 'reading', 'not-json'],
      [1, 'reading', 'not-an-object'],
      [2, 'reading', 'not-an-object'],
      [3, 'reading', 'number'],
      [5, 'nothing-priced', undefined],
    ]);
    expect(leftOut.listed[3]!.problems[0]!.path).toBe('lines[0].hours');
    expect(leftOut.reasons[0]).toEqual({ by: 'reading', code: 'not-an-object', count: 2 });
  });

  it('leaves out of both sides what either card cannot price', async () => {
    const electrical = rates({ labourClasses: [...rated('100').labourClasses, { id: 'electrical', title: 'Electrical', rate: '150' }] });
    const odd = anEstimate([labourLine('a', '1', { labourClass: 'electrical' })], { id: 'odd', number: '77' });
    const { counts, leftOut, before } = await result([odd, anEstimate([labourLine('a', '1')])], electrical, rated('110'));
    expect(counts).toMatchObject({ read: 2, priced: 1, leftOut: 1 });
    expect(before.labourSales).toBe('100.00');
    expect(leftOut.listed).toMatchObject([{ at: 0, id: 'odd', number: '77', by: 'after', problems: [{ code: 'unknown-labour-class' }] }]);
    expect((await result([odd], rated('100'), rated('110'))).leftOut.reasons).toEqual([
      { by: 'both', code: 'unknown-labour-class', count: 1 },
    ]);
  });

  it('lists few of many', async () => {
    const { leftOut } = await result(
      Array.from({ length: 300 }, () => 'nothing'),
      rated('1'),
      rated('2'),
    );
    expect(leftOut.count).toBe(300);
    expect(leftOut.listed).toHaveLength(50);
  });

  it.each([
    ['a card before', [{}, card], /^before/],
    ['a card after', [card, { ...card, labourClasses: [{ id: 'general', rate: 100 }] }], /^after\.labourClasses/],
    ['a catalogue of a side', [card, { rates: card, catalogue: { format: 'baysheet-catalogue' } }], /^after\.catalogue/],
    ['two currencies', [card, { ...card, currency: 'CAD' }], /^after\.currency$/],
    ['nothing at all', [null, undefined], /^(before|after)/],
  ])('says what is wrong with %s', async (_, [before, after], path) => {
    const answer = await replay([], catalogue, before as never, after as never);
    if (answer.ok) throw new Error('it was replayed');
    expect(answer.problems.length).toBeGreaterThan(0);
    for (const problem of answer.problems) expect(problem.path).toMatch(path);
  });

  it('says what is wrong with the catalogue and with a wage', async () => {
    const bad = await replay([], {} as never, card, card);
    expect(!bad.ok && bad.problems.every(({ path }) => path.startsWith('catalogue'))).toBe(true);
    expect(await replay([], catalogue, card, card, { wage: 'forty' })).toMatchObject({ ok: false, problems: [{ path: 'wage' }] });
  });
});

describe('on the way', () => {
  const many = (count: number) => Array.from({ length: count }, () => anEstimate([labourLine('a', '1')]));

  it('tells how far it is, and waits for whoever is told', async () => {
    const told: number[] = [];
    let waiting = 0;
    await result(many(35), rated('100'), rated('110'), {
      onProgress: async (done) => {
        expect(waiting).toBe(0);
        waiting += 1;
        await new Promise((resolve) => setTimeout(resolve, 1));
        waiting -= 1;
        told.push(done);
      },
    });
    expect(told).toEqual([10, 20, 30, 35]);
  });

  it('ends when it is cancelled, and lets go of the estimates', async () => {
    const control = new AbortController();
    let given = 0;
    let closed = false;
    function* endless(): Generator<EstimateDoc> {
      try {
        for (;;) {
          given += 1;
          yield anEstimate([labourLine('a', '1')]);
        }
      } finally {
        closed = true;
      }
    }
    const run = replay(endless(), must(parseCatalogue(aCatalogue())), rated('100'), rated('110'), { signal: control.signal });
    setTimeout(() => control.abort(new Error('enough')), 5);
    await expect(run).rejects.toThrow('enough');
    expect(closed).toBe(true);
    expect(given).toBeGreaterThan(0);
    const before = given;
    await expect(replay(endless(), catalogue, card, card, { signal: AbortSignal.abort() })).rejects.toThrow(/abort/i);
    expect(given).toBe(before);
  });

  it('hands on what goes wrong in the iterable itself', async () => {
    async function* broken(): AsyncGenerator<EstimateDoc> {
      yield anEstimate([]);
      throw new Error('the disk is gone');
    }
    await expect(replay(broken(), catalogue, card, card)).rejects.toThrow('the disk is gone');
  });
});
