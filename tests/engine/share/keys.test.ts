/** Which trusted keys are read: ECDSA P-256 with a name, from a list or a set; all else is passed over. */
import { beforeAll, describe, expect, it } from 'vitest';
import { readKeys } from '../../../src/share/keys.js';
import { newKey } from './sealed.js';

type Jwk = Record<string, unknown>;
let jwk: Jwk;
let other: Jwk;

beforeAll(async () => {
  jwk = (await newKey('s1')).publicJwk as unknown as Jwk;
  other = (await newKey('s2')).publicJwk as unknown as Jwk;
});

const names = async (trusted: unknown): Promise<string[]> => [...(await readKeys(trusted as never)).keys()];

it('from a list and from a set, whatever else is in it', async () => {
  expect(await names([jwk, other])).toEqual(['s1', 's2']);
  expect(await names({ keys: [other, jwk], more: 1 })).toEqual(['s2', 's1']);
  expect(await names([{ ...jwk, use: 'sig', alg: 'ES256', key_ops: ['verify'] }])).toEqual(['s1']);
});

it('the first of two with one name', async () => {
  const first = await readKeys([jwk] as never);
  const both = await readKeys([jwk, { ...other, kid: 's1' }] as never);
  const coordinate = async (keys: typeof first): Promise<unknown> => (await crypto.subtle.exportKey('jwk', keys.get('s1') as CryptoKey)).x;
  expect([both.size, await coordinate(both)]).toEqual([1, await coordinate(first)]);
});

describe('passes over, and reads what comes after,', () => {
  it.each<[string, (good: Jwk) => unknown]>([
    ['null', () => null],
    ['a text', () => 's1'],
    ['another kind', (good) => ({ ...good, kty: 'RSA' })],
    ['another curve', (good) => ({ ...good, crv: 'P-384' })],
    ['no x', ({ x: _, ...good }) => good],
    ['no y', ({ y: _, ...good }) => good],
    ['an x that is too short', (good) => ({ ...good, x: String(good['x']).slice(0, -2) })],
    ['a y with another alphabet', (good) => ({ ...good, y: `${String(good['y']).slice(0, -1)}+` })],
    ['an x that goes on and on', (good) => ({ ...good, x: 'A'.repeat(1000) })],
    ['numbers', (good) => ({ ...good, x: 1, y: 2 })],
    ['a point that is not on the curve', (good) => ({ ...good, y: good['x'] })],
    ['no name', ({ kid: _, ...good }) => good],
    ['a name that is a number', (good) => ({ ...good, kid: 1 })],
    ['a name with a space', (good) => ({ ...good, kid: 's 1' })],
  ])('%s', async (_, spoil) => expect(await names([spoil(jwk), other])).toEqual(['s2']));
});

it.each([null, undefined, 4, 'keys', {}, { keys: 's1' }, []])('none in %j', async (trusted) => expect(await names(trusted)).toEqual([]));
