/** The technician's work sheet: the demonstration van, worked out by hand from its catalogue, and single rules on small ones. */
import { describe, expect, it } from 'vitest';
import { type SheetEntry, type WorkSheet, workSheet } from '../../../src/index.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  aPart,
  aRateCard,
  aStep,
  labourLine,
  operationLine,
  partLine,
  priceDocuments,
  readDocuments,
} from '../../support/builders.js';
import type { CatalogueDoc, LineDoc } from '../../support/oracle-documents.js';
import { van } from './van.js';

const approved = { decision: 'approved' as const };

function shortEntry(entry: SheetEntry): string {
  const at = '  '.repeat(entry.depth);
  if (entry.kind !== 'work') return `${at}${entry.kind} ${entry.step}${entry.position === null ? '' : ` ${entry.position}`}`;
  return `${at}${[entry.title, ...entry.positions].join(', ')}`;
}

const short = ({ entries }: WorkSheet): string[] => entries.map(shortEntry);
const work = (sheet: WorkSheet, line: string) =>
  sheet.entries.filter((entry) => entry.kind === 'work').find((entry) => entry.line === line)!;
const close = (sheet: WorkSheet, step: string) =>
  sheet.entries.filter((entry) => entry.kind === 'close').find((entry) => entry.step === step)!;

describe('the van', () => {
  const sheet = workSheet(van());

  // By hand: everything but the cap and the retest needs the lift. Under it, undertray work (5 lines) and brake work
  // (2 lines) share nothing more. Of the undertray's lines, two need no more; the others wait for the coolant, which
  // four need, and the belt, which two need. Each wheel is a place of its own; at the left one, pads and hose share
  // the wheel alone.
  it('is done in this order', () => {
    expect(short(sheet)).toEqual([
      'Replace the pressure cap',
      'open lift',
      '  open undertray',
      '    Cooling system pressure test with dye',
      '    Replace the undertray',
      '    open coolant-out',
      '      Replace a radiator hose, lower',
      '      Replace a heater hose, feed, return',
      '      Replace the thermostat',
      '      open belt-off',
      '        Replace the water pump',
      '        Replace the drive belt',
      '      close belt-off',
      '    close coolant-out',
      '  close undertray',
      '  open wheel-off left front',
      '    open caliper-aside left front',
      '      Replace brake pads at a wheel, left front',
      '    close caliper-aside left front',
      '    open brake-bleed',
      '      Replace a brake hose, left front',
      '    close brake-bleed',
      '  close wheel-off left front',
      '  open wheel-off right front',
      '    open caliper-aside right front',
      '      Replace brake pads at a wheel, right front',
      '    close caliper-aside right front',
      '  close wheel-off right front',
      'close lift',
      'Repeat the pressure test after repair',
    ]);
  });

  it('is numbered in the order of doing, and a closed step names where it was opened', () => {
    expect(sheet.entries.map(({ n }) => n)).toEqual(sheet.entries.map((_, i) => i + 1));
    expect(close(sheet, 'coolant-out').opened).toBe(6);
  });

  it('says a step in the words of the way in and of the way back', () => {
    expect(
      sheet.entries
        .filter((entry) => entry.kind !== 'work' && entry.step === 'coolant-out')
        .map((entry) => entry.kind !== 'work' && entry.words),
    ).toEqual(['Drain the coolant', 'Refill with coolant and bleed']);
  });

  it('tells what each operation puts right, at its position', () => {
    expect(work(sheet, 'l3').findings).toEqual(['Heater hose, feed: seeps at the joint', 'Heater hose, return: swollen and soft']);
    const pads = sheet.entries.filter((entry) => entry.kind === 'work' && entry.line === 'l9');
    expect(pads.map((entry) => entry.kind === 'work' && entry.findings)).toEqual([
      ['Brake pads, left front: worn below the limit'],
      ['Brake pads, right front: worn below the limit'],
    ]);
  });

  it('tells what is renewed on the way back', () => {
    const renew = (step: string) => close(sheet, step).renew.map(({ qty, number }) => `${qty} ${number}`);
    expect(renew('coolant-out')).toEqual(['6 HV-0101-01', '1 HV-0103-02']);
    expect(renew('undertray')).toEqual(['4 HV-0211-04']);
    expect(renew('belt-off')).toEqual([]);
  });

  it('gives the reason of extra hours', () => {
    expect(work(sheet, 'l4').extraHours).toEqual({ hours: '0.6', reason: 'Two bolts seized in the housing: heat and drill out' });
  });

  it('puts each caution before what needs it, in full the first time', () => {
    const lift = sheet.entries[1]!;
    expect(lift.cautions).toEqual([{ n: 2, text: expect.stringContaining('never work under it on a jack alone'), first: true }]);
    // The wheels need the same one again.
    expect(sheet.entries[15]!.cautions).toEqual([
      { n: 2, text: 'Raise and support the vehicle only at its lifting points, on equipment rated for its weight', first: false },
    ]);
    // Hot coolant: before the cap, long before the coolant is drained.
    expect(sheet.entries[0]!.cautions).toEqual([{ n: 1, text: expect.stringMatching(/^Never open a hot cooling system:/), first: true }]);
    const inFull = sheet.entries.flatMap((entry) => entry.cautions).filter(({ first }) => first);
    expect(inFull.map(({ n }) => n)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
  });

  it('ends with the closing test and its limits', () => {
    expect(sheet.entries.at(-1)).toMatchObject({
      kind: 'work',
      closingTest: true,
      limits: '100 kPa, held for 15 minutes; at most 2 kPa may be lost',
    });
    expect(sheet.warnings).toEqual([]);
  });

  it('leaves out nothing that was approved and names no access', () => {
    expect(sheet.loose.map(({ title, what }) => [title, what])).toEqual([
      ['Flush the heater circuit both ways', ''],
      ['Hose clip, 40 mm, stainless, spare for the bypass hose', '2 × HV-2043-40, to fit'],
      ['Laboratory test of a coolant sample', 'sent out'],
    ]);
    expect(sheet.notes).toEqual(['The rust on the radiator support (f14) is to be looked at again at the next service.']);
  });

  it('names no price', () => {
    const documents = van();
    const told = JSON.stringify(sheet);
    const priced = priceDocuments(documents as never);
    const money = [...priced.charges.flatMap(({ unit, amount }) => [unit, amount]), priced.totals.total];
    expect(money.length).toBeGreaterThan(60);
    for (const figure of money) expect(told).not.toContain(figure);
    expect(told).not.toMatch(/\d\.\d\d\b|USD|\$|price"|rate"|cost"/);
  });

  it('without the undertray’s line it is opened all the same; without the retest it is missed', () => {
    const less = workSheet(van(['l2']));
    expect(short(less)).toEqual([
      'open lift',
      '  open undertray',
      '    Cooling system pressure test with dye',
      '    open coolant-out',
      '      Replace a radiator hose, lower',
      '    close coolant-out',
      '  close undertray',
      'close lift',
    ]);
    expect(less.warnings.map(({ code }) => code)).toEqual(['undecided', 'no-closing-test']);
  });
});

describe('single rules', () => {
  const catalogue = (more: Partial<CatalogueDoc>): CatalogueDoc => aCatalogue(more);
  const sheetFor = (lines: LineDoc[], documents: CatalogueDoc): WorkSheet =>
    workSheet(readDocuments({ estimate: anEstimate(lines), catalogue: documents, rates: aRateCard() }));

  it('only approved lines are done', () => {
    const two = catalogue({
      steps: [aStep('s', '1')],
      operations: [anOperation('a', '2', { steps: ['s'] }), anOperation('b', '2', { steps: ['s'] })],
    });
    expect(
      short(sheetFor([operationLine('x', 'a', approved), operationLine('y', 'b'), operationLine('z', 'b', { decision: 'deferred' })], two)),
    ).toEqual(['open s', '  Operation a', 'close s']);
  });

  it('an included operation is told with the one that includes it', () => {
    const inner = catalogue({
      cautions: [{ id: 'c', text: 'Mind it.' }],
      parts: [aPart('p', '1'), aPart('q', '1')],
      steps: [aStep('s', '1'), aStep('t', '0', { cautions: ['c'] })],
      operations: [
        anOperation('big', '5', { steps: ['s'], includes: ['small'] }),
        anOperation('small', '2', { steps: ['t'], parts: [{ part: 'p', qty: '2' }] }),
      ],
    });
    const sheet = sheetFor([operationLine('x', 'small', approved), operationLine('y', 'big', approved)], inner);
    expect(short(sheet)).toEqual(['open s', '  Operation big', 'close s']);
    expect(work(sheet, 'y').includes).toMatchObject([{ line: 'x', title: 'Operation small', parts: [{ part: 'p', qty: '2' }] }]);
    // Its step is part of the larger work, and so is the caution of that step.
    expect(work(sheet, 'y').cautions.map(({ text }) => text)).toEqual(['Mind it.']);
  });

  it('declared overlaps are told on both', () => {
    const pair = catalogue({
      operations: [anOperation('a', '2'), anOperation('b', '2'), anOperation('c', '2')],
      overlaps: [
        { between: ['a', 'b'], hours: '1' },
        { between: ['a', 'c'], hours: '1' },
      ],
    });
    const sheet = sheetFor([operationLine('x', 'a', approved), operationLine('y', 'b', approved), operationLine('z', 'c')], pair);
    expect(work(sheet, 'x').overlaps).toEqual(['Operation b']);
    expect(work(sheet, 'y').overlaps).toEqual(['Operation a']);
  });

  it('positions without a step of their own are one entry', () => {
    const wheels = catalogue({ steps: [aStep('lift', '1')], operations: [anOperation('a', '2', { per: 'position', steps: ['lift'] })] });
    expect(short(sheetFor([operationLine('x', 'a', { ...approved, positions: ['left', 'right'] })], wheels))).toEqual([
      'open lift',
      '  Operation a, left, right',
      'close lift',
    ]);
  });

  it('where the line says another quantity, all of it is fitted with the work; what is left out is nowhere', () => {
    const parts = catalogue({
      parts: [aPart('p', '1'), aPart('q', '1')],
      steps: [
        aStep('s', '1', {
          parts: [
            { part: 'p', qty: '3' },
            { part: 'q', qty: '1' },
          ],
        }),
      ],
      operations: [anOperation('a', '2', { steps: ['s'], parts: [{ part: 'p', qty: '1' }] })],
    });
    const sheet = sheetFor(
      [
        operationLine('x', 'a', {
          ...approved,
          parts: [
            { part: 'p', qty: '7' },
            { part: 'q', omit: true },
          ],
        }),
      ],
      parts,
    );
    expect(work(sheet, 'x').parts.map(({ part, qty }) => [part, qty])).toEqual([['p', '7']]);
    expect(close(sheet, 's').renew).toEqual([]);
  });

  it('an operation that the catalogue lacks is not lost', () => {
    const sheet = sheetFor(
      [
        operationLine('x', 'gone', approved),
        labourLine('y', '1', approved),
        partLine('z', '1', '2', { ...approved, number: 'N-1', condition: 'used' }),
      ],
      catalogue({}),
    );
    expect(sheet.loose.map(({ title, what }) => [title, what])).toEqual([
      ['gone', 'not worked out: ask first'],
      ['Labour y', ''],
      ['Part z', '1 × N-1, used, to fit'],
    ]);
    expect(sheet.warnings.map(({ code, path }) => [code, path])).toEqual([['unclear-line', 'lines[0]']]);
  });

  it('documents that cannot be used give an empty sheet that says why', () => {
    expect(workSheet({ estimate: {}, catalogue: '{', rates: null } as never)).toMatchObject({
      entries: [],
      loose: [],
      warnings: expect.arrayContaining([expect.objectContaining({ severity: 'error' })]),
    });
  });
});
