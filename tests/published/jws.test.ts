/**
 * The signed link against outside sources: RFC 7515 (JSON Web Signature), RFC 7518 (its algorithms), RFC 4648
 * (base64url), Node's own cryptography, and the check value of the CRC-32 of IEEE 802.3.
 */
import { createPrivateKey, createPublicKey, sign, verify } from 'node:crypto';
import { compactVerify, importJWK } from 'jose';
import { describe, expect, it } from 'vitest';
import { decodeBase64url, encodeBase64url } from '../../src/share/base64url.js';
import { crc32 } from '../../src/share/crc32.js';
import { signCompact, verifyCompact } from '../../src/share/jws.js';
import { readKeys } from '../../src/share/keys.js';
import { hasLowS, withLowS } from '../../src/share/low-s.js';

const ascii = (text: string): Uint8Array => Uint8Array.from(text, (character) => character.charCodeAt(0));

/**
 * RFC 7515 appendix A.3: key, and the octets R and S of its signature over the message of A.1. From MEMORY; a slip in a single digit would
 * make the verification below fail.
 */
const A3 = {
  jwk: {
    kty: 'EC',
    crv: 'P-256',
    x: 'f83OJ3D2xF1Bg8vub9tLe1gHMzV76e8Tus9uPHvRVEU',
    y: 'x_FEzRu9m36HLN_tue659LNpXW6pCyStikYjKIWI5a0',
    d: 'jpsQnnGQmL-YBIffH1136cspYG6-0iY7X1fCE9-E9LI',
  },
  input: 'eyJhbGciOiJFUzI1NiJ9.eyJpc3MiOiJqb2UiLA0KICJleHAiOjEzMDA4MTkzODAsDQogImh0dHA6Ly9leGFtcGxlLmNvbS9pc19yb290Ijp0cnVlfQ',
  signature: 'DtEhU3ljbEg8L38VWAfUAqOyKAM6-Xx-F4GawxaepmXFCgfTjDxw5djxLa8ISlSApmWQxfKTUJqPP3-Kg6NU1Q',
};

describe('RFC 7515', () => {
  it('A.1: the base64url of a header (MEMORY, recomputed here)', () => {
    const header = ascii('{"typ":"JWT",\r\n "alg":"HS256"}');
    expect(encodeBase64url(header)).toBe('eyJ0eXAiOiJKV1QiLA0KICJhbGciOiJIUzI1NiJ9');
    expect(decodeBase64url('eyJ0eXAiOiJKV1QiLA0KICJhbGciOiJIUzI1NiJ9')).toEqual(header);
  });

  it('appendix C: base64url of 3, 236, 255, 224, 193 (MEMORY)', () => {
    expect(encodeBase64url(Uint8Array.of(3, 236, 255, 224, 193))).toBe('A-z_4ME');
  });

  it('A.3: its ES256 signature holds for Node, for jose, and for jose with the lower s', async () => {
    const { input, signature, jwk } = A3;
    const key = createPublicKey({ key: jwk, format: 'jwk' });
    const bytes = decodeBase64url(signature)!;
    const holds = (given: Uint8Array): boolean => verify('sha256', ascii(input), { key, dsaEncoding: 'ieee-p1363' }, given);
    expect(holds(bytes)).toBe(true);

    // Its s is in the upper half, so here it would be refused in that spelling.
    expect(hasLowS(bytes)).toBe(false);
    const low = withLowS(bytes);
    expect(hasLowS(low)).toBe(true);
    expect(holds(low)).toBe(true);
    const { d: _, ...open } = jwk;
    const { payload } = await compactVerify(`${input}.${encodeBase64url(low)}`, await importJWK(open, 'ES256'));
    expect(new TextDecoder().decode(payload)).toBe('{"iss":"joe",\r\n "exp":1300819380,\r\n "http://example.com/is_root":true}');
  });

  it('A.3 is accepted in its one spelling here, with the lower s, by a page that trusts its key', async () => {
    const { input, signature, jwk } = A3;
    const { d: _, ...open } = jwk;
    const keys = await readKeys([{ ...open, kid: 'a3' }]);
    expect(await verifyCompact(`${input}.${signature}`, keys)).toEqual({ ok: false, code: 'signature' });
    const verified = await verifyCompact(`${input}.${encodeBase64url(withLowS(decodeBase64url(signature)!))}`, keys);
    if (!verified.ok) throw new Error(verified.code);
    expect(new TextDecoder().decode(verified.payload)).toBe('{"iss":"joe",\r\n "exp":1300819380,\r\n "http://example.com/is_root":true}');
  });
});

describe('RFC 4648 section 10, test vectors (MEMORY)', () => {
  it.each([
    ['', ''],
    ['f', 'Zg'],
    ['fo', 'Zm8'],
    ['foo', 'Zm9v'],
    ['foob', 'Zm9vYg'],
    ['fooba', 'Zm9vYmE'],
    ['foobar', 'Zm9vYmFy'],
  ])('%s', (plain, encoded) => {
    expect(encodeBase64url(ascii(plain))).toBe(encoded);
    expect(decodeBase64url(encoded)).toEqual(ascii(plain));
  });
});

it('CRC-32 of IEEE 802.3: the check value of "123456789" is CBF43926 (MEMORY)', () => {
  expect(crc32(ascii('123456789')).toString(16)).toBe('cbf43926');
});

describe("Node's own cryptography", () => {
  const privateKey = createPrivateKey({ key: A3.jwk, format: 'jwk' });
  const publicKey = createPublicKey({ key: A3.jwk, format: 'jwk' });
  const random = (i: number): Uint8Array => Uint8Array.from({ length: 1 + (i % 97) }, (_, k) => (i * 31 + k * 17) % 256);

  it('verifies 1,000 texts that were signed here, and they keep to the lower s', async () => {
    const key = await crypto.subtle.importKey('jwk', A3.jwk, { name: 'ECDSA', namedCurve: 'P-256' }, false, ['sign']);
    for (let i = 0; i < 1000; i += 1) {
      const token = await signCompact(random(i), { kid: 's1', privateKey: key });
      const [head, body, signature] = token.split('.') as [string, string, string];
      const bytes = Buffer.from(signature, 'base64url');
      if (!verify('sha256', ascii(`${head}.${body}`), { key: publicKey, dsaEncoding: 'ieee-p1363' }, bytes) || !hasLowS(bytes)) {
        throw new Error(`Node refuses ${token}`);
      }
    }
  });

  it('signs 1,000 texts that are accepted here', async () => {
    const keys = await readKeys([{ ...A3.jwk, kid: 's1' }]);
    for (let i = 0; i < 1000; i += 1) {
      const input = `${encodeBase64url(ascii('{"alg":"ES256","kid":"s1"}'))}.${Buffer.from(random(i)).toString('base64url')}`;
      const signature = sign('sha256', ascii(input), { key: privateKey, dsaEncoding: 'ieee-p1363' });
      const verified = await verifyCompact(`${input}.${encodeBase64url(withLowS(signature))}`, keys);
      if (!verified.ok || Buffer.compare(verified.payload, random(i)) !== 0)
        throw new Error(`refused: ${input} ${JSON.stringify(verified)}`);
      if (!hasLowS(signature)) {
        expect(await verifyCompact(`${input}.${encodeBase64url(signature)}`, keys)).toEqual({ ok: false, code: 'signature' });
      }
    }
  });
});
