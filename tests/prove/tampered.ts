/** Tampered links: none may be accepted. The key and the two links are new with each run, what is done to them comes back with the seed. */
import { openEstimate } from '../../src/share/open.js';
import type { Drawing } from '../support/arbitraries.js';
import { newKey, sealedDemo, type TestKey } from '../engine/share/sealed.js';
import type { Count, Proof } from './proof.js';

const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';
const OTHERS = '.=+/ \n%&#~\u0000\u200b';

interface Links {
  readonly key: TestKey;
  readonly token: string;
  readonly other: string;
}

let links: Promise<Links> | null = null;

async function makeLinks(): Promise<Links> {
  const key = await newKey();
  const [{ token }, { token: other }] = await Promise.all([sealedDemo(key), sealedDemo(key, { at: new Date('2026-03-02T15:00:00Z') })]);
  for (const text of [token, other]) if (!(await openEstimate(text, [key.publicJwk])).ok) throw new Error('a genuine link does not open');
  return { key, token, other };
}

const WAYS: Readonly<Record<string, (d: Drawing, links: Links) => string>> = {
  'a character exchanged': (d, { token }) => splice(token, at(d, token), 1, letter(d)),
  'two characters exchanged': (d, { token }) => splice(splice(token, at(d, token), 1, letter(d)), at(d, token), 1, letter(d)),
  'a character of the signature exchanged': (d, { token }) => splice(token, token.length - 1 - d.int(0, 85), 1, letter(d)),
  'a piece taken out': (d, { token }) => splice(token, at(d, token), d.int(1, 40), ''),
  'characters put in': (d, { token }) => splice(token, at(d, token), 0, Array.from({ length: d.int(1, 8) }, () => letter(d)).join('')),
  'two neighbours changed over': (d, { token }) => {
    const place = d.int(0, token.length - 2);
    return splice(token, place, 2, token[place + 1]! + token[place]!);
  },
  'a piece moved': (d, { token }) => {
    const [from, length] = [at(d, token), d.int(1, 30)];
    const rest = splice(token, from, length, '');
    return splice(rest, d.int(0, rest.length), 0, token.slice(from, from + length));
  },
  'a piece doubled': (d, { token }) => {
    const [from, length] = [at(d, token), d.int(1, 30)];
    return splice(token, from, 0, token.slice(from, from + length));
  },
  'a piece of another link of the shop': (d, { token, other }) => {
    const [from, length] = [at(d, token), d.int(1, 60)];
    return splice(token, from, length, other.slice(from, from + length));
  },
  'parts of two links': (d, { token, other }) => [0, 1, 2].map((k) => d.pick([token, other]).split('.')[k]).join('.'),
  'cut off': (d, { token }) => token.slice(0, at(d, token)),
  'the case of a letter': (d, { token }) => {
    const place = at(d, token);
    const there = token[place]!;
    return splice(token, place, 1, there === there.toLowerCase() ? there.toUpperCase() : there.toLowerCase());
  },
};

const at = (d: Drawing, token: string): number => d.int(0, token.length - 1);
const letter = (d: Drawing): string => d.pick([...(d.chance(8) ? OTHERS : ALPHABET)]);
const splice = (text: string, start: number, length: number, put: string): string =>
  text.slice(0, start) + put + text.slice(start + length);

async function tryTampered(d: Drawing, count: Count): Promise<void> {
  const made = await (links ??= makeLinks());
  const how = d.pick(Object.keys(WAYS));
  const tampered = WAYS[how]!(d, made);
  if (tampered === made.token || tampered === made.other) return count('(as it was)');
  const opened = await openEstimate(tampered, [made.key.publicJwk]);
  if (opened.ok) throw new Error(`accepted, ${how}: ${tampered}\nThe genuine link: ${made.token}`);
  count(how);
  count(`(refused: ${opened.code})`);
}

export const tamperedProof: Proof = {
  name: 'tampered',
  what: 'tampered links, none of which may open',
  cases: 100_000,
  few: 10_000,
  // The signature itself must have been what refused many of them: else only the form was tested.
  reach: new Map([...Object.keys(WAYS).map((way): [string, number] => [way, 1]), ['(refused: signature)', 30]]),
  try: tryTampered,
};
