/**
 * Tables against what is published.
 *
 * RFC 4180, "Common Format and MIME Type for Comma-Separated Values (CSV) Files", section 2, rules 1 to 7 with their
 * examples: from memory, the text was not read for this test.
 *
 * OWASP, "CSV Injection" (owasp.org, community page): its list of first characters and its two examples of a sanitised
 * cell, as noted from the page's text.
 */
import { describe, expect, it } from 'vitest';
import { guardCell } from '../../src/exchange/guard.js';
import { printTable } from '../../src/exchange/print-table.js';
import { readTable } from '../../src/exchange/read-table.js';

const cells = (text: string): (readonly string[])[] => readTable(text).rows.map((row) => row.cells);

describe('RFC 4180, section 2', () => {
  it.each<[rule: number, text: string, expected: string[][]]>([
    [
      1,
      'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      2,
      'aaa,bbb,ccc\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      3,
      'field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [
        ['field_name', 'field_name', 'field_name'],
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [4, 'aaa,bbb,ccc', [['aaa', 'bbb', 'ccc']]],
    [
      5,
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      6,
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'b\r\nbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [7, '"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
  ])('rule %d is read', (_, text, expected) => {
    expect(cells(text)).toEqual(expected);
  });

  it('rule 4: spaces are part of a cell', () => {
    expect(cells('aaa, bbb ,ccc\n')).toEqual([['aaa', ' bbb ', 'ccc']]);
  });

  it('is how tables are written: CR LF after each line, quotes where they are needed, quotes doubled', () => {
    expect(
      printTable(
        [
          ['aaa', 'b"bb', 'c,c'],
          ['zzz', 'y\r\ny', ''],
        ],
        { separator: ',' },
      ),
    ).toBe('aaa,"b""bb","c,c"\r\nzzz,"y\r\ny",\r\n');
  });
});

describe('OWASP, CSV Injection', () => {
  it.each(['=', '+', '-', '@', '\t', '\r', '\n'])('no cell begins with %j', (first) => {
    expect(guardCell(`${first}x`)).toBe(`'${first}x`);
  });

  it.each([
    ['=1+2";=1+2', `"'=1+2"";=1+2"`],
    [`=1+2'" ;,=1+2`, `"'=1+2'"" ;,=1+2"`],
  ])('%j is written as the page writes it, but that what would begin a cell after a separator is guarded too', (cell, sanitised) => {
    const written = printTable([[cell]], { separator: ',' }).trimEnd();
    expect(written.startsWith(`"'=1+2`)).toBe(true);
    // Without the second guard of ours it is the page's own text.
    expect(written.replace(/([;,])'=/g, '$1=')).toBe(sanitised);
    expect(cells(`x,${written}`)).toEqual([['x', cell]]);
  });

  it('negative figures, of which the page says nothing, stay figures', () => {
    expect(['-150.00', '-0.5', '-6.25%'].map(guardCell)).toEqual(['-150.00', '-0.5', '-6.25%']);
  });
});
