/** How long links get. The figures are what was measured, with a little room; a change that makes links longer shows here. */
import { beforeAll, expect, it } from 'vitest';
import { sealEstimate } from '../../../src/share/seal.js';
import { manyLines, WORDS } from './lengths.js';
import { firstLines, newKey, type TestKey } from './sealed.js';

let key: TestKey;
beforeAll(async () => {
  key = await newKey();
});

it('the first 12 lines of the demo van, with every word that was found about them', async () => {
  expect((await sealEstimate(firstLines(12), key)).length).toBeLessThan(3_050);
});

it.each([
  [12, 'fault', 1_800],
  [12, 'evidence', 2_050],
  [12, 'sentences', 2_650],
  [40, 'fault', 3_400],
  [40, 'evidence', 3_700],
  [40, 'sentences', 4_650],
] as const)('%i operations, said of each: %s', async (count, words, most) => {
  expect(WORDS).toContain(words);
  for (const from of [0, 20, 40]) expect((await sealEstimate(manyLines(count, words, from), key)).length).toBeLessThan(most);
});
