/**
 * How long links get, without the address in front. The aims: 1,600 characters for 12 lines, 4,500 for 40. Sizes are the
 * same in every run, so a change that makes links longer shows here. Where an aim is missed, the figure is what was
 * measured, with a little room.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { sealEstimate } from '../../../src/share/seal.js';
import { heldOutBrakes, heldOutCooling, heldOutForty, heldOutSpanish } from './held-out.js';
import { manyLines, WORDS } from './lengths.js';
import { firstLines, newKey, type TestKey } from './sealed.js';

let key: TestKey;
beforeAll(async () => {
  // As long a name as components/share/keys.ts gives.
  key = await newKey('s-Ab3dE9');
});

type Sealable = Parameters<typeof sealEstimate>[0];

const lengthOf = async (documents: Sealable): Promise<number> => (await sealEstimate(documents, key)).length;

/** The same where the page says itself who the shop is, and the link need not. */
const published = (documents: Sealable): Sealable => ({ ...documents, shop: { ...documents.shop, published: true } });

describe('operations of the demonstration’s catalogue, in the words of its van, which the dictionary’s author knew', () => {
  it.each([
    [12, 'fault', 1_150],
    [12, 'evidence', 1_300],
    [12, 'sentences', 1_600],
    [40, 'fault', 2_350],
    [40, 'evidence', 2_500],
    [40, 'sentences', 4_500],
  ] as const)('%i operations, said of each: %s; at most %i', async (count, words, most) => {
    expect(WORDS).toContain(words);
    for (const from of [0, 20, 40]) expect(await lengthOf(manyLines(count, words, from))).toBeLessThanOrEqual(most);
  });

  it('the first 12 lines of the demo van, with every word of 14 findings: beyond the aim of 1,600', async () => {
    expect(await lengthOf(firstLines(12))).toBeLessThan(1_710);
    expect(await lengthOf(published(firstLines(12)))).toBeLessThan(1_655);
  });
});

describe('estimates that were worded before the dictionary was, with a sentence for each finding', () => {
  it('40 lines all over the vehicle: at most 4,500', async () => {
    expect(await lengthOf(heldOutForty())).toBeLessThanOrEqual(4_000);
  });

  it.each([
    ['a cooling job of the demonstration’s catalogue', heldOutCooling, 1_845, 1_740],
    ['a brake job of another catalogue, in the words of another country', heldOutBrakes, 1_780, 1_685],
    ['a cooling job in Spanish', heldOutSpanish, 1_705, 1_625],
  ] as const)('12 lines, %s: beyond the aim, but less than $2 characters, and than $3 where the page knows the shop', async (...row) => {
    const [, made, most, mostWithoutShop] = row;
    const { length, advice } = await sealEstimate(made(), key);
    expect(length).toBeLessThan(most);
    expect(await lengthOf(published(made()))).toBeLessThan(mostWithoutShop);
    expect(advice.map(({ code }) => code)).toEqual(['no-qr']);
  });
});
