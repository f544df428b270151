import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseEstimate } from '../../../src/documents/estimate.js';
import type { Line } from '../../../src/documents/lines.js';
import { linesFromCsv, type LinesFromCsv, type LinesRead } from '../../../src/exchange/lines-from-csv.js';
import { linesToCsv } from '../../../src/exchange/lines-to-csv.js';
import { tableForm } from '../../../src/exchange/print-table.js';
import { forAll, randomDocuments } from '../../support/arbitraries.js';
import {
  aCatalogue,
  anEstimate,
  anOperation,
  labourLine,
  operationLine,
  partLine,
  priceDocuments,
  readDocuments,
  aRateCard,
} from '../../support/builders.js';
import type { LineDoc } from '../../support/oracle-documents.js';

const catalogue = {
  operations: readDocuments({
    estimate: anEstimate([]),
    catalogue: aCatalogue({ operations: [anOperation('hose', '1', { title: 'Renew a hose' })] }),
    rates: aRateCard(),
  }).catalogue.operations,
};

const read = (text: string, more: Partial<LinesFromCsv> = {}): LinesRead =>
  linesFromCsv(text, { locale: 'en-US', catalogue, there: [], labourClass: 'general', ...more });

function linesOf(json: readonly object[]): Line[] {
  const parsed = parseEstimate(anEstimate(json as LineDoc[]));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value.lines;
}

describe('lines as a table', () => {
  it('come back as they were, in any locale, with the price beside them or without', () => {
    forAll(150, (d) => {
      const documents = randomDocuments(d);
      const { estimate } = readDocuments(documents);
      const locale = d.pick(['en-US', 'de-DE', 'fr-FR', 'ja-JP']);
      const priced = d.chance(50) ? priceDocuments(documents) : null;
      const result = read(linesToCsv({ lines: estimate.lines, form: tableForm(locale), priced }), { locale });
      expect(result).toEqual({ lines: estimate.lines, bad: [], problems: [] });
    });
  });

  it('come back whatever their words are', () => {
    const words = fc
      .array(fc.constantFrom('=', '-', '+1', '@', '\t', '\r\n', '\n', "'", '"', ',', ';', '\\', ' ', 'x', 'é', '＝', '5'), { maxLength: 7 })
      .map((parts) => parts.join(''));
    const word = words.filter((text) => /\S/.test(text));
    fc.assert(
      fc.property(
        words,
        words,
        fc.uniqueArray(word, { maxLength: 3 }),
        fc.constantFrom('en-US', 'de-DE'),
        (title, note, positions, locale) => {
          const lines = linesOf([
            { ...operationLine('a', 'hose', { positions, extraHours: { hours: '0.5', reason: title } }), note },
            { ...partLine('b', '-2.5', '19.90', { title, number: note }), note: title },
            { id: 'c', kind: 'note', text: title, note },
            { id: 'd', kind: 'fee', title, amount: '-12.50' },
          ]);
          expect(read(linesToCsv({ lines, form: tableForm(locale) }), { locale }).lines).toEqual(lines);
        },
      ),
      { numRuns: 800 },
    );
  });

  it('keep what no column holds', () => {
    const lines = linesOf([{ ...partLine('a', '1', null), supplier: 'Made-up Parts' }]);
    const text = linesToCsv({ lines, form: tableForm('en-US') });
    expect(read(text).lines).toEqual(lines);
    expect(read(text.replace('{""supplier', '{supplier')).bad[0]!.reasons[0]).toContain('The column More');
  });

  it('tell what was worked out where there is a price, and pass over it when read', () => {
    const documents = {
      estimate: anEstimate([operationLine('a', 'hose')]),
      catalogue: aCatalogue({ operations: [anOperation('hose', '1', { title: 'Renew a hose' })] }),
      rates: aRateCard(),
    };
    const priced = priceDocuments(documents);
    const text = linesToCsv({ lines: readDocuments(documents).estimate.lines, form: tableForm('en-US'), priced });
    const [headings, row] = text.split('\r\n').map((line) => line.split(','));
    expect(row![headings!.indexOf('Amount')]).toBe('100.00');
    expect(row![headings!.indexOf('Work')]).toBe('Renew a hose');
    expect(row![headings!.indexOf('Price')]).toBe('');
    expect(read(text).problems).toEqual([]);
  });

  it('negative figures stay figures; a formula is guarded', () => {
    const lines = linesOf([partLine('a', '-1', '12.50', { title: '=1+1' })]);
    const text = linesToCsv({ lines, form: tableForm('en-US') });
    expect(text).toContain(',-1,');
    expect(text).toContain(",'=1+1,");
  });
});

describe('a table of others', () => {
  it('is read by its headings; the kind is told by what is filled in', () => {
    const { lines, problems } = read('Description,Hrs,Qty,Unit price,Colour\nRenew a hose,,,,\nFit a lamp,0.4,,,\nLamp,,2,4.50,red\n', {});
    expect(lines.map((line) => line.kind)).toEqual(['note', 'labour', 'part']);
    expect(lines[1]).toMatchObject({ title: 'Fit a lamp', hours: '0.4', labourClass: 'general' });
    expect(lines[2]).toMatchObject({ title: 'Lamp', qty: '2', unitPrice: '4.50' });
    expect(problems.map(({ code, message }) => [code, message])).toEqual([['unknown-columns', 'These columns are passed over: Colour.']]);
  });

  it('finds an operation by its words', () => {
    expect(read('Kind,Work\noperation,renew a HOSE').lines[0]).toMatchObject({ kind: 'operation', operation: 'hose' });
    expect(read('Kind,Work\noperation,Renew the moon').bad).toEqual([
      { line: 2, reasons: ['The catalogue has no operation called "Renew the moon".'] },
    ]);
  });

  it('gives a line whose id is in use another one', () => {
    const there = linesOf([labourLine('l1', '1'), labourLine('l2', '1')]);
    const { lines } = read('Line,Kind,Book hours\nl1,labour,2\nx,labour,3\nx,labour,4\ntwo words,labour,5', { there });
    expect(new Set([...there, ...lines].map(({ id }) => id)).size).toBe(6);
    expect(lines[1]!.id).toBe('x');
  });

  it.each([
    ['Kind,Book hours\nlabour,soon', 'Book hours: "soon" is not a figure'],
    ['Kind,Work\ntalk,x', '"talk" is not a kind of line'],
    ['Kind,Cost\npart,-5', 'below zero'],
    ['Kind,Decision\nnote,maybe', '"maybe", which is not one of the choices'],
    ['Kind,Operation,Parts\noperation,hose,clip many', '"many" says nothing about the part "clip"'],
    ['Kind,Taxes\nnote,a b*c', 'is not an id'],
    ['Kind,Condition\npart,shiny', 'not one of the choices'],
  ])('%j is bad: %s', (text, reason) => {
    const { lines, bad } = read(text);
    expect(lines).toEqual([]);
    expect(bad.map(({ line }) => line)).toEqual([2]);
    expect(bad[0]!.reasons.join(' ')).toContain(reason);
  });

  it('that says nothing known is refused with the columns that are', () => {
    expect(read('Colour,Size\nred,5')).toMatchObject({ lines: [], problems: [{ code: 'no-headings', path: 'line 1' }] });
    expect(read('').problems.map(({ code }) => code)).toEqual(['empty-text']);
  });

  it('never throws, and what it gives is an estimate that reads', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.constantFrom(
            'Kind',
            'Work',
            'Book hours',
            'labour',
            'part',
            'operation',
            'hose',
            ',',
            '\n',
            '"',
            '=',
            '1',
            '-',
            ';',
            '{}',
            'More',
            'Parts',
          ),
          { maxLength: 40 },
        ),
        (parts) => {
          const { lines } = read(parts.join(''));
          expect(parseEstimate({ format: 'baysheet-estimate', version: 1, id: 'x', lines }).ok).toBe(true);
        },
      ),
      { numRuns: 1500 },
    );
  });
});
