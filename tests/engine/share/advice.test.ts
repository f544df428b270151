/** What is said of a link by its length: the limits themselves are still good. */
import { expect, it } from 'vitest';
import { adviceFor } from '../../../src/share/advice.js';

it.each([
  [0, []],
  [1000, []],
  [1001, ['no-qr']],
  [2000, ['no-qr']],
  [2001, ['long-for-messages', 'no-qr']],
  [8000, ['long-for-messages', 'no-qr']],
  [8001, ['use-file', 'no-qr']],
])('%i characters: %j', (length, codes) => {
  const advice = adviceFor(length);
  expect(advice.map(({ code }) => code)).toEqual(codes);
  for (const { message } of advice) expect(message).toContain(`The link has ${length} characters`);
});
