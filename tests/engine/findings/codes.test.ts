/** Trouble codes: what is listed, and what explains it. The form itself is checked in tests/published. */
import { expect, it } from 'vitest';
import { explainedCodes } from '../../../src/findings/codes.js';
import { parseEstimate } from '../../../src/index.js';
import { aCatalogue, anEstimate, aRateCard, readDocuments } from '../../support/builders.js';

const finding = (id: string, codes?: string[]) => ({
  id,
  round: 1,
  component: '',
  position: '',
  fault: '',
  seen: [],
  urgency: 'now',
  text: '',
  ...(codes === undefined ? {} : { codes }),
});

it('are listed once, with their findings; those that only a finding names come after', () => {
  const json = {
    ...anEstimate([], { findings: [finding('a', ['P0171', 'P0300']), finding('b', ['P0171']), finding('c')] as never }),
    codes: [{ code: 'U0100-87', note: 'stored' }, { code: 'P0171' }],
  };
  const { estimate } = readDocuments({ estimate: json, catalogue: aCatalogue(), rates: aRateCard() });
  expect(explainedCodes(estimate).map(({ code, note, findings, listed }) => [code, note, findings.map(({ id }) => id), listed])).toEqual([
    ['U0100-87', 'stored', [], true],
    ['P0171', '', ['a', 'b'], true],
    ['P0300', '', ['a'], false],
  ]);
});

it('a malformed code in a file is told with its place', () => {
  const read = parseEstimate({ ...anEstimate([], { findings: [finding('a', ['P0171', 'P017'])] as never }), codes: [{ code: 'p0171' }] });
  expect(read.ok).toBe(false);
  expect(read.problems.map(({ code, path }) => `${code} ${path}`).sort()).toEqual([
    'trouble-code codes[0].code',
    'trouble-code findings[0].codes[1]',
  ]);
});

it('an estimate that uses none of the new keys does not gain them', () => {
  const json = anEstimate([], { rounds: [{ n: 1, method: '', clean: false, note: '' }], findings: [finding('a')] as never });
  const read = parseEstimate(json);
  if (!read.ok) throw new Error('must read');
  expect(JSON.parse(JSON.stringify(read.value))).toEqual(json);
});
