import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MadeUpEstimates } from '../../../demo/made-up-estimates.js';
import cardOfDemo from '../../../rates/card.demo.json' with { type: 'json' };
import catalogueOfDemo from '../../../rates/catalogue.demo.json' with { type: 'json' };
import { type Goal, parseCatalogue, parseRates, type Parsed, type Rates, replay, seekGoal } from '../../../src/index.js';
import { decimal } from '../../../src/number/decimal.js';
import { bisect } from '../../../src/replay/bisect.js';
import { turnKnob } from '../../../src/replay/knobs.js';
import { aCatalogue, anEstimate, aRateCard, labourLine, partLine } from '../../support/builders.js';

const must = <T>(parsed: Parsed<T>): T => {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
};
const catalogue = must(parseCatalogue(catalogueOfDemo));
const card = must(parseRates(cardOfDemo));
const empty = must(parseCatalogue(aCatalogue()));

describe('bisection on a grid', () => {
  it('finds the step that crosses a straight line, where the closed form says', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: -50, max: 50 }),
        fc.integer({ min: 1, max: 4000 }),
        fc.integer({ min: 1, max: 900 }),
        fc.boolean(),
        fc.double({ min: 0, max: 1, noNaN: true }),
        async (from, steps, slope, falls, part) => {
          // figure = ± slope × value; it reaches the target first at the ceiling (or floor) of target ÷ slope.
          const sign = falls ? -1 : 1;
          const figure = (value: number): number => sign * slope * value;
          const target = Math.round(figure(from) + (figure(from + steps) - figure(from)) * part);
          const found = await bisect(
            decimal(String(from)),
            decimal(String(from + steps)),
            decimal('1'),
            decimal(String(target)),
            async (value) => value.times(sign * slope),
          );
          const wanted = falls ? Math.floor(-target / slope) : Math.ceil(target / slope);
          expect(found.between!.reached.value.toNumber()).toBe(wanted);
          if (found.between!.short !== null) expect(Math.abs(found.between!.short.value.toNumber() - wanted)).toBe(1);
          expect(found.monotone).toBe(true);
          expect(found.tried.length).toBeLessThanOrEqual(6 + Math.ceil(Math.log2(steps)));
        },
      ),
      { numRuns: 300 },
    );
  });

  it('asks for each value once', async () => {
    const asked: string[] = [];
    await bisect(decimal('0'), decimal('1000'), decimal('0.5'), decimal('777'), async (value) => {
      asked.push(value.toFixed());
      return value;
    });
    expect(new Set(asked).size).toBe(asked.length);
  });

  it('takes the first of several crossings, and says that the figure rises and falls', async () => {
    const hump = await bisect(decimal('0'), decimal('100'), decimal('1'), decimal('9'), async (value) =>
      decimal('25').minus(value.minus(50).div(10).pow(2)),
    );
    expect(hump).toMatchObject({ monotone: false });
    expect(hump.between!.reached.value.toFixed()).toBe('10');
  });

  it('finds nothing where nothing is, but what is met exactly at an end', async () => {
    expect((await bisect(decimal('0'), decimal('9'), decimal('1'), decimal('100'), async (value) => value)).between).toBeNull();
    const low = await bisect(decimal('3'), decimal('9'), decimal('1'), decimal('3'), async (value) => value);
    expect(low.between).toMatchObject({ short: null });
    expect(low.between!.reached.value.toFixed()).toBe('3');
  });
});

describe('the knobs', () => {
  const at = (knob: Parameters<typeof turnKnob>[1], value: string): Rates => turnKnob(card, knob, decimal(value));

  it('turn one thing and leave the card as it was', () => {
    const before = structuredClone(card);
    expect(at({ turn: 'labour-rate', labourClass: 'general' }, '141.5').labourClasses.map(({ rate }) => rate)).toEqual([
      '141.5',
      '162.00',
      '175.00',
    ]);
    expect(at({ turn: 'labour-percent' }, '-2.5').labourClasses.map(({ rate }) => rate)).toEqual(['146.25', '157.95', '170.63']);
    expect(at({ turn: 'supplies-percent' }, '7.25').supplies).toMatchObject({ percent: '7.25', maximum: '45.00' });
    expect(at({ turn: 'supplies-maximum' }, '40').supplies).toMatchObject({ percent: '6', maximum: '40' });
    expect(at({ turn: 'mark-up-shift' }, '-45.5').parts.tiers.map(({ percent }) => percent)).toEqual(['54.5', '24.5', '0', '0']);
    expect(at({ turn: 'fee', fee: 'coolant-disposal' }, '8').fees.map(({ amount }) => amount)).toEqual(['8', '3.00']);
    expect(card).toEqual(before);
    for (const turned of [at({ turn: 'labour-percent' }, '3'), at({ turn: 'mark-up-shift' }, '3')])
      expect(parseRates(turned).ok).toBe(true);
  });
});

describe('goal seek', () => {
  const rates = must(
    parseRates(
      aRateCard({
        labourClasses: [
          { id: 'general', title: 'General', rate: '100.00' },
          { id: 'fine', title: 'Fine work', rate: '160.00' },
        ],
        supplies: { title: 'Shop supplies', percent: '6', of: ['labour'], minimum: null, maximum: '45.00' },
      }),
    ),
  );
  const jobs = [
    anEstimate([labourLine('a', '6'), labourLine('b', '2', { labourClass: 'fine' })]),
    anEstimate([labourLine('a', '10'), partLine('p', '1', '50.00', { cost: '30.00' })]),
  ];
  const general: Goal = {
    knob: { turn: 'labour-rate', labourClass: 'general' },
    from: '50',
    to: '300',
    step: '0.01',
    figure: 'effectiveLabourRate',
    target: '140',
  };
  const ask = (goal: Partial<Goal>, before: Rates = rates, after: Rates = before) =>
    seekGoal(() => jobs, empty, before, after, { ...general, ...goal });

  it('what general rate gives an effective labour rate of 140? By the closed form', async () => {
    // (16 r + 2 × 160) ÷ 18 = 140, so r = 137.50.
    const answer = await ask({});
    expect(answer).toMatchObject({
      ok: true,
      target: '140.00',
      monotone: true,
      priced: 2,
      leftOut: 0,
      reached: { value: '137.5', figure: '140.00' },
      short: { value: '137.49', figure: '139.99' },
    });
    if (!answer.ok) throw new Error();
    expect(answer.rates).toEqual({ ...rates, labourClasses: [{ ...rates.labourClasses[0]!, rate: '137.5' }, rates.labourClasses[1]!] });
    const checked = await replay(jobs, empty, rates, answer.rates);
    expect(checked).toMatchObject({ ok: true, result: { after: { effectiveLabourRate: '140.00' } } });
  });

  it('what supplies percent keeps gross profit when the maximum is 40?', async () => {
    // Before: 6 % of 920.00 and of 1000.00, at most 45.00 each: 90.00. With at most 40.00 each, 80.00 is all there is.
    const capped = { ...rates, supplies: { ...rates.supplies!, maximum: '40.00' } };
    const percent: Partial<Goal> = {
      knob: { turn: 'supplies-percent' },
      from: '0',
      to: '30',
      step: '0.1',
      figure: 'grossProfit',
      target: 'as before',
    };
    const never = await ask(percent, rates, capped);
    expect(never).toMatchObject({ ok: false, target: '2030.00', problems: [{ code: 'out-of-reach' }] });
    if (never.ok) throw new Error();
    expect(never.problems[0]!.message).toContain(
      'No value from 0 to 30 does it: the target is 2030.00, 0 gives 1940.00 and 30 gives 2020.00',
    );

    // Without a maximum 1920.00 × p = 90.00: 4.6875, so 4.7 on a grid of tenths.
    const free = { ...rates, supplies: { ...rates.supplies!, maximum: null } };
    expect(await ask(percent, rates, free)).toMatchObject({
      ok: true,
      reached: { value: '4.7', figure: '2030.24' },
      short: { value: '4.6', figure: '2028.32' },
    });
  });

  it('counts wages where they are given', async () => {
    const answer = await seekGoal(() => jobs, empty, rates, rates, { ...general, figure: 'grossProfit', target: '1000' }, { wage: '40' });
    // 16 r + 320 + supplies (90 above 750.00 each) + 20 − 18 × 40 = 1000, so 16 r = 1290 and r = 80.63 (80.625 rounded up to the step).
    expect(answer).toMatchObject({ ok: true, reached: { value: '80.63' } });
  });

  it('agrees with a replay of made-up estimates at the answer and at its neighbour', async () => {
    const some = new MadeUpEstimates(catalogue, 25, 3);
    const answer = await seekGoal(() => some, catalogue, card, card, {
      knob: { turn: 'mark-up-shift' },
      from: '-30',
      to: '60',
      step: '0.5',
      figure: 'partsMargin',
      target: '20000',
    });
    if (!answer.ok || answer.short === null) throw new Error(JSON.stringify(answer));
    for (const { value, figure } of [answer.reached, answer.short]) {
      const checked = await replay(some, catalogue, card, turnKnob(card, { turn: 'mark-up-shift' }, decimal(value)));
      if (!checked.ok) throw new Error();
      expect(checked.result.after.partsMargin).toBe(figure);
    }
    expect(decimal(answer.reached.figure).gte(20000)).toBe(true);
    expect(decimal(answer.short.figure).lt(20000)).toBe(true);
  });

  it('what a card cannot price is left out of every trial', async () => {
    const odd = anEstimate([labourLine('a', '5', { labourClass: 'nowhere' })]);
    const answer = await seekGoal(() => [odd, 'no JSON', ...jobs], empty, rates, rates, general);
    expect(answer).toMatchObject({ ok: true, priced: 2, leftOut: 2, reached: { value: '137.5' } });
  });

  it.each<[string, Partial<Goal>, string]>([
    ['a class that is not there', { knob: { turn: 'labour-rate', labourClass: 'none' } }, 'goal.knob'],
    ['a fee that is not there', { knob: { turn: 'fee', fee: 'none' } }, 'goal.knob'],
    ['a target that is no figure', { target: 'lots' }, 'goal.target'],
    ['a JSON number', { from: 5 as never }, 'goal.from'],
    ['a figure that is not there', { figure: 'happiness' as never }, 'goal.figure'],
    ['a range upside down', { from: '9', to: '8' }, 'goal.to'],
    ['a range below zero', { from: '-1' }, 'goal.from'],
    ['a step of nothing', { step: '0' }, 'goal.step'],
    ['too fine a step', { step: '0.0000000001' }, 'goal.step'],
  ])('refuses %s', async (_, goal, path) => {
    expect(await ask(goal)).toMatchObject({ ok: false, problems: [{ path }] });
  });

  it('says so where there is no such figure', async () => {
    expect(await seekGoal(() => [], empty, rates, rates, general)).toMatchObject({ ok: false, problems: [{ code: 'nothing-to-measure' }] });
    const parts = [anEstimate([partLine('p', '1', '50.00')])];
    expect(await seekGoal(() => parts, empty, rates, rates, general)).toMatchObject({
      ok: false,
      problems: [{ code: 'nothing-to-measure' }],
    });
  });

  it('tells of each trial and can be cancelled between them', async () => {
    const control = new AbortController();
    const told: number[] = [];
    const run = seekGoal(() => jobs, empty, rates, rates, general, {
      signal: control.signal,
      onTrial: (done, about) => {
        expect(about).toBeGreaterThanOrEqual(done);
        told.push(done);
        if (done === 3) control.abort(new Error('enough'));
      },
    });
    await expect(run).rejects.toThrow('enough');
    expect(told).toEqual([0, 1, 2, 3]);
  });
});
