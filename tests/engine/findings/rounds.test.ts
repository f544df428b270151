/** A large fault hides a small one: the list is complete when the last test round was clean. */
import { describe, expect, it } from 'vitest';
import { cameToLight, findingName, roundsText, whyIncomplete } from '../../../src/findings/round-words.js';
import { hiddenBy, listComplete } from '../../../src/index.js';
import type { Estimate, Finding, TestRound } from '../../../src/documents/estimate.js';
import { anEstimate, aCatalogue, aRateCard, readDocuments } from '../../support/builders.js';

const round = (n: number, clean = false, more: Partial<TestRound> = {}): TestRound => ({ n, method: '', clean, note: '', ...more });
const finding = (id: string, n: number, more: Partial<Finding> = {}): Finding => ({
  id,
  round: n,
  component: 'hose',
  position: 'lower',
  fault: `fault ${id}`,
  seen: [],
  urgency: 'now',
  text: '',
  ...more,
});
const estimate = (rounds: TestRound[], findings: Finding[] = []): Estimate =>
  readDocuments({ estimate: anEstimate([], { rounds, findings }), catalogue: aCatalogue(), rates: aRateCard() }).estimate;
const catalogue = { components: [{ id: 'hose', title: 'Radiator hose', positions: [] }] };

describe('the list of findings', () => {
  it.each([
    ['no round', [], [finding('a', 1)], false],
    ['a round under way', [round(1)], [], false],
    ['a round that found something', [round(1)], [finding('a', 1)], false],
    ['clean at once', [round(1, true)], [], true],
    ['clean after a round that was not', [round(1), round(2, true)], [finding('a', 1)], true],
    ['another round after a clean one', [round(1, true), round(2)], [], false],
    ['marked clean, but something is recorded in it', [round(1, true)], [finding('a', 1)], false],
    ['something found after the last round', [round(1, true)], [finding('a', 2)], false],
    ['rounds in another order in the file', [round(2, true), round(1)], [finding('a', 1)], true],
  ] as const)('%s', (_, rounds, findings, complete) => {
    const given = estimate([...rounds], [...findings]);
    expect(listComplete(given)).toBe(complete);
    expect(whyIncomplete(given) === '').toBe(complete);
  });

  it('has nothing to say of plain work that nothing was tested or found for', () => {
    expect(listComplete(estimate([]))).toBe(false);
    expect(whyIncomplete(estimate([]))).toBe('');
  });

  it('says why it is not complete', () => {
    expect(whyIncomplete(estimate([], [finding('a', 1)]))).toBe('More may be found: no test round is recorded.');
    expect(whyIncomplete(estimate([round(1)]))).toBe('More may be found: round 1 is not finished.');
    expect(whyIncomplete(estimate([round(1), round(2)], [finding('a', 2), finding('b', 2)]))).toBe(
      'More may be found: round 2, the last one, was not clean. It found 2.',
    );
    expect(whyIncomplete(estimate([round(1, true)], [finding('a', 1)]))).toBe(
      'More may be found: round 1 is marked clean, but 1 finding is recorded in it.',
    );
    expect(whyIncomplete(estimate([round(1, true)], [finding('a', 3)]))).toBe(
      'More may be found: 1 finding is recorded in a round after the last one, round 1.',
    );
  });

  it('tells the rounds in one line', () => {
    expect(roundsText(estimate([round(1, false, { method: 'pressure test' }), round(2, true)], [finding('a', 1)]))).toBe(
      'Round 1 (pressure test): 1 found · Round 2: clean',
    );
  });
});

describe('what came to light later', () => {
  it('was hidden by what was plugged in the round before', () => {
    const given = estimate([round(1), round(2)], [finding('a', 1, { plugged: 'test bung' }), finding('b', 1), finding('c', 2)]);
    expect(hiddenBy(given.findings[2]!, given).map(({ id }) => id)).toEqual(['a']);
    expect(cameToLight(given.findings[2]!, given, catalogue)).toBe(
      'Came to light only in round 2, after this was plugged or isolated: Radiator hose, lower: fault a.',
    );
  });

  it('where no plugging is recorded none is claimed', () => {
    const given = estimate([round(1), round(2)], [finding('a', 1), finding('b', 2)]);
    expect(cameToLight(given.findings[1]!, given, catalogue)).toBe(
      'Came to light only in round 2. Found before it: Radiator hose, lower: fault a.',
    );
  });

  it('looks past a round that found nothing', () => {
    const given = estimate([round(1), round(2), round(3)], [finding('a', 1, { plugged: 'clamp' }), finding('c', 3)]);
    expect(hiddenBy(given.findings[1]!, given).map(({ id }) => id)).toEqual(['a']);
  });

  it('is nothing in the first round, nor where nothing was found before', () => {
    const given = estimate([round(1), round(2)], [finding('a', 2)]);
    expect(cameToLight(given.findings[0]!, given, catalogue)).toBeNull();
    expect(cameToLight(finding('x', 1), given, catalogue)).toBeNull();
  });

  it('goes by what was typed where the catalogue lacks the component', () => {
    expect(findingName(finding('a', 1, { component: 'odd thing', position: '' }), catalogue)).toBe('odd thing: fault a');
    expect(findingName(finding('a', 1, { component: '', position: '', fault: '' }), catalogue)).toBe('a finding without words');
  });
});
