/** Where parts are bought, how far they have come, and how a step is done are no business of the customer's copy. */
import { expect, it } from 'vitest';
import { customerCopy, type Documents } from '../../../src/index.js';
import { withPartNote } from '../../../src/work/part-notes.js';
import { planPartsRun } from '../../../src/work/parts-plan.js';
import { van } from './van.js';

it('they are not in it', () => {
  const documents = van();
  const part = planPartsRun(documents).suppliers[0]!.parts[0]!;
  const partsRun = withPartNote([], part, { state: 'ordered', note: 'secret note', supplier: 'secret supplier' });
  const lines = documents.estimate.lines.map((line) => (line.kind === 'part' ? { ...line, supplier: 'secret counter' } : line));
  const all: Documents = { ...documents, estimate: { ...documents.estimate, lines, partsRun } };
  const copy = JSON.stringify(customerCopy({ ...all, shop: {} }));
  expect(JSON.stringify(all)).toMatch(/secret note.*secret supplier|secret supplier.*secret note/s);
  expect(JSON.stringify(all)).toContain('Drain the coolant');
  expect(copy).not.toMatch(/secret|Halvern parts counter|Drain the coolant|partsRun/);
});
