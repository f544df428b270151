/**
 * Tampered links: none may be accepted. 10,000 with every test run; BAYSHEET_TAMPERED=100000 for all of them, BAYSHEET_SEED to bring a run
 * back.
 */
import { expect, it } from 'vitest';
import { openEstimate } from '../../../src/share/open.js';
import { newKey, sealedDemo } from './sealed.js';

const count = Number(process.env['BAYSHEET_TAMPERED'] ?? 10_000);
const seed = Number(process.env['BAYSHEET_SEED'] ?? Date.now() % 2 ** 31);
const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';
const OTHERS = '.=+/ \n%&#~\u0000\u200b';

function random(): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) % below;
  };
}

it(`refuses ${count} tampered links (seed ${seed})`, { timeout: 300_000 }, async () => {
  const key = await newKey();
  const [{ token }, { token: other }] = await Promise.all([sealedDemo(key), sealedDemo(key, { at: new Date('2026-03-02T15:00:00Z') })]);
  const below = random();
  const at = (): number => below(token.length);
  const letter = (): string => (below(12) === 0 ? OTHERS[below(OTHERS.length)]! : ALPHABET[below(64)]!);
  const splice = (start: number, length: number, put: string): string => token.slice(0, start) + put + token.slice(start + length);

  const ways: Record<string, () => string> = {
    'a character exchanged': () => splice(at(), 1, letter()),
    'two characters exchanged': () => {
      const once = splice(at(), 1, letter());
      const place = at();
      return once.slice(0, place) + letter() + once.slice(place + 1);
    },
    'a character of the signature exchanged': () => splice(token.length - 1 - below(86), 1, letter()),
    'a piece taken out': () => splice(at(), 1 + below(40), ''),
    'characters put in': () => splice(at(), 0, Array.from({ length: 1 + below(8) }, letter).join('')),
    'two neighbours changed over': () => {
      const place = below(token.length - 1);
      return splice(place, 2, token[place + 1]! + token[place]!);
    },
    'a piece moved': () => {
      const [from, length] = [at(), 1 + below(30)];
      const rest = splice(from, length, '');
      const place = below(rest.length + 1);
      return rest.slice(0, place) + token.slice(from, from + length) + rest.slice(place);
    },
    'a piece doubled': () => {
      const [from, length] = [at(), 1 + below(30)];
      return splice(from, 0, token.slice(from, from + length));
    },
    'a piece of another link of the shop': () => {
      const [from, length] = [at(), 1 + below(60)];
      return splice(from, length, other.slice(from, from + length));
    },
    'parts of two links': () => [0, 1, 2].map((k) => (below(2) ? token : other).split('.')[k]).join('.'),
    'cut off': () => token.slice(0, at()),
    'the case of a letter': () => {
      const place = at();
      const letterThere = token[place]!;
      return splice(place, 1, letterThere === letterThere.toLowerCase() ? letterThere.toUpperCase() : letterThere.toLowerCase());
    },
  };

  const genuine = new Set([token, other]);
  const refused = new Map<string, number>();
  const kinds = Object.entries(ways);
  const keys = [key.publicJwk];
  for (let i = 0, tried = 0; tried < count; i += 1) {
    const [how, tamper] = kinds[i % kinds.length]!;
    const tampered = tamper();
    if (genuine.has(tampered)) continue;
    tried += 1;
    const opened = await openEstimate(tampered, keys);
    if (opened.ok) throw new Error(`accepted, ${how}: ${tampered}`);
    refused.set(opened.code, (refused.get(opened.code) ?? 0) + 1);
  }
  for (const text of genuine) expect((await openEstimate(text, keys)).ok).toBe(true);

  // The signature itself must have been what refused many of them: else only the form was tested.
  expect(refused.get('signature')).toBeGreaterThan(count / 3);
  expect(refused.get('damaged') ?? 0).toBe(0);
});
