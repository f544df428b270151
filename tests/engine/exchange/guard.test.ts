import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { guardCell, unguardCell } from '../../../src/exchange/guard.js';
import { printTable, SEPARATORS } from '../../../src/exchange/print-table.js';
import { readTable } from '../../../src/exchange/read-table.js';

/** Texts that begin, end and go on with everything that matters here. */
const tricky = fc
  .array(
    fc.constantFrom(
      '=',
      '+',
      '-',
      '@',
      '\t',
      '\r',
      '\n',
      "'",
      '"',
      ',',
      ';',
      ' ',
      '\u00a0',
      '＝',
      '－',
      '1',
      '5.5',
      '%',
      'x',
      'é',
      '\ufeff',
    ),
    { maxLength: 8 },
  )
  .map((parts) => parts.join(''));
const cells = fc.oneof(tricky, fc.string());

describe('the guard', () => {
  it.each([
    '=1+1',
    '+1+1',
    '-1+1',
    '@SUM(A1)',
    '\tx',
    '\rx',
    '\nx',
    '"=1',
    ' =1',
    '\u00a0=1',
    '＝1',
    '＋1',
    '－1',
    '＠x',
    '=',
    '-',
    '-x',
    '+49 151 1',
    '-5-3',
    '-5e3',
    '--5',
    '-1,cmd',
  ])('stands before %j', (text) => {
    expect(guardCell(text)).toBe(`'${text}`);
  });

  it.each(['', 'hose', '5', '-150.00', '-1.234,50', "-1'234.50", '+5', '-6.25%', "'quoted'", "it's = fine", '1=1', 'a@b'])(
    'leaves %j alone',
    (text) => {
      expect(guardCell(text)).toBe(text);
    },
  );

  it('is taken off a cell that another program guarded, once', () => {
    expect(["'=1", "'-5", "''=1", "'hose", "'"].map(unguardCell)).toEqual(['=1', '-5', "'=1", "'hose", "'"]);
  });

  it('comes off again, whatever the text', () => {
    fc.assert(
      fc.property(cells, (text) => {
        expect(unguardCell(guardCell(text))).toBe(text);
      }),
      { numRuns: 5000 },
    );
  });

  it.each([
    ['a;=1', "a;'=1"],
    ['a, -b', "a, '-b"],
    ["a\n'=1", "a\n''=1"],
    ['Parts:\n- hose', "Parts:\n'- hose"],
    ['a;"=1"', 'a;"\'=1"'],
    ['\t=1', "'\t'=1"],
  ])('also stands where another separator would begin a cell: %j', (text, guarded) => {
    expect(guardCell(text)).toBe(guarded);
    expect(unguardCell(guarded)).toBe(text);
  });

  it.each(['1, -5; +3.5', 'a;-5\nb', 'hose - upper', 'a = b, c'])('leaves %j alone inside', (text) => {
    expect(guardCell(text)).toBe(text);
  });

  it.each(['\n', ' ', '"', ',', "'", '-', '\t=', ',"'])('a hundred thousand times %j takes no minutes', (piece) => {
    const text = `x${piece.repeat(100_000)}`;
    expect(unguardCell(guardCell(text))).toBe(text);
  });

  it('leaves nothing live, except figures', () => {
    fc.assert(
      fc.property(cells, (text) => {
        const written = guardCell(text);
        if (/^[\s\ufeff]*[=+\-@＝＋－＠]|^[\t\r\n]/.test(written)) expect(written).toMatch(/^[+-]\d[\d.,'’\u00a0\u202f]*%?$/);
      }),
      { numRuns: 3000 },
    );
  });
});

describe('a table', () => {
  it('comes back cell by cell, whatever is in it, with every separator', () => {
    const rows = fc.array(fc.array(cells, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(rows, fc.constantFrom(...SEPARATORS), (table, separator) => {
        const full = [['first', 'row'], ...table.map((row) => ['x', ...row])];
        const read = readTable(printTable(full, { separator }), separator);
        expect(read.problems).toEqual([]);
        expect(read.rows.map((row) => row.cells)).toEqual(full);
      }),
      { numRuns: 1500 },
    );
  });

  it('tells by itself which separator it was written with', () => {
    for (const separator of SEPARATORS) {
      const text = printTable(
        [
          ['Id', 'Operation', 'Hours'],
          ['a', 'Hose, both; "long"', '1,5'],
          ['b', 'Pump', '2'],
        ],
        { separator },
      );
      expect(readTable(text).separator).toBe(separator);
    }
  });

  it('has no cell that another separator would make live', () => {
    // A figure may be followed by what is a separator in its own table: `-5;x` is no formula in any spreadsheet.
    const live = (cell: string): boolean => /^[\s"]*[=+\-@]/.test(cell) && !/^[\s"]*[+-]\d+(\.\d+)?%?\s*"*([,;\t]|$)/.test(cell);
    const words = fc
      .array(fc.constantFrom('=1', ',', ';', '\t', '\n', 'a', ' ', '"', "'", '-', '-5'), { maxLength: 6 })
      .map((parts) => parts.join(''));
    fc.assert(
      fc.property(
        fc.array(words, { minLength: 2, maxLength: 4 }),
        fc.constantFrom(...SEPARATORS),
        fc.constantFrom(...SEPARATORS),
        (row, written, taken) => {
          const text = printTable([row], { separator: written }).trimEnd();
          // As a spreadsheet would that takes another separator for it: quotes hold where a cell begins with one.
          for (const cell of splitAs(text, taken)) expect(live(cell), `${JSON.stringify(text)} by ${JSON.stringify(taken)}`).toBe(false);
        },
      ),
      { numRuns: 1500 },
    );
  });
});

/** Cells as a lenient reader finds them: a quote opens only at the start of a cell, and what follows its end belongs to it. */
function splitAs(text: string, separator: string): string[] {
  const found: string[] = [];
  const ends = (c: string | undefined): boolean => c === separator || c === '\n' || c === '\r';
  for (let at = 0; at <= text.length;) {
    let end = at;
    if (text[at] === '"') {
      end = at + 1;
      while (end < text.length && !(text[end] === '"' && text[end + 1] !== '"')) end += text[end] === '"' ? 2 : 1;
    }
    while (end < text.length && !ends(text[end])) end += 1;
    found.push(text.slice(at, end));
    at = end + 1;
  }
  return found;
}
