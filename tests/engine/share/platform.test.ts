/** Where the platform lacks something, the refusal says what to do; what needs less goes on working. */
import { deflateRawSync } from 'node:zlib';
import { afterEach, beforeAll, expect, it, vi } from 'vitest';
import { signCompact } from '../../../src/share/jws.js';
import { openEstimate } from '../../../src/share/open.js';
import { openReply, sealReply } from '../../../src/share/reply-text.js';
import { sealEstimate } from '../../../src/share/seal.js';
import { firstLines, newKey, sealedDemo, type TestKey } from './sealed.js';

let key: TestKey;
let token: string;
let answer: string;

beforeAll(async () => {
  key = await newKey();
  const sealed = await sealedDemo(key);
  token = sealed.token;
  answer = await sealReply({
    estimate: 'demo-van',
    revision: 1,
    hash: sealed.hash,
    at: '2026-03-02T16:20:00Z',
    name: 'Orla',
    contact: { kind: '', value: '' },
    decisions: { l1: 'approved' },
    total: '1.00',
    currency: 'USD',
    locale: 'en',
    consent: 'Yes.',
  });
});

afterEach(() => vi.unstubAllGlobals());

it('a page that is served over http cannot check or sign, and says where it could; it still reads answers', async () => {
  vi.stubGlobal('crypto', {});
  expect(await openEstimate(token, [key.publicJwk])).toMatchObject({
    ok: false,
    code: 'no-crypto',
    message: expect.stringMatching(/address that begins with https/),
  });
  await expect(sealEstimate(firstLines(3), key)).rejects.toMatchObject({ code: 'no-crypto' });
  expect(await openReply(answer)).toMatchObject({ ok: true, reply: { estimate: 'demo-van' } });
});

it('a page with no cryptography at all', async () => {
  vi.stubGlobal('crypto', undefined);
  expect(await openEstimate(token, [key.publicJwk])).toMatchObject({ ok: false, code: 'no-crypto' });
});

it.each([
  ['without streams that inflate', undefined],
  [
    'with streams that do not know the format',
    class {
      constructor() {
        throw new TypeError('Unsupported compression format');
      }
    },
  ],
])('an old browser, %s: it opens what is packed in form 2, and nothing else', async (_, stream) => {
  vi.stubGlobal('DecompressionStream', stream);
  vi.stubGlobal('CompressionStream', stream);
  expect(await openEstimate((await sealEstimate(firstLines(3), key)).token, [key.publicJwk])).toMatchObject({ ok: true });
  const form1 = await signCompact(deflateRawSync('1'), key);
  expect(await openEstimate(form1, [key.publicJwk])).toMatchObject({
    ok: false,
    code: 'old-browser',
    message: expect.stringMatching(/too old/),
  });
  expect(await openReply(answer)).toMatchObject({ ok: false, code: 'old-browser' });
});
