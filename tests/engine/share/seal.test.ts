/** Sealing and opening: what goes in comes out, what was touched is refused in words. */
import { readFileSync } from 'node:fs';
import { deflateRawSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import { priceEstimate } from '../../../src/index.js';
import { decodeBase64url, encodeBase64url } from '../../../src/share/base64url.js';
import { customerCopy } from '../../../src/share/customer-copy.js';
import { DICTIONARY_2 } from '../../../src/share/dictionary.js';
import { signCompact } from '../../../src/share/jws.js';
import { layout } from '../../../src/share/layout.js';
import { withLowS } from '../../../src/share/low-s.js';
import { openEstimate } from '../../../src/share/open.js';
import { packCopy, PACK_LIMITS, unpackCopy } from '../../../src/share/pack.js';
import { sealEstimate } from '../../../src/share/seal.js';
import { printRow } from '../../../src/share/slots.js';
import { packText } from '../../../src/share/text-coder.js';
import { forAll, randomDocuments } from '../../support/arbitraries.js';
import { readDocuments } from '../../support/builders.js';
import { demoDocuments } from './documents.js';
import { newKey, sealedDemo, shop, type TestKey } from './sealed.js';

const seed = Number(process.env['BAYSHEET_SEED'] ?? 1);
const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);

let key: TestKey;
let token: string;
let trusted: TestKey['publicJwk'][];

beforeAll(async () => {
  key = await newKey();
  trusted = [key.publicJwk];
  ({ token } = await sealedDemo(key));
});

async function codeOf(text: string, keys: Parameters<typeof openEstimate>[1] = trusted): Promise<string> {
  const opened = await openEstimate(text, keys);
  return opened.ok ? 'ok' : opened.code;
}

/** The three parts, for putting others together. */
function parts(): [string, string, string] {
  return token.split('.') as [string, string, string];
}

describe('sealEstimate and openEstimate', () => {
  it('gives back the copy, the time and the hash', async () => {
    const documents = { ...demoDocuments(), shop };
    const sealed = await sealEstimate(documents, key, { at: new Date('2026-03-02T15:04:05.678Z') });
    const opened = await openEstimate(sealed.token, trusted);
    expect(opened).toEqual({ ok: true, copy: customerCopy(documents), sealedAt: '2026-03-02T15:04:05Z', hash: sealed.hash });
    if (opened.ok) expect(priceEstimate(opened.copy).totals.total).toBe(priceEstimate(documents).totals.total);
    expect(sealed.length).toBe(sealed.token.length);
    const digest = await crypto.subtle.digest('SHA-256', decodeBase64url(sealed.token.split('.')[1]!)! as Uint8Array<ArrayBuffer>);
    expect(sealed.hash).toBe(encodeBase64url(new Uint8Array(digest)));
  });

  it('takes a JWK set, other keys beside its own, and unusable ones', async () => {
    const other = await newKey('s0');
    expect(await codeOf(token, { keys: [other.publicJwk, ...trusted] })).toBe('ok');
    const odd = [null, 4, {}, { kty: 'RSA', kid: 's1' }, { ...other.publicJwk, x: 'A' }, { ...key.publicJwk, y: other.publicJwk.y }];
    expect(await codeOf(token, [...odd, ...trusted] as never)).toBe('ok');
    for (const none of [[], {}, null, undefined, 'keys', odd])
      expect(await openEstimate(token, none as never)).toMatchObject({ ok: false, code: 'keys' });
  });

  it('says how long the link is and what that means', async () => {
    const advised = async (address: string) => (await sealedDemo(key, { address })).advice.map(({ code }) => code);
    expect(await advised('a'.repeat(500))).toEqual(['long-for-messages', 'no-qr']);
    expect(await advised('a'.repeat(8000))).toEqual(['use-file', 'no-qr']);
    const { estimate, ...others } = demoDocuments();
    const short = await sealEstimate(
      { ...others, estimate: { ...estimate, findings: [], rounds: [], concern: '', lines: estimate.lines.slice(16, 17) } },
      key,
    );
    expect(short.length).toBeLessThan(1000);
    expect(short.advice).toEqual([]);
  });

  it('refuses what cannot be priced, and what cannot be signed with', async () => {
    const documents = demoDocuments();
    const [first, ...others] = documents.estimate.lines;
    const unpriced = {
      ...documents,
      estimate: { ...documents.estimate, lines: [{ ...first!, operation: 'unheard' } as typeof first & object, ...others] },
    };
    await expect(sealEstimate(unpriced, key)).rejects.toMatchObject({
      code: 'incomplete',
      message: expect.stringMatching(/lines\[0\].*unheard/),
    });
    await expect(sealEstimate(documents, { ...key, kid: 'no name' })).rejects.toMatchObject({ code: 'key' });
    const verifier = await crypto.subtle.importKey('jwk', key.publicJwk, { name: 'ECDSA', namedCurve: 'P-256' }, false, ['verify']);
    await expect(sealEstimate(documents, { kid: 's1', privateKey: verifier })).rejects.toMatchObject({ code: 'key' });
  });

  it('says that an estimate is too long for a link', async () => {
    const documents = demoDocuments();
    let state = 1;
    const noise = (): string =>
      Array.from({ length: 9000 }, () => String.fromCharCode(33 + ((state = (state * 48271) % 2147483647) % 90))).join('');
    const findings = documents.estimate.findings.map((finding) => ({ ...finding, text: noise() }));
    await expect(sealEstimate({ ...documents, estimate: { ...documents.estimate, findings } }, key)).rejects.toMatchObject({
      code: 'too-long',
    });
  });
});

describe('a shop that the page says itself', () => {
  const published = { ...shop, published: true };
  const opened = async (given: string, said: unknown) => {
    const result = await openEstimate(given, { keys: trusted, ...(said === undefined ? {} : { shop: said }) } as never);
    if (!result.ok) throw new Error(result.code);
    return result.copy.shop;
  };
  const nothing = { name: '', phone: '', email: '', address: '', terms: '' };

  it('is left out of the link, which is shorter by it, and comes back from beside the keys', async () => {
    const sealed = await sealEstimate({ ...demoDocuments(), shop: published }, key);
    expect(sealed.length).toBeLessThan(token.length - 50);
    expect(await opened(sealed.token, shop)).toEqual(shop);
  });

  it('is told by nobody where the page does not, and of what is no text nothing is taken over', async () => {
    const sealed = await sealEstimate({ ...demoDocuments(), shop: published }, key);
    for (const said of [undefined, null, 4, 'shop', [], {}]) expect(await opened(sealed.token, said)).toEqual(nothing);
    expect(await codeOf(sealed.token)).toBe('ok');
    const odd = { name: 7, phone: ['1'], email: null, __proto__: { terms: 'theirs' }, toString: 'x', secret: 'y', address: 'here' };
    expect(await opened(sealed.token, odd)).toEqual({ ...nothing, address: 'here' });
  });

  it('is as the link says where it says anything', async () => {
    const sealed = await sealEstimate({ ...demoDocuments(), shop: { name: 'Other Garage' } }, key);
    expect(await opened(sealed.token, shop)).toEqual({ ...nothing, name: 'Other Garage' });
    expect(await opened(token, { name: 'Another' })).toEqual(shop);
  });

  it('stands in the file all the same', () => {
    expect(customerCopy({ ...demoDocuments(), shop: published }).shop).toEqual(shop);
  });
});

describe('what is refused', () => {
  it('alg none, HS256 with the public key as secret, other algorithms, headers with more in them', async () => {
    const [, body, signature] = parts();
    const withHeader = (header: string): string => `${encodeBase64url(ascii(header))}.${body}.${signature}`;
    for (const header of [
      '{"alg":"none"}',
      '{"alg":"none","kid":"s1"}',
      '{"alg":"HS256","kid":"s1"}',
      '{"alg":"ES384","kid":"s1"}',
      '{"alg":"es256","kid":"s1"}',
      '{"alg":"ES256"} ',
      '{ "alg":"ES256"}',
      '{"alg":"ES256","alg":"ES256"}',
      '{"alg":"ES256","kid":""}',
      '{"kid":"s1","alg":"ES256"}',
      '{"alg":"ES256","kid":"s1" }',
      '{"alg":"ES256","kid":"s1","crit":["b64"],"b64":false}',
      '{"alg":"ES256","kid":"s1","kid":"s1"}',
      '{"alg":"ES256","kid":"s1","jwk":{}}',
      '{"alg":"ES256","kid":1}',
      '{"alg":"ES256","kid":"\\u0073\\u0031"}',
      '\ufeff{"alg":"ES256","kid":"s1"}',
      '[]',
      'null',
      '',
      '{',
    ]) {
      expect(await codeOf(withHeader(header)), header).toBe('algorithm');
    }
    const header = encodeBase64url(ascii('{"alg":"HS256","kid":"s1"}'));
    const secret = await crypto.subtle.importKey(
      'raw',
      ascii(JSON.stringify(key.publicJwk)) as Uint8Array<ArrayBuffer>,
      { name: 'HMAC', hash: 'SHA-256' },
      false,
      ['sign'],
    );
    const mac = new Uint8Array(await crypto.subtle.sign('HMAC', secret, ascii(`${header}.${body}`) as Uint8Array<ArrayBuffer>));
    expect(await codeOf(`${header}.${body}.${encodeBase64url(mac)}`)).toBe('cut-off');
    expect(await codeOf(`${header}.${body}.${encodeBase64url(new Uint8Array([...mac, ...mac]))}`)).toBe('algorithm');
  });

  it('another key, under the same name, another one and under names of what every object has', async () => {
    for (const kid of ['s1', 's2']) expect(await codeOf((await sealedDemo(await newKey(kid))).token)).toBe('signature');
    const second = await newKey('s2');
    const [, body, signature] = parts();
    const named = (kid: string): string => `${encodeBase64url(ascii(`{"alg":"ES256","kid":"${kid}"}`))}.${body}.${signature}`;
    for (const kid of ['s2', '__proto__', 'constructor', 'toString']) expect(await codeOf(named(kid)), kid).toBe('unknown-key');
    expect(await codeOf(named('s2'), [...trusted, second.publicJwk])).toBe('signature');
    // Its name would make it the key that is asked for, were it signed so.
    expect(await codeOf(named('s1'))).toBe('signature');
  });

  it('signed by any key that the page trusts, a link opens; by one that it has given up, no more', async () => {
    const [second, third] = [await newKey('s2'), await newKey('s3')];
    const sealed = (await sealedDemo(second)).token;
    expect(await codeOf(sealed, [key.publicJwk, second.publicJwk, third.publicJwk])).toBe('ok');
    expect(await codeOf(sealed, [key.publicJwk, third.publicJwk])).toBe('signature');
  });

  it('a link whose header names its key, as they were made before, by that key alone', async () => {
    const second = await newKey('s2');
    const input = `${encodeBase64url(ascii('{"alg":"ES256","kid":"s1"}'))}.${parts()[1]}`;
    const signedBy = async ({ privateKey }: TestKey): Promise<string> => {
      const made = await crypto.subtle.sign(
        { name: 'ECDSA', hash: 'SHA-256' },
        privateKey as CryptoKey,
        ascii(input) as Uint8Array<ArrayBuffer>,
      );
      return `${input}.${encodeBase64url(withLowS(new Uint8Array(made)))}`;
    };
    expect(await codeOf(await signedBy(key), [second.publicJwk, key.publicJwk])).toBe('ok');
    expect(await codeOf(await signedBy(second), [second.publicJwk, key.publicJwk])).toBe('signature');
    expect(await codeOf(await signedBy(key), [second.publicJwk])).toBe('unknown-key');
  });

  it('every single bit of the signature, and its other spelling', async () => {
    const [head, body, signature] = parts();
    const bytes = decodeBase64url(signature)!;
    for (let bit = 0; bit < 512; bit += 1) {
      const flipped = Uint8Array.from(bytes);
      flipped[bit >> 3]! ^= 1 << (bit & 7);
      const code = await codeOf(`${head}.${body}.${encodeBase64url(flipped)}`);
      if (code !== 'signature') throw new Error(`bit ${bit}: ${code}`);
    }
    const order = 0xffffffff00000000ffffffffffffffffbce6faada7179e84f3b9cac2fc632551n;
    const s = BigInt(`0x${Buffer.from(bytes.slice(32)).toString('hex')}`);
    const high = Buffer.concat([bytes.slice(0, 32), Buffer.from((order - s).toString(16).padStart(64, '0'), 'hex')]);
    expect(Buffer.compare(withLowS(high), bytes)).toBe(0);
    expect(await codeOf(`${head}.${body}.${encodeBase64url(high)}`)).toBe('signature');
  });

  it('a link that is cut off at any place, or goes on', async () => {
    for (let length = 0; length < token.length; length += 1) {
      const code = await codeOf(token.slice(0, length));
      if (code !== 'cut-off' && code !== 'empty') throw new Error(`cut after ${length}: ${code}`);
    }
    for (const end of ['A', '=', '==', '.', ' ', '\n', '%20', '&x=1', '.AAAA', '\u0000', 'é'])
      expect(await codeOf(token + end), end).toBe('cut-off');
    for (const start of [' ', '.', 'A', '#', 'e=']) expect(await codeOf(start + token), start).toMatch(/^(cut-off|algorithm)$/);
    const [head, body, signature] = parts();
    expect(
      await codeOf(
        `${head}.${body}.${signature.slice(0, -1)}${signature.endsWith('A') ? 'B' : String.fromCharCode(signature.charCodeAt(85) + 1)}`,
      ),
    ).toBe('cut-off');
    expect(await codeOf(`${head}..${signature}`)).toBe('signature');
    expect(await codeOf(`${head}.${body.replace(/-/g, '+').replace(/_/g, '/')}.${signature}`)).toBe('cut-off');
  });

  it('what is longer than any link, before it is decoded', async () => {
    expect(await codeOf('A'.repeat(24_001))).toBe('too-long');
    expect(await codeOf('A.'.repeat(5_000_000))).toBe('too-long');
  });

  it('things that are no text', async () => {
    for (const odd of [null, undefined, 4, {}, [], Symbol('x')]) expect((await openEstimate(odd as never, trusted)).ok).toBe(false);
  });

  it('decompression bombs, signed by the shop itself', async () => {
    const bomb = deflateRawSync(Buffer.alloc(200_000_000, 'a'), { level: 9 });
    expect(bomb.length).toBeGreaterThan(PACK_LIMITS.packed);
    expect(await unpackCopy(bomb)).toEqual({ ok: false, code: 'too-large' });
    expect(await codeOf(await signCompact(bomb, key))).toBe('too-long');

    const small = deflateRawSync(Buffer.alloc(16_000_000, 'a'), { level: 9 });
    expect(small.length).toBeLessThan(PACK_LIMITS.packed);
    expect(await codeOf(await signCompact(small, key))).toBe('damaged');

    // Form 2 says how long it is, in two bytes.
    const longest = form2(Buffer.alloc(65_535, 'a'));
    expect(longest.length).toBeLessThan(200);
    expect(await codeOf(await signCompact(longest, key))).toBe('damaged');
  });

  it('signed bytes that are no estimate', async () => {
    const signed = async (text: string): Promise<string> => codeOf(await signCompact(form1(text), key));
    expect(await signed('2\nwhatever')).toBe('version');
    expect(await signed('')).toBe('version');
    expect(await signed('1')).toBe('damaged');
    expect(await signed('1\n'.repeat(2000))).toBe('damaged');
    expect(await signed(`1\n${'9999999\n'.repeat(300)}`)).toBe('damaged');
    expect(await signed('{"__proto__":{"polluted":true}}')).toBe('version');
    expect(await codeOf(await signCompact(new Uint8Array(), key))).toBe('damaged');
    expect(await codeOf(await signCompact(Uint8Array.of(1, 2, 3), key))).toBe('damaged');
    for (const text of ['', '1', '\n'.repeat(2000), '9999999\n'.repeat(300), '{"__proto__":{"polluted":true}}', '\ud800']) {
      expect(await codeOf(await signCompact(form2(Buffer.from(text)), key)), text).toBe('damaged');
    }
    expect(await codeOf(await signCompact(form2(Uint8Array.of(0xc3, 0x28)), key))).toBe('damaged');
    for (const first of [6, 7, 14, 15, 23, 30, 31, 254, 255])
      expect(await codeOf(await signCompact(Uint8Array.of(first, 0, 0), key)), String(first)).toBe('version');
    for (const bytes of [[22], [22, 0], [22, 0, 0], [22, 0, 9], [22, 255, 255], [22, 1, 1, 7, 7, 7]]) {
      expect(await codeOf(await signCompact(Uint8Array.from(bytes), key)), String(bytes)).toBe('damaged');
    }
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  it('in words: each refusal is a sentence that says what to do', async () => {
    const { token: other } = await sealedDemo(await newKey('s9'));
    for (const text of ['', 'x', other, token.slice(0, -9), 'A'.repeat(30_000)]) {
      const opened = await openEstimate(text, trusted);
      expect(opened).toMatchObject({ ok: false, message: expect.stringMatching(/^[A-Z].*(shop).*\.$/) });
      if (!opened.ok) expect(opened.message).not.toMatch(/JWS|token|base64|payload|null|undefined/);
    }
  });
});

describe(`packCopy and unpackCopy (seed ${seed})`, () => {
  it('give back every copy as it was', async () => {
    const copies: ReturnType<typeof customerCopy>[] = [];
    forAll(
      60,
      (d) => {
        const documents = randomDocuments(d);
        copies.push(customerCopy({ ...readDocuments(documents), shop: d.chance(50) ? shop : {} }));
      },
      { seed },
    );
    for (const copy of copies) {
      const sealable = { copy, sealedAt: '2026-03-02T15:00:00Z' };
      expect(await unpackCopy(packCopy(sealable))).toEqual({ ok: true, value: sealable });
    }
  });

  it('keep texts with line breaks, backslashes and characters of every script', async () => {
    const documents = demoDocuments();
    const words = [
      'a\nb',
      'a\\nb',
      '\\',
      '\\\n\\n',
      'naïve – „quoted“',
      'تبدیلی',
      '修理🔧',
      '1',
      '0',
      '?',
      ' ',
      'l2',
      '\ufeffx',
      '\r\n',
      '\t',
      '{"a":[1]}',
    ];
    const findings = documents.estimate.findings
      .slice(0, words.length)
      .map((finding, i) => ({ ...finding, text: words[i]!, fault: words.at(-1 - i)! }));
    const copy = customerCopy({ ...documents, estimate: { ...documents.estimate, findings, concern: words.join('|') } });
    const sealable = { copy, sealedAt: '2026-03-02T15:00:00Z' };
    expect(await unpackCopy(packCopy(sealable))).toEqual({ ok: true, value: sealable });
  });

  it('refuse to pack what customerCopy has not made', async () => {
    const copy = customerCopy(demoDocuments());
    const renamed = { ...copy, catalogue: { ...copy.catalogue, parts: [...copy.catalogue.parts].reverse() } };
    expect(() => packCopy({ copy: renamed, sealedAt: '' })).toThrow(expect.objectContaining({ code: 'copy' }));
  });

  it('never throw for damaged bytes, and open none but those that were packed', async () => {
    const bytes = packCopy({ copy: customerCopy(demoDocuments()), sealedAt: '2026-03-02T15:00:00Z' });
    for (let i = 0; i < 12; i += 1) {
      const damaged = Uint8Array.from(bytes);
      damaged[(i * 7919) % bytes.length]! ^= 1 << (i % 8);
      expect((await unpackCopy(damaged)).ok).toBe(false);
    }
    for (const length of [4, 100, bytes.length - 1]) expect((await unpackCopy(bytes.slice(0, length))).ok).toBe(false);
    for (const more of [[0], [1], [0, 0, 0, 0, 0, 0]]) expect((await unpackCopy(Uint8Array.from([...bytes, ...more]))).ok).toBe(false);
  });

  it('never throw for a row with any slot exchanged', async () => {
    const slots = rowOf(demoSealable());
    const odd = ['', '9', '99999999', '-1', '__proto__', '?', ',', '1:2:3:4', 'x'.repeat(300), '\\'];
    for (let i = 0; i < slots.length; i += 3) {
      const unpacked = await unpackCopy(form1(['1', ...slots.with(i, odd[i % odd.length]!)].join('\n')));
      if (!unpacked.ok) expect(unpacked.code).toBe('damaged');
    }
  });

  it('open the first form, in which links may still be out, as well as the second', async () => {
    const sealable = demoSealable();
    const first = await unpackCopy(form1(['1', ...rowOf(sealable)].join('\n')));
    expect(first).toEqual({ ok: true, value: sealable });
    expect(await unpackCopy(packCopy(sealable))).toEqual(first);
  });

  // Made once by each form and kept: whoever changes the model, the dictionary or the layout without a new form sees it here.
  it.each(['form-1', 'form-2'])('open what was packed earlier: %s', async (name) => {
    const kept = decodeBase64url(readFileSync(new URL(`./kept/${name}.txt`, import.meta.url), 'utf8').trim())!;
    const unpacked = await unpackCopy(kept);
    expect(unpacked).toMatchObject({ ok: true, value: { sealedAt: '2026-03-02T15:00:00Z' } });
    if (!unpacked.ok) return;
    const { copy } = unpacked.value;
    expect(copy.shop).toEqual(shop);
    expect(copy.estimate.findings.map(({ fault }) => fault)).toEqual([
      'split along the seam',
      'soaked with coolant',
      'cracked at its mountings',
    ]);
    expect(priceEstimate(copy).totals.total).toBe('590.50');
    if (name === 'form-2') expect(packCopy(unpacked.value)).toEqual(kept);
  });
});

function demoSealable() {
  return { copy: customerCopy(demoDocuments()), sealedAt: '2026-03-02T15:00:00Z' };
}

/** The slots of a copy, as printed. */
function rowOf(sealable: Parameters<typeof packCopy>[0]): string[] {
  const row: string[] = [];
  layout.write(sealable, row);
  return printRow(row).split('\n');
}

function form1(text: string): Uint8Array {
  return deflateRawSync(Buffer.from(text));
}

function form2(text: Uint8Array): Uint8Array {
  return Uint8Array.of(22, text.length >> 8, text.length & 255, ...packText(text, new TextEncoder().encode(DICTIONARY_2)));
}
