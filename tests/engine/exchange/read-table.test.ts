import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LIMITS } from '../../../src/documents/limits.js';
import { readTable } from '../../../src/exchange/read-table.js';

const cells = (text: string): (readonly string[])[] => readTable(text).rows.map((row) => row.cells);

describe('reading a table', () => {
  it('takes CR LF, LF and CR, a byte order mark, and a last line without an end', () => {
    for (const end of ['\r\n', '\n', '\r'])
      expect(cells(`\ufeffId,Hours${end}a,1${end}b,2`)).toEqual([
        ['Id', 'Hours'],
        ['a', '1'],
        ['b', '2'],
      ]);
  });

  it('counts lines through quoted cells and empty rows', () => {
    const { rows } = readTable('Id,Note\r\na,"two\r\nlines"\r\n\r\n,\r\nb,x\n');
    expect(rows.map(({ line, cells: [id] }) => [line, id])).toEqual([
      [1, 'Id'],
      [2, 'a'],
      [6, 'b'],
    ]);
  });

  it('tells the separator by what divides the lines evenly', () => {
    expect(readTable('Operation;Hours\nHose, upper;1,5\nHose, lower;1,5').separator).toBe(';');
    expect(readTable('Operation,Hours\nHose; upper,1.5\nPump,2').separator).toBe(',');
    expect(readTable('Operation\tHours\nHose, upper\t1,5').separator).toBe('\t');
    expect(readTable('"a;b;c",d\n"e;f;g",h').separator).toBe(',');
    expect(readTable('only one column\nhose').separator).toBe(',');
  });

  it('stops before quotes that make no sense, and says in which line', () => {
    const open = readTable('Id,Note\na,fine\nb,"never ends\nc,more');
    expect(open.rows.map((row) => row.cells[0])).toEqual(['Id', 'a']);
    expect(open.problems).toEqual([expect.objectContaining({ severity: 'error', code: 'quotes', path: 'line 3' })]);
    const after = readTable('Id,Note\n"two\nlines",x\nb,"ends" here,1\nc,2');
    expect(after.rows).toHaveLength(2);
    expect(after.problems[0]!.path).toBe('line 4');
    expect(after.problems[0]!.message).toContain(' here');
  });

  it('takes a quote inside a cell for what it is', () => {
    expect(cells('Id,Size\na,3/8" hose\nb,"3/8"" hose"')).toEqual([
      ['Id', 'Size'],
      ['a', '3/8" hose'],
      ['b', '3/8" hose'],
    ]);
  });

  it.each([
    ['', 'empty-text'],
    [' \r\n', 'empty-text'],
    ['PK\u0003\u0004…', 'not-text'],
  ])('refuses %j', (text, code) => {
    expect(readTable(text).problems.map((problem) => problem.code)).toEqual([code]);
    expect(readTable(text).rows).toEqual([]);
  });

  it('reads as many rows as a document may have, and says what it left', () => {
    const { rows, problems } = readTable('a,b\n'.repeat(LIMITS.entries + 5));
    expect(rows).toHaveLength(LIMITS.entries);
    expect(problems[0]!.path).toBe(`line ${LIMITS.entries + 1}`);
    expect(readTable('a'.repeat(LIMITS.characters + 1)).problems[0]!.code).toBe('too-large');
  });

  it('takes as many columns as anybody has, and refuses a row with more, naming its line', () => {
    const row = (cells: number): string => Array(cells).fill('a').join(',');
    expect(readTable(row(LIMITS.columns))).toMatchObject({ rows: [{ line: 1 }], problems: [] });
    expect(readTable(`a,b\n${row(LIMITS.columns + 1)}\n`)).toMatchObject({
      rows: [],
      problems: [{ severity: 'error', code: 'too-wide', path: 'line 2', message: 'The row has 1001 cells; 1,000 is the most.' }],
    });
  });

  it('never throws, and keeps the words of every sound table', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('"', ',', ';', '\t', '\r', '\n', 'a', '=', "'"), { maxLength: 30 }), (parts) => {
        const text = parts.join('');
        const { rows, problems } = readTable(text);
        if (problems.length > 0) return;
        const words = text.replace(/[^a]/g, '').length;
        expect(
          rows
            .flatMap((row) => row.cells)
            .join('')
            .replace(/[^a]/g, ''),
        ).toHaveLength(words);
      }),
      { numRuns: 3000 },
    );
  });
});
