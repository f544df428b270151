import { describe, expect, it } from 'vitest';
import { keptSource } from '../../../components/rates/replay-kept.js';
import { doJob } from '../../../components/rates/replay-job.js';
import { BATCH, type EstimateSource, everyNth, readBatch } from '../../../components/rates/replay-source.js';
import { knobChoices } from '../../../components/rates/goal-knobs.js';
import type { KeptStore } from '../../../components/storage/port.js';
import { MadeUpEstimates } from '../../../demo/made-up-estimates.js';
import cardOfDemo from '../../../rates/card.demo.json' with { type: 'json' };
import cardOfJapan from '../../../rates/card.japan.json' with { type: 'json' };
import catalogueOfDemo from '../../../rates/catalogue.demo.json' with { type: 'json' };
import { parseCatalogue, parseEstimate, parseRates, type Parsed, replay } from '../../../src/index.js';
import { decimal } from '../../../src/number/decimal.js';
import { turnKnob } from '../../../src/replay/knobs.js';

const must = <T>(parsed: Parsed<T>): T => {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
};
const catalogue = must(parseCatalogue(catalogueOfDemo));
const card = must(parseRates(cardOfDemo));
const numbers = (count: number): EstimateSource => ({ title: 'numbers', count, read: (at) => at });

describe('past estimates', () => {
  it('are read in batches, an error in the place of one that cannot be had', async () => {
    const source: EstimateSource = {
      ...numbers(BATCH + 3),
      async read(at) {
        if (at === BATCH + 1) throw new Error('gone');
        return at;
      },
    };
    expect(await readBatch(source, 0)).toHaveLength(BATCH);
    expect(await readBatch(source, BATCH)).toEqual([BATCH, new Error('gone'), BATCH + 2]);
    expect(await readBatch(source, BATCH * 2)).toEqual([]);
  });

  it('give a sample that is the same each time', async () => {
    const sample = everyNth(numbers(10), 3);
    expect(await readBatch(sample, 0)).toEqual([0, 3, 6, 9]);
    expect(everyNth(numbers(10), 1).count).toBe(10);
  });

  it('come from a store, each when it is read', async () => {
    const texts: Record<string, string> = { a: '{"a":1}', b: '{"b":2}' };
    let read = 0;
    const store = {
      list: async () => Object.keys(texts).map((id) => ({ kind: 'estimate', id, revision: '1', about: '', savedAt: '' })),
      get: async (_kind: string, id: string) => {
        read += 1;
        return id in texts ? { kind: 'estimate', id, revision: '1', about: '', savedAt: '', text: texts[id]! } : null;
      },
    } as unknown as KeptStore;
    const source = await keptSource(store);
    expect([source.title, source.count, read]).toEqual(['2 estimates kept here', 2, 0]);
    delete texts['b'];
    expect(await readBatch(source, 0)).toEqual(['{"a":1}', new Error('estimate b was removed meanwhile')]);
  });
});

describe('made-up estimates', () => {
  it('are the same for the same seed and place, of twenty lines, and can all be priced', async () => {
    const some = new MadeUpEstimates(catalogue, 50, 9);
    expect(some.read(7)).toEqual(new MadeUpEstimates(catalogue, 80, 9).read(7));
    expect(some.read(7)).not.toEqual(new MadeUpEstimates(catalogue, 50, 8).read(7));
    for (const estimate of some) expect(estimate.lines).toHaveLength(20);
    expect(parseEstimate(some.read(0)).problems).toEqual([]);
    const answer = await replay(some, catalogue, card, card);
    expect(answer).toMatchObject({ ok: true, result: { counts: { read: 50, priced: 50 } } });
    // They share teardown, as the lines of a real job do.
    if (answer.ok) expect(decimal(answer.result.before.hoursGivenBack!).div(answer.result.before.hoursCharged!).gt('0.05')).toBe(true);
  });
});

describe('a job', () => {
  it('tells how far it is over all trials of a goal', async () => {
    const some = new MadeUpEstimates(catalogue, 12, 2);
    const told: { done: number; about: number }[] = [];
    const goal = { knob: { turn: 'supplies-percent' }, from: '0', to: '20', step: '1', figure: 'suppliesSales', target: '300' } as const;
    const answer = await doJob({ name: 'goal', of: { catalogue, before: card, after: card, wage: null, goal } }, () => some, 12, {
      onProgress: (progress) => told.push(progress),
    });
    expect(answer.tried?.length).toBeGreaterThan(4);
    expect(told.every(({ done, about }) => done <= about)).toBe(true);
    expect(told.every(({ done }, i) => i === 0 || done >= told[i - 1]!.done)).toBe(true);
  });
});

describe('what a goal may turn', () => {
  it.each([cardOfDemo, cardOfJapan])('is everything on the card, in ranges that the card can hold', (json) => {
    const rates = must(parseRates(json));
    const choices = knobChoices(rates);
    expect(new Set(choices.map(({ key }) => key)).size).toBe(choices.length);
    for (const { knob, from, to, step, now } of choices) {
      expect(decimal(from).lt(to) && decimal(step).gt(0)).toBe(true);
      if (now !== null) expect(decimal(now).gte(from) && decimal(now).lte(to)).toBe(true);
      for (const value of [from, to]) expect(parseRates(turnKnob(rates, knob, decimal(value))).ok).toBe(true);
    }
  });
});
