/** The write-up: sentences of the van, and that nothing that a person typed is touched. */
import { describe, expect, it } from 'vitest';
import { writeUp } from '../../../src/index.js';
import { emptyTexts, withParagraph } from '../../../src/work/write-up.js';
import { van } from './van.js';

const job = (line: string, documents = van()) => writeUp(documents).jobs.find((each) => each.line === line)!;

describe('the van', () => {
  it('a cause says in which round, what hid it, and how it was seen', () => {
    expect(job('l3').cause).toBe(
      'Found in test round 2 at the heater hose (feed): seeps at the joint. It came to light only after this had been plugged or isolated: radiator hose (lower). ' +
        'Seen as follows: dye trace, ring of dye round the joint after 6 minutes; pressure drop, 100 kPa to 91 kPa in 10 min, with the lower hose plugged. ' +
        'Found in test round 2 at the heater hose (return): swollen and soft. It came to light only after this had been plugged or isolated: radiator hose (lower). ' +
        'Seen as follows: by hand, swollen over the last 60 mm; measured, 26.5 mm against 23 mm, outer diameter at the end against the middle.',
    );
  });

  it('a correction says what was fitted, and why it took longer', () => {
    expect(job('l4').correction).toBe(
      'Carried out. Fitted: Water pump (HV-2020-05); Water pump gasket (HV-2021-01); 6 × Water pump bolt, coated (HV-2022-08); ' +
        '6 × Coolant, ready mixed, 1 litre (HV-0101-01); Seal for the coolant drain plug (HV-0103-02). ' +
        'More work than usual: Two bolts seized in the housing: heat and drill out.',
    );
  });

  it('a closing test asks for its result', () => {
    expect(job('l13').correction).toBe('Carried out. Usual limits: 100 kPa, held for 15 minutes; at most 2 kPa may be lost. Result: …');
  });

  it('is one paragraph for each job under its title, and says whether the list is complete', () => {
    const { cause, correction } = writeUp(van());
    expect(cause.split('\n\n')).toHaveLength(10);
    expect(cause).toMatch(
      /^Replace a radiator hose \(lower\)\nFound in test round 1 at the radiator hose \(lower\): split along the seam\./,
    );
    expect(cause.endsWith('\n\nTest round 3 was clean: nothing more was found.')).toBe(true);
    expect(correction).toContain('\n\nReplace the drive belt\nCarried out. Fitted: Drive belt (HV-2201-06).');
    // One finding is told once, though its line is one of many.
    expect(cause.match(/soaked with coolant/g)).toHaveLength(1);
  });

  it('nothing is said to be done that was not approved, and declined work is no job', () => {
    const begun = writeUp(van([]));
    expect(begun.correction).toBe(
      'Cooling system pressure test with dye\nCarried out. Fitted: Tracer dye for coolant, one dose (HV-0102-01); 4 × Undertray clip (HV-0211-04).',
    );
    expect(begun.jobs.map(({ line }) => line)).not.toContain('l12');
  });

  it('the concern is the customer’s: it stays as it was said', () => {
    expect(writeUp(van()).concern).toBe(van().estimate.concern);
    const documents = van();
    const silent = writeUp({ ...documents, estimate: { ...documents.estimate, concern: ' ' } });
    expect(silent.concern).toMatch(/^No concern is recorded\. Found on the vehicle: radiator hose \(lower\); drive belt; undertray;/);
  });

  it('until a round was clean it says that more may be found', () => {
    const documents = van();
    const rounds = documents.estimate.rounds.slice(0, 2);
    expect(writeUp({ ...documents, estimate: { ...documents.estimate, rounds } }).cause).toMatch(
      /More may be found: round 2, the last one, was not clean\. It found 4\.$/,
    );
  });

  it('names no price', () => {
    const { cause, correction } = writeUp(van());
    expect(`${cause}${correction}`).not.toMatch(/\d\.\d\d\b|USD|\$/);
  });
});

describe('what a person has typed', () => {
  const begun = { concern: 'a', cause: 'b', correction: 'c' };

  it('is never among the texts to fill', () => {
    expect(emptyTexts({ concern: 'mine', cause: '', correction: ' \n' }, begun)).toEqual({ cause: 'b', correction: 'c' });
    expect(emptyTexts({ concern: 'x', cause: 'y', correction: 'z' }, begun)).toEqual({});
    expect(emptyTexts({ concern: '', cause: '', correction: '' }, { ...begun, cause: '' })).toEqual({ concern: 'a', correction: 'c' });
  });

  it('comes before what is added, which is added once', () => {
    expect(withParagraph('Mine.\n', 'Job\nDone.')).toBe('Mine.\n\nJob\nDone.');
    expect(withParagraph('Mine.\n\nJob\nDone.', 'Job\nDone.')).toBe('Mine.\n\nJob\nDone.');
    expect(withParagraph('', 'Job\nDone.')).toBe('Job\nDone.');
  });
});

it('documents that cannot be used begin nothing and say why', () => {
  expect(writeUp({ estimate: 1, catalogue: 2, rates: 3 } as never)).toMatchObject({
    cause: '',
    jobs: [],
    problems: expect.arrayContaining([expect.objectContaining({ severity: 'error' })]),
  });
});
