/** The parts run as a table for other programs. */
import { expect, it } from 'vitest';
import { partsRunCsv, partsRunText } from '../../../components/estimate/parts-run-text.js';
import { planPartsRun } from '../../../src/index.js';
import { aCatalogue, anEstimate, anOperation, aPart, aRateCard, operationLine, partLine, readDocuments } from '../../support/builders.js';

const approved = { decision: 'approved' as const };
const plan = planPartsRun(
  readDocuments({
    estimate: anEstimate([
      operationLine('a', 'job', approved),
      partLine('b', '1.5', '5.00', { ...approved, title: '=HYPERLINK("x")', number: '=1+1', core: '2.00' }),
      partLine('c', '2', '5.00', { ...approved, title: 'Seal', number: 'S-1' }),
    ]),
    catalogue: aCatalogue({
      parts: [aPart('seal', '1.00', { title: 'Seal; large', number: 'S-1' })],
      operations: [anOperation('job', '1', { title: 'The job', parts: [{ part: 'seal', qty: '2' }] })],
    }),
    rates: aRateCard(),
  }),
);

it('is a CSV file with a row for each part, guarded against formulas', () => {
  // OWASP, "CSV Injection": a cell that begins with = or + is run as a formula.
  const lines = partsRunCsv(plan, 'en-US').split('\r\n');
  expect(lines[0]).toBe('Supplier,Part,Number,Condition,To get,Cores back,To give back,For,State,Note');
  expect(lines[1]).toBe(',"Seal; large",S-1,new,4,,,"2 for The job; 2 for Seal",to find,');
  expect(lines[2]).toBe(`,"'=HYPERLINK(""x"")",'=1+1,new,1.5,1.5,,"'=HYPERLINK(""x"")",to find,`);
});

it('takes the form of the locale', () => {
  expect(partsRunCsv(plan, 'de').split('\r\n')[2]).toContain(';new;"1,5";"1,5";');
});

it('is text with tabs for the clipboard', () => {
  expect(partsRunText(plan, 'en-US').split('\r\n')[0]!.split('\t')).toHaveLength(10);
});
