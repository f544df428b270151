/**
 * `npm run bench`: what pricing, the sheet, links and replays cost, as ratios of one run. Nothing is asserted and nothing is
 * written. `npm run bench -- edit sheet` runs some of its parts.
 */
import { fileURLToPath } from 'node:url';
import type { Estimate } from '../../src/index.js';
import { priceEstimate } from '../../src/index.js';
import type { Line, OperationLine } from '../../src/documents/lines.js';
import { indexCatalogue } from '../../src/overlap/catalogue-index.js';
import { Pricer } from '../../src/pricing/pricer.js';
import { indexRates } from '../../src/pricing/rate-index.js';
import { readDocuments } from '../support/builders.js';
import { decimalSheet, decimalTotal } from './decimals.js';
import { benchDocuments, editedLine } from './documents.js';
import { type Flat, flatten } from './flat.js';
import { floatPrice, floatSheet } from './float.js';
import { benchLinks } from './links.js';
import { type Contender, measure } from './measure.js';
import { benchReplay } from './replay.js';
import { benchSheet } from './sheet.js';
import { benchSizes } from './sizes.js';
import { workbook } from './spreadsheet.js';
import { print, times2 } from './table.js';

const SIZES = [50, 500, 5000];
const EDITED_SIZE = 500;

function prepared(lines: number, declared = false) {
  const documents = readDocuments(benchDocuments(lines, declared));
  const index = indexCatalogue(documents.catalogue);
  const rates = indexRates(documents.rates);
  return { documents, index, rates, flat: flatten(documents.estimate, index, rates) };
}

function wholeSheets(): void {
  const sheets = SIZES.map((lines) => ({ lines, declared: prepared(lines, true), ...prepared(lines) }));
  const contenders = sheets.flatMap(({ lines, documents, index, rates, flat, declared }): Contender[] => {
    const floats = floatSheet(flat);
    const decimals = decimalSheet(flat);
    return [
      { name: `checked ${lines}`, work: () => priceEstimate(documents) },
      { name: `priced ${lines}`, work: () => new Pricer(index, rates).price(documents.estimate) },
      { name: `declared ${lines}`, work: () => new Pricer(declared.index, declared.rates).price(declared.documents.estimate) },
      { name: `decimals ${lines}`, work: () => decimalTotal(decimals, rates) },
      { name: `floats ${lines}`, work: () => floatPrice(floats) },
    ];
  });
  for (const { lines, documents, rates, flat, declared } of sheets) {
    const exact = priceEstimate(documents).totals.total;
    const decimals = decimalTotal(decimalSheet(flat), rates).toFixed(2);
    const floats = floatPrice(floatSheet(flat)).total.toFixed(2);
    const pairs = priceEstimate(declared.documents).overlap.pairs.length;
    console.log(
      `${lines} lines come to ${exact} (decimals alone ${decimals}, floating point ${floats}); with declared overlaps ${pairs} are deducted`,
    );
  }

  const times = measure(contenders);
  const time = (name: string, lines: number): number => times.get(`${name} ${lines}`)!;
  const growth = (name: string, lines: number): string => {
    const before = SIZES[SIZES.indexOf(lines) - 1];
    if (before === undefined) return '';
    return times2(time(name, lines) / lines / (time(name, before) / before));
  };
  print(
    'The whole price',
    'Processor time for a whole sheet; each as a multiple of its decimal arithmetic alone (no engine that is exact can be quicker)\n' +
      'and of the same sum in floating point (which is not exact). Where it grows with the lines only, a line costs 1 x of the size before.',
    ['', 'lines', 'of the decimals', 'of floating point', 'a line, of the size before', 'ms', 'µs a line'],
    [
      ...[
        ['checked', 'documents checked, indexed and priced'],
        ['priced', 'priced'],
        ['declared', 'priced, with declared overlaps'],
        ['decimals', 'the decimal arithmetic alone'],
        ['floats', 'floating point (inexact floor)'],
      ].flatMap(([name, title]) =>
        SIZES.map((lines) => [
          title!,
          String(lines),
          times2(time(name!, lines) / time('decimals', lines)),
          times2(time(name!, lines) / time('floats', lines)),
          growth(name!, lines),
          (time(name!, lines) / 1000).toFixed(3),
          (time(name!, lines) / lines).toFixed(2),
        ]),
      ),
    ],
  );
}

/** One edit, to and fro between two states, in the engine and in the workbook. */
interface Edit {
  readonly title: string;
  readonly lines: readonly [Line, Line];
  readonly cell: 'priced' | 'hours' | 'firstPartPrice';
  readonly values: readonly [number, number];
  /** On labour, of the whole estimate. */
  readonly discount?: string;
  /** With declared overlaps, which the workbook cannot work out. */
  readonly declared?: boolean;
}

function edits(line: OperationLine, part: string): Edit[] {
  const priced = (unitPrice: string): Line => ({
    ...line,
    parts: [{ part, qty: null, unitPrice, cost: null, condition: null, omit: false }],
  });
  const price: Edit = {
    title: 'price of a part',
    lines: [priced('41.37'), priced('52.90')],
    cell: 'firstPartPrice',
    values: [41.37, 52.9],
  };
  const hours: Edit = {
    title: 'book hours of a line',
    lines: [
      { ...line, bookHours: '8.3' },
      { ...line, bookHours: '8.9' },
    ],
    cell: 'hours',
    values: [8.3, 8.9],
  };
  return [
    price,
    hours,
    {
      title: 'decision on a line',
      lines: [
        { ...line, decision: 'declined' },
        { ...line, decision: 'approved' },
      ],
      cell: 'priced',
      values: [0, 1],
    },
    { ...price, title: 'price of a part, 10 % off labour', discount: '10' },
    { ...hours, title: 'book hours of a line, 10 % off labour', discount: '10' },
    { ...hours, title: 'book hours of a line, declared overlaps', declared: true },
  ];
}

function oneEdit(): void {
  const plain = prepared(EDITED_SIZE);
  const declared = prepared(EDITED_SIZE, true);
  const i = editedLine(plain.documents.estimate);
  const line = plain.documents.estimate.lines[i] as OperationLine;
  const all = edits(line, plain.index.operations.get(line.operation)!.parts[0]!.part);

  const contenders = all.flatMap((edit): Contender[] => {
    const engine = engineEdit(edit, edit.declared ? declared : plain, i);
    const cell = edit.declared ? null : workbookEdit(edit, plain.flat, i);
    for (let k = 0; k < 2; k += 1) {
      console.log(
        `${edit.title}: ${engine().totals.total}${cell === null ? '' : `, workbook in floating point ${Number(cell()).toFixed(2)}`}`,
      );
    }
    return [{ name: `engine ${edit.title}`, work: engine }, ...(cell === null ? [] : [{ name: `cell ${edit.title}`, work: cell }])];
  });

  const book = workbook(plain.flat);
  const wholeBook = () => {
    book.engine.rebuildAndRecalculate();
    return book.engine.getCellValue(book.total);
  };
  const times = measure([...contenders, { name: 'whole book', work: wholeBook }]);
  const whole = times.get('whole book')!;
  print(
    `One edit of ${EDITED_SIZE} lines`,
    'Processor time until every figure of the estimate is right again, and of a spreadsheet formula engine for the same sum in floating\n' +
      'point: what it takes for its total after that one cell, and for the whole sheet, as multiples of what it takes here (below 1 it is quicker).',
    ['', 'formula engine, that cell', 'the whole sheet', 'here, µs', 'that cell, µs', 'the whole sheet, µs'],
    all.map(({ title }) => {
      const [engine, cell] = [times.get(`engine ${title}`)!, times.get(`cell ${title}`)];
      const others =
        cell === undefined
          ? ['', '', engine.toFixed(1), '', '']
          : [times2(cell / engine), times2(whole / engine), engine.toFixed(1), cell.toFixed(1), whole.toFixed(0)];
      return [title, ...others];
    }),
  );
}

function engineEdit({ lines, discount }: Edit, { documents, index, rates }: ReturnType<typeof prepared>, i: number) {
  const pricer = new Pricer(index, rates);
  const discounts =
    discount === undefined ? [] : [{ id: 'd', title: 'Off labour', percent: discount, amount: null, on: ['labour' as const], lines: [] }];
  const estimate: Estimate = { ...documents.estimate, discounts };
  const states = lines.map((edited) => ({ ...estimate, lines: estimate.lines.with(i, edited) }));
  let state = 0;
  return () => pricer.price(states[(state = 1 - state)]!);
}

function workbookEdit({ cell, values, discount }: Edit, flat: Flat, i: number) {
  const book = workbook(flat);
  if (discount !== undefined) book.engine.setCellContents(book.discount, Number(discount) / 100);
  let state = 0;
  return () => {
    book.engine.setCellContents(book[cell](i), values[(state = 1 - state)]);
    return book.engine.getCellValue(book.total);
  };
}

async function replays(): Promise<void> {
  const { estimates, seconds, processorSeconds, ratio, heap } = await benchReplay();
  print(
    'Past estimates of 20 lines under two cards',
    'A replay against pricing each estimate twice, one by one; what is in use while it goes on, after collecting garbage, does not grow.',
    ['', 'of pricing each twice', 's of processor', 'ms each', 's', 'heap at the start, MB', 'least on the way', 'most'],
    [
      [
        `${estimates} estimates replayed`,
        times2(ratio),
        processorSeconds.toFixed(1),
        ((processorSeconds / estimates) * 1000).toFixed(2),
        seconds.toFixed(1),
        ...[heap[0]!, Math.min(...heap.slice(1)), Math.max(...heap.slice(1))].map((size) => size.toFixed(1)),
      ],
    ],
  );
}

async function screen(): Promise<void> {
  const { entries, kilobytesPerLine, left } = await benchSheet(beside('page'));
  const [smallest] = entries;
  print(
    'An entry in the sheet, from the key that ends it',
    'Book hours typed into the first line of the real element in a browser, by the clock; each as a multiple of the smallest sheet.',
    ['lines', 'to the painted frame', 'script alone', 'first shown', 'frame, ms', 'script, ms', 'layout, ms', 'first shown, ms'],
    entries.map(({ lines, show, script, layout, paint }) => [
      String(lines),
      times2(paint / smallest!.paint),
      times2(script / smallest!.script),
      times2(show / smallest!.show),
      paint.toFixed(1),
      script.toFixed(1),
      layout.toFixed(1),
      show.toFixed(0),
    ]),
  );
  print(
    'What a page holds on to after collecting garbage',
    'A sheet in memory, line by line; and what is left of each of some dozens of sheets that are gone.',
    ['', 'KB of heap', 'nodes', 'listeners'],
    [
      ['a line of a sheet', kilobytesPerLine.toFixed(1), '', ''],
      ...(
        [
          ['a sheet taken away and put back', left.putBack],
          ['a sheet made and dropped', left.anew],
        ] as const
      ).map(([title, held]) => [title, held.kilobytes.toFixed(1), held.nodes.toFixed(1), held.listeners.toFixed(1)]),
    ],
  );
}

async function links(): Promise<void> {
  const { lines, bytes, times, sealed, opened } = await benchLinks();
  const time = (name: string): number => times.get(name)!;
  print(
    `A link of ${lines} lines (${bytes.text} bytes of text)`,
    'Our form against DEFLATE with the same dictionary; then all that it takes to make a link, and to open one.',
    ['', 'bytes, against DEFLATE', 'time, against DEFLATE', 'bytes', 'ms'],
    [
      [
        'packed',
        times2(bytes.packed / bytes.deflated),
        times2(time('packed') / time('deflated')),
        String(bytes.packed),
        (time('packed') / 1000).toFixed(2),
      ],
      ['unpacked', '', times2(time('unpacked') / time('inflated')), '', (time('unpacked') / 1000).toFixed(2)],
      [
        'DEFLATE with the same dictionary',
        '',
        '',
        String(bytes.deflated),
        `${(time('deflated') / 1000).toFixed(2)}, back ${(time('inflated') / 1000).toFixed(2)}`,
      ],
      ['priced, packed and signed', '', '', '', sealed.toFixed(1)],
      ['verified, unpacked and checked', '', '', '', opened.toFixed(1)],
    ],
  );
}

async function sizes(): Promise<void> {
  const all = await benchSizes(beside('package'));
  const against = (size: number, limit: number | undefined): string => (limit === undefined ? '' : times2(size / limit));
  print(
    'What a page loads, min+gzip',
    'The budgets are held by tests; the aims are what was wished for at the start.',
    ['', 'of its budget', 'of the aim', 'KB', 'budget', 'aim'],
    all.map(({ title, kilobytes, budget, aim }) => [
      title,
      against(kilobytes, budget),
      against(kilobytes, aim),
      kilobytes.toFixed(1),
      budget?.toFixed(1) ?? '',
      aim?.toFixed(1) ?? '',
    ]),
  );
}

/** A folder that `bench.mjs` has built. */
function beside(name: string): string {
  return fileURLToPath(new URL(name, import.meta.url));
}

const PARTS = new Map<string, () => void | Promise<void>>([
  ['sizes', sizes],
  // While the heap is small, as it is where a link is opened.
  ['links', links],
  ['price', wholeSheets],
  ['edit', oneEdit],
  ['sheet', screen],
  ['replay', replays],
]);

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !PARTS.has(name));
if (unknown.length > 0) throw new Error(`The bench has no part "${unknown.join(', ')}". It has: ${[...PARTS.keys()].join(', ')}.`);
for (const [name, part] of PARTS) if (asked.length === 0 || asked.includes(name)) await part();
